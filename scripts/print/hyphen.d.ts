/** What is used of the package, which ships no types. */
declare module "hyphen" {
	interface Options {
		readonly async: false;
		readonly minWordLength: number;
	}
	/** Puts soft hyphens into text, by the patterns of a language. */
	export default function createHyphenator(patterns: object, options: Options): (text: string) => string;
}
