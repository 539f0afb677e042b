/**
 * A page as a reader needs it: without what its head says to services that show, list or describe it.
 */

const LINKED_DATA = '<script type="application/ld+json">';
const SCRIPT_END = "</script>";

/** Only the head is searched by a pattern: this is asked for every page of a handbook. */
export function forReader({ path, text }: { readonly path: string; readonly text: string }): string {
	if (!path.endsWith(".html")) return text;
	const body = text.indexOf("</head>");
	const head = text
		.slice(0, body + 1)
		.replace(/<meta (?:property="og:|name="twitter:|name="description")[^>]*>\n?/g, "");
	const rest = text.slice(body + 1);
	const data = rest.indexOf(LINKED_DATA);
	const end = data < 0 ? data : rest.indexOf(SCRIPT_END, data);
	return end < 0 ? head + rest : head + rest.slice(0, data) + rest.slice(end + SCRIPT_END.length);
}
