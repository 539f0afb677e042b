/**
 * Everything the measures find, what harms most first; and what the director accepts, with her reasons.
 */

import type { FindingLine, FindingsOf, FindingsView } from "../../scripts/views/findings.ts";
import { type Html, html } from "../../scripts/views/html.ts";
import { findingItem, findingsList } from "../parts/findings-list.ts";
import { a, fold, inlineCode, type PageContext, section } from "../parts/page.ts";

export function findingsPage(ctx: PageContext, view: FindingsView): Html {
	const { words } = ctx;
	const say = words.findingsPage;
	return html`<h1>${words.destinations.findings}</h1>
<p class="lead">${view.count === 0 ? say.allMet : say.against(view.count)}</p>
<p>${say.lead(html`<code>_data/targets.yaml</code>`, a(ctx, { to: "author-guide/#targets", name: say.whatEachMeans }))}</p>
${ways(ctx, view)}
${view.termMend !== undefined && fold(say.termMend, changes(ctx, view.termMend))}
${view.groups.map(({ harm, count, codes }) =>
	section(
		harm,
		`${say.harms[harm]}${words.colon}${count}`,
		codes.map(({ code, measure, lines }) => {
			const entry = words.catalogue[code];
			return html`<h3 id="${code}">${entry.title} <span class="small">${lines.length}</span></h3>
<p>${inlineCode(entry.why)}${measure && html` ${say.measure(a(ctx, measure))}`}</p>
${lines.length > 12 ? fold(say.all(lines.length), list(ctx, lines)) : list(ctx, lines)}`;
		}),
	),
)}
${
	view.accepted.length > 0 &&
	section(
		"accepted",
		`${say.accepted}${words.colon}${acceptedOf(view.accepted)}`,
		html`<p>${say.acceptedLead(html`<code>_data/accepted.yaml</code>`)}</p>
${view.accepted.map(
	({
		lines,
		reason,
		until,
	}) => html`<p><strong>${say.reason}</strong> ${reason}${until !== undefined && html` <span class="small">${say.until(until)}</span>`}</p>
${findingsList(ctx, lines)}`,
)}`,
	)
}`;
}

const acceptedOf = (accepted: FindingsView["accepted"]): number =>
	accepted.reduce((sum, { lines }) => sum + lines.length, 0);

function list(ctx: PageContext, lines: readonly FindingLine[]): Html {
	return html`<ul class="findings">${lines.map((line) => findingItem(ctx, line, whatToDo(ctx, line)))}</ul>`;
}

/**
 * A change list that would mend it, and in the preview the command that accepts it. Neither is a key that
 * writes: the preview only answers, whoever asks.
 */
function whatToDo(ctx: PageContext, { mend, accept }: FindingLine): Html {
	const { findingsPage: say } = ctx.words;
	return html`${mend !== undefined && fold(say.mend, changes(ctx, mend))}${
		!ctx.page.frame.kept &&
		fold(
			say.accept,
			html`<p class="small">${say.acceptLead(html`<code>--club</code>`)}</p><pre data-copy><code>${accept} --reason "${say.yourReason}"</code></pre>`,
		)
	}`;
}

function changes({ words: { findingsPage: say } }: PageContext, list: string): Html {
	return html`<p class="small">${say.mendLead(html`<code>changes.yaml</code>`, html`<code>npm run check -- --what-if changes.yaml</code>`)}</p><pre data-copy><code>${list}</code></pre>`;
}

function ways(ctx: PageContext, { groups, weeks, classes, accepted }: FindingsView): Html | undefined {
	const { findingsPage: say, destinations } = ctx.words;
	if (groups.length === 0 && accepted.length === 0) return undefined;
	const chip = (href: string, name: string, count: number): Html =>
		html`<li><a class="chip" href="${href}">${name} <span class="small">${count}</span></a></li>`;
	const row = (label: string, chips: readonly Html[]): Html | undefined =>
		chips.length === 0
			? undefined
			: html`<div class="labelled"><span class="label">${label}</span><ul class="chips">${chips}</ul></div>`;
	const led = (list: readonly FindingsOf[]): readonly Html[] =>
		list.map(({ link, count }) => chip(ctx.way(link.to), link.name, count));
	return html`<nav aria-label="${say.ways}">${row(say.kinds, [
		...groups.map(({ harm, count }) => chip(`#${harm}`, say.harms[harm], count)),
		...(accepted.length === 0 ? [] : [chip("#accepted", say.accepted, acceptedOf(accepted))]),
	])}${row(destinations.weeks, led(weeks))}${row(destinations.classes, led(classes))}</nav>`;
}
