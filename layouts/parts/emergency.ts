/**
 * What the club says to do first when somebody is hurt: one tap away on every page, over the page, so
 * that what the coach was reading is still there afterwards. A browser opens and closes it by itself:
 * it works without JavaScript and offline, and Escape closes it.
 */

import { type Html, html } from "../../scripts/views/html.ts";
import { sign } from "./icons.ts";
import { a, type PageContext } from "./page.ts";

/** Named by what opens it. */
const PANEL = "in-an-emergency";

/** The key that opens the words; nothing for a club that wrote none. */
export function emergencyKey({ page, words }: PageContext): Html | undefined {
	if (page.frame.emergency === undefined) return undefined;
	return html`<button class="emergency-key" type="button" popovertarget="${PANEL}">${sign("emergency")}${words.frame.emergency}</button>`;
}

/** The words themselves, once on a page. */
export function emergencyPanel(ctx: PageContext): Html | undefined {
	const { page, words } = ctx;
	const { emergency } = page.frame;
	if (emergency === undefined) return undefined;
	return html`<section id="${PANEL}" class="panel emergency-panel" popover aria-labelledby="${PANEL}-title"><h2 id="${PANEL}-title">${sign("emergency")} ${words.frame.inEmergency}</h2>
<p class="emergency-words">${emergency.words}</p>
${emergency.guide && html`<p>${a(ctx, emergency.guide, "button")}</p>`}
${closeKey(ctx, PANEL)}</section>`;
}

/** Closes a panel, for those who do not know that Escape or a tap beside it does. */
export function closeKey({ words }: PageContext, panel: string): Html {
	return html`<p class="panel-end"><button class="button" type="button" popovertarget="${panel}" popovertargetaction="hide">${words.frame.close}</button></p>`;
}
