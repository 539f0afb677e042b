declare module "@11ty/eleventy-plugin-syntaxhighlight" {
	/** Highlights code with Prism; returns a `<pre>`. */
	export function pairedShortcode(
		content: string,
		language: string,
		highlightLines: string | undefined,
		options: { readonly lineSeparator?: string },
	): string;
	const plugin: (config: unknown, options?: unknown) => void;
	export default plugin;
}
