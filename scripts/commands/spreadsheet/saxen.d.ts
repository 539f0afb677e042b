/** The part of the XML reader that is used here; the package brings no types of its own. */
declare module "saxen" {
	export class Parser {
		on(
			event: "openTag",
			heard: (
				name: string,
				attributes: () => Readonly<Record<string, string>>,
				decode: (text: string) => string,
			) => void,
		): this;
		on(event: "closeTag", heard: (name: string) => void): this;
		on(event: "text", heard: (text: string, decode: (text: string) => string) => void): this;
		on(event: "error", heard: (error: Error) => void): this;
		parse(xml: string): void;
	}
}
