/**
 * A page as a reader needs it: without what its head says to services that show, list or describe it.
 */
export function forReader({ path, text }: { readonly path: string; readonly text: string }): string {
	if (!path.endsWith(".html")) return text;
	return text
		.replace(/<meta (?:property="og:|name="twitter:|name="description")[^>]*>\n?/g, "")
		.replace(/<script type="application\/ld\+json">.*?<\/script>/gs, "");
}
