/**
 * The drill library: for each apparatus a list of its drills, then a card for each.
 */

import { drawQr } from "../../scripts/figures/qr.ts";
import type { Movement } from "../../scripts/figures/support.ts";
import type { Id } from "../../scripts/model.ts";
import { type Address, addressOf } from "../../scripts/views/addresses.ts";
import type { DrillMedium, DrillView, SetUp } from "../../scripts/views/drill.ts";
import { type Html, type HtmlValue, html, raw } from "../../scripts/views/html.ts";
import type { Link } from "../../scripts/views/links.ts";
import type { BinderView, DrillLeaves } from "../../scripts/views/sheets/binder.ts";
import { capital } from "../../scripts/views/words.ts";
import type { Words } from "../../scripts/words/words.ts";
import { cueList, levelText, safetyLines } from "../parts/drill-parts.ts";
import { wrongFigures } from "../parts/figures.ts";
import { drawnSign } from "../parts/icons.ts";
import type { Nothing } from "../parts/nothing.ts";
import { longestNumber } from "./page-reference.ts";
import {
	CARD_NUMBERS,
	columns,
	dot,
	evenRuns,
	figureStrip,
	inOneLine,
	inSentence,
	levelRows,
	namesBefore,
	sheetHead,
} from "./pieces.ts";
import { linkIn, pageList, pageOf, pageRun, placeOf, targetsOf, withPages } from "./references.ts";
import type { SheetSection } from "./section.ts";

/** Cards laid out in one go: more takes longer than twice as many goes. */
const CARDS = 72;

/** Of a character of a page's number in a table, px; with the cell's own room beside it. */
const NUMBER_WIDTH = 6.6;
const NUMBER_ROOM = 4;

/** Of a level's marks, under its name written upwards, px; with more levels a list has the page's whole width. */
const LEVEL_WIDTH = 15;
/** Letters of a name that stand on one line, upwards. */
const LEVEL_LETTERS = 26;
const SIDE_BY_SIDE = 6;

/** The drills of an apparatus; nothing where it has none. */
export function drillSection(
	binder: BinderView,
	leaves: DrillLeaves,
	slot: number,
): SheetSection | undefined {
	const { apparatus, cards, elsewhere } = leaves;
	if (cards.length === 0 && elsewhere.length === 0) return undefined;
	const title = binder.words.drillCards.on(apparatus.name);
	const { anchor, label } = placeOf(binder, apparatus.to);
	return {
		title,
		tab: apparatus.name,
		slot,
		parts: evenRuns([undefined, ...cards], CARDS).map((run) => ({
			label,
			head: title,
			html: html`<div class="cards"${earlierPages(binder, label, run)}>${run.map((card) => (card === undefined ? listSheet(binder, leaves) : cardOf(binder, card.view())))}</div>`,
		})),
		targets: [
			{ id: anchor, title, depth: 1 as const },
			...targetsOf(
				binder,
				cards.map((card) => ({ ...card, title: placeOf(binder, card.link.to).name })),
			),
		],
	};
}

/** The cards that shared each page of an earlier edition, for `in-page`: they stay together. */
function earlierPages(
	binder: BinderView,
	label: string,
	run: readonly (DrillLeaves["cards"][number] | undefined)[],
): Html | undefined {
	const { earlier } = binder;
	if (earlier === undefined) return undefined;
	const pages = new Map<number, string[]>();
	for (const card of run) {
		const id = card === undefined ? "" : placeOf(binder, card.link.to).anchor;
		const page = card === undefined ? `${label} 1` : earlier[id];
		if (page?.startsWith(`${label} `) !== true) continue;
		const number = Number(page.slice(label.length));
		pages.set(number, [...(pages.get(number) ?? []), card === undefined ? "opening" : id]);
	}
	const inOrder = [...pages].toSorted(([a], [b]) => a - b);
	return html` data-earlier="${inOrder.map(([, ids]) => ids.join(" ")).join("|")}"`;
}

function listSheet(binder: BinderView, { apparatus, drills, elsewhere, levels }: DrillLeaves): Html {
	const { words } = binder;
	const say = words.drillCards;
	const longest = Math.max(0, ...drills.map(({ link }) => longestNumber(placeOf(binder, link.to)).length));
	const card = Math.ceil(longest * NUMBER_WIDTH) + NUMBER_ROOM;
	const runs =
		drills.length === 0
			? []
			: evenRuns(drills, levels.length > SIDE_BY_SIDE ? drills.length : Math.ceil(drills.length / 2));
	return html`<div class="opening">${sheetHead(placeOf(binder, apparatus.to).anchor, say.title, say.on(apparatus.name), words.counts.drills(drills.length))}
<div class="registers${runs.length > 1 && " half"}">${runs.map(
		(run) =>
			html`<table class="register">${columns([undefined, ...levels.map(({ name }) => LEVEL_WIDTH * Math.ceil(name.length / LEVEL_LETTERS)), card])}<thead><tr><th scope="col">${say.drill}</th>${levels.map(({ name }) => html`<th scope="col" class="mark"><span>${name}</span></th>`)}<th scope="col" class="number">${say.card}</th></tr></thead>
<tbody>${run.map(
				({ link, levels: offered }) =>
					html`<tr><th scope="row">${linkIn(binder, link)}</th>${levels.map(({ to, name }) => html`<td class="mark">${offered.some((one) => one.to === to) && dot(name)}</td>`)}<td class="number">${pageOf(binder, link.to)}</td></tr>`,
			)}</tbody></table>`,
	)}</div>
${elsewhere.length > 0 && html`<section><h2>${say.elsewhere}</h2>${pageList(binder, elsewhere)}</section>`}</div>`;
}

function cardOf(binder: BinderView, view: DrillView): Html {
	const {
		id,
		title,
		summary,
		aliases,
		apparatus,
		direction,
		sides,
		figures,
		levels,
		body,
		media,
		cues,
		faults,
		setUp,
		adapt,
		criteria,
		shapes,
		skills,
		after,
		next,
		partners,
		origin,
		reviewed,
		safety,
		// On a card what is written leads on; what else is near, and where it is planned, is on the site.
		easier: _easier,
		harder: _harder,
		elsewhere: _elsewhere,
		planned: _planned,
		// Counts are the director's, and stand in the tables; the file is the writer's.
		contacts: _contacts,
		exposure: _exposure,
		said: _said,
		file: _file,
		// One level's figures stand for all here.
		strips: _strips,
		...rest
	} = view;
	rest satisfies Nothing;
	const { words } = binder;
	const { drillCards: say, drill: said } = words;
	// A card of an earlier edition stays as it is; the new one names both.
	const isNew = !isListed(binder, addressOf({ kind: "drill", id }));
	const kinds = [
		...(direction === undefined ? [] : [words.directions[direction]]),
		...(sides === undefined || sides === "both" ? [] : [say.sides[sides]]),
		...(apparatus.length < 2 ? [] : [say.alsoOn(apparatus.slice(1).map(({ name }) => name))]),
	];
	const leading = { adapt, criteria, shapes, skills, after, next, partners };
	const lines = leadingOn(binder, leading, ({ to }) => isListed(binder, to) || isNew);
	const code = codeOf(binder, id, title);
	return html`<article class="card whole">
<header class="card-head"><div><h2 id="drill-${id}">${title}</h2>
${summary !== undefined && html`<p class="summary">${summary}</p>`}
${(kinds.length > 0 || aliases.length > 0) && html`<p class="kinds">${capital(kinds.join(" · "))}${kinds.length > 0 && aliases.length > 0 && ". "}${aliases.length > 0 && html`<b>${said.alsoCalled}</b> ${aliases.join(", ")}`}</p>`}</div>${stripOf(words, figures, `strip-${id}`)}${code}</header>
<div class="card-body">
${levelRows(words, levels)}
<div class="prose">${withPages(binder, body)}</div>
${media.map((medium) => pictureOf(binder, medium, code))}
${cues.length > 0 && html`<h3>${said.say}</h3>${cueList(cues)}`}
${faults.length > 0 && html`<h3>${say.seeAndSay}</h3><dl class="faults">${faults.map(({ see, say, wrong }) => html`<div><dt>${see}</dt><dd>${say}</dd>${wrong && html`<dd class="two-figures">${wrongFigures(words, wrong)}</dd>`}</div>`)}</dl>`}
${setUpOf(binder, setUp)}
<div class="card-links">${lines.map(([name, line]) => line !== undefined && html`<p><b>${name}</b> ${line}</p>`)}${
		reviewed !== undefined && html`<p>${say.reviewed(words.date(reviewed.iso, "long"))}</p>`
	}${origin && html`<p>${words.frame.origin(origin)}</p>`}</div></div>
<div class="safety">${safetyLines(words, safety, words.safety.nothingWritten(words.binder.cautionInFront), drawnSign)}</div></article>`;
}

/** What a card says below its text, and what of the library it leads to. */
function leadingOn(
	binder: BinderView,
	view: Pick<DrillView, "adapt" | "criteria" | "shapes" | "skills" | "after" | "next" | "partners">,
	isNamed: (drill: Link) => boolean,
): readonly (readonly [string, HtmlValue])[] {
	const { words } = binder;
	const { drillCards: say, drill: said } = words;
	const { adapt, criteria, shapes, skills, after, next, partners } = view;
	const others = partners.map(({ link }) => link);
	return [
		[said.easier, inOneLine(adapt.easier.map((line) => levelText(words, line)))],
		[said.harder, inOneLine(adapt.harder.map((line) => levelText(words, line)))],
		...criteria.map(({ skill, lines }) => [words.sheets.seenOf(skill.name), inOneLine(lines)] as const),
		[said.shapes, pageRun(binder, shapes)],
		[said.leadsTo, pageRun(binder, skills)],
		[say.after, pageRun(binder, after)],
		[say.andThen, pageRun(binder, next.filter(isNamed))],
		[words.binder.otherWay, pageRun(binder, others.filter(isNamed))],
	];
}

function isListed({ added }: BinderView, to: Address): boolean {
	return !added.has(to);
}

/** A drill's phases in the order a body goes through them, with their names under them. */
function stripOf(words: Words, movement: Movement, idPrefix: string): Html | undefined {
	const strip = figureStrip(words, movement, { idPrefix, numbers: CARD_NUMBERS });
	if (strip === undefined) return undefined;
	return html`<figure class="strip">${strip}<figcaption>${movement.stances.map(
		({ shape }, i) => html`<span>${movement.inOrder && html`<b>${i + 1}</b> `}${shape.name}</span>`,
	)}</figcaption></figure>`;
}

/** Centimetres stand in a table of their own, by the ages of each level. */
function setUpOf(binder: BinderView, { equipment, heights, turns, ...rest }: SetUp): Html | undefined {
	rest satisfies Nothing;
	const { words } = binder;
	const say = words.drillCards;
	if (equipment.length === 0 && heights.length === 0 && turns.length === 0) return undefined;
	return html`<h3>${say.setUp}</h3><ul class="set-up-list">${equipment.map(
		({ item, count, per, levels }) =>
			html`<li>${namesBefore(words, levels)}<b>${count}</b> ${linkIn(binder, item)}${per === "gymnast" && ` ${words.setUp.forEachGymnast}`}</li>`,
	)}${heights.map(
		({ what, landmark, levels }) =>
			html`<li class="height">${say.height(capital(levels.length === 0 ? what : `${what} (${inSentence(levels)})`), html`<b>${words.landmarks[landmark]}</b>`)}</li>`,
	)}${turns.map(
		({ seconds, atOnce, levels }) =>
			html`<li class="height">${namesBefore(words, levels)}${say.turn(seconds, atOnce)}</li>`,
	)}</ul>`;
}

/** The drill's page on the site, as a code to point a phone at; nothing where the club names no site. */
function codeOf({ club: { site }, words }: BinderView, id: Id, title: string): Html | undefined {
	if (site === undefined) return undefined;
	const address = new URL(addressOf({ kind: "drill", id }), site.replace(/\/?$/, "/")).href;
	const said = { title: words.drillCards.code, description: `${title}, ${address}` };
	return html`<a class="code" href="${address}">${raw(drawQr(address, said))}</a>`;
}

/** Pictures are printed; of a video its poster is, with where it plays. */
function pictureOf(
	{ picture, words: { drillCards: say } }: BinderView,
	{ medium, alt, caption }: DrillMedium,
	code: Html | undefined,
): Html {
	const address = picture(medium);
	const words = caption ?? alt;
	if (address === undefined) return html`<p class="small"><b>${say.onSite}</b> ${words}</p>`;
	const image = html`<img src="${address}" alt="${alt}">`;
	if (medium.kind === "picture") {
		return html`<figure class="picture">${image}${caption && html`<figcaption>${caption}</figcaption>`}</figure>`;
	}
	return html`<figure class="picture film">${image}<div>${code}<figcaption><b>${say.videoOnSite}</b> ${words}</figcaption></div></figure>`;
}
