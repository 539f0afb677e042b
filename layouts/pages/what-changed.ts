/**
 * What changed since an earlier edition: for a coach who knew the old one.
 */

import { type Html, html } from "../../scripts/views/html.ts";
import type { ChangeLine } from "../../scripts/views/tell-changes.ts";
import type { ChangedThings, WhatChangedView } from "../../scripts/views/what-changed.ts";
import { scrollTable } from "../parts/measure-parts.ts";
import { a, fold, type PageContext, section } from "../parts/page.ts";

export function whatChangedPage(ctx: PageContext, view: WhatChangedView): Html {
	const { words } = ctx;
	const say = words.whatChanged;
	const { club, term, classes, drills, weeks, others, findings, numbers } = view;
	return html`<h1>${say.title}</h1>
<p class="lead">${say.since(view.since.term, view.since.edition)}</p>
${view.nothing && html`<p class="empty">${say.nothing}</p>`}
${club.length > 0 && section("club", say.club, list(ctx, club))}
${term.length > 0 && section("term", say.term, list(ctx, term))}
${part(ctx, "classes", words.destinations.classes, classes)}
${part(
	ctx,
	"weeks",
	words.destinations.weeks,
	weeks,
	weeks.moved.length > 0 && html`<ul class="rows">${weeks.moved.map((line) => html`<li>${line}</li>`)}</ul>`,
)}
${part(
	ctx,
	"drills",
	words.destinations.drills,
	drills,
	drills.renamed.length > 0 &&
		html`<h3>${say.renamed}</h3><ul class="rows">${drills.renamed.map(({ from, to }) => html`<li>${from} → ${a(ctx, to)}</li>`)}</ul>`,
)}
${
	others.length > 0 &&
	section(
		"others",
		say.others,
		html`<dl class="facts">${others.map(({ kind, names }) => html`<div><dt>${say.kinds[kind]}</dt><dd>${names.join(", ")}</dd></div>`)}</dl>`,
	)
}
${
	findings.come.length + findings.gone.length > 0 &&
	section(
		"findings",
		words.destinations.findings,
		html`${foundList(say.come, findings.come)}${foundList(say.gone, findings.gone)}`,
	)
}
${
	numbers.length > 0 &&
	section(
		"numbers",
		say.numbers,
		fold(
			say.differences(numbers.length + view.more),
			html`<p class="small">${say.largestFirst}${view.more > 0 && ` ${say.more(view.more)}`}</p>
${scrollTable(
	say.numbers,
	[say.measure, html`<span class="left">${say.about}</span>`, say.before, say.after],
	numbers.map(
		(one) =>
			html`<tr><th scope="row">${one.table}, ${one.column}</th><td class="left">${one.about}</td><td>${one.before}</td><td>${one.after}</td></tr>`,
	),
)}`,
		),
	)
}`;
}

function part(
	ctx: PageContext,
	id: string,
	title: string,
	things: ChangedThings,
	more: Html | false = false,
) {
	const { added, removed, changed } = things;
	if (added.length + removed.length + changed.length === 0 && more === false) return undefined;
	const say = ctx.words.whatChanged;
	return section(
		id,
		title,
		html`${added.length > 0 && html`<h3>${say.added}</h3><ul class="rows">${added.map((link) => html`<li>${a(ctx, link)}</li>`)}</ul>`}
${more}
${changed.length > 0 && html`<h3>${say.changed}</h3>${changed.map(({ link, lines }) => html`<article class="changed"><h4>${a(ctx, link)}</h4>${lines.length > 6 ? fold(say.differences(lines.length), list(ctx, lines)) : list(ctx, lines)}</article>`)}`}
${removed.length > 0 && html`<h3>${say.removed}</h3><ul class="rows">${removed.map((name) => html`<li>${name}</li>`)}</ul>`}`,
	);
}

/** For whoever wants to know more: what coaches have to do stands above. */
function foundList(title: string, findings: WhatChangedView["findings"]["come"]): Html | false {
	return (
		findings.length > 0 &&
		fold(
			`${title} (${findings.length})`,
			html`<ul class="rows">${findings.map(({ what }) => html`<li>${what}</li>`)}</ul>`,
		)
	);
}

function list(ctx: PageContext, lines: readonly ChangeLine[]): Html {
	const say = ctx.words.whatChanged;
	return html`<dl class="differences">${lines.map(
		({ about, before, after }) =>
			html`<div><dt>${about}</dt><dd>${before !== undefined && html`<del><span class="sr">${say.before}: </span>${before}</del>`}${after !== undefined && html` <ins><span class="sr">${say.after}: </span>${after}</ins>`}</dd></div>`,
	)}</dl>`;
}
