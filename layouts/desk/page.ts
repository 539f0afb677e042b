/** The page in which the desk's program works. */

import { html } from "../../scripts/views/html.ts";
import type { Words } from "../../scripts/words/words.ts";

/** @param nonce what the editor's style sheet is let in by */
export function deskPage(words: Words, nonce: string): string {
	const say = words.desk;
	return html`<!DOCTYPE html>
<html lang="${words.language}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="robots" content="noindex">
<meta name="color-scheme" content="light dark">
<title>${say.title}</title>
<link rel="icon" href="/assets/icon.svg" type="image/svg+xml">
<link rel="stylesheet" href="desk.css">
<script src="desk.js" defer></script>
</head>
<body>
<div id="desk" data-nonce="${nonce}"><noscript>${say.needsScript}</noscript></div>
</body>
</html>
`.text;
}
