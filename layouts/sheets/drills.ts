/**
 * The drill library: for each apparatus a list of its drills, then a card for each.
 */

import { drillAt, valuesAt } from "../../scripts/compute/drill-at.ts";
import { setUpHeights } from "../../scripts/compute/heights.ts";
import { drawQr } from "../../scripts/figures/qr.ts";
import { wrongOf } from "../../scripts/figures/support.ts";
import type { Apparatus, LinkedDrill } from "../../scripts/model.ts";
import type { SheetPart, SheetSection } from "../../scripts/print/section.ts";
import { mediaKindOf } from "../../scripts/read/inspect-media.ts";
import { addressOf } from "../../scripts/render/addresses.ts";
import { type Html, html, raw } from "../../scripts/render/html.ts";
import { capital } from "../../scripts/render/views/words.ts";
import { wrongFigures } from "../parts/figures.ts";
import {
	beforeLevels,
	columns,
	cueList,
	dot,
	evenRuns,
	levelRows,
	named,
	namedDrills,
	pageList,
	pageRun,
	safetyBox,
	shapeStrip,
	sheetHead,
} from "./pieces.ts";
import { drillLabel, drillsOf, type Places } from "./places.ts";
import type { SheetSource } from "./source.ts";

/** Cards laid out in one go: more takes longer than twice as many goes. */
const CARDS = 36;

/** Of a character of a page's number in a table, px; with the cell's own room beside it. */
const NUMBER_WIDTH = 6.6;
const NUMBER_ROOM = 10;

export function drillSections(
	source: SheetSource,
	places: Places,
	slotOf: (apparatus: Apparatus) => number,
): readonly SheetSection[] {
	return [...source.curriculum.apparatus.values()].flatMap((apparatus) => {
		const drills = drillsOf(source.curriculum, apparatus.id);
		const elsewhere = [...source.curriculum.drills.values()].filter(
			(drill) => drill.apparatus[0] !== apparatus.id && drill.apparatus.includes(apparatus.id),
		);
		if (drills.length === 0 && elsewhere.length === 0) return [];
		const title = source.words.drillCards.on(apparatus.name);
		const label = drillLabel(source.words, apparatus);
		const parts: SheetPart[] = [
			{ label, head: title, html: listSheet(source, places, apparatus, drills, elsewhere) },
			...evenRuns(drills, CARDS).map((run) => ({
				label,
				head: title,
				html: html`${run.map((drill) => card(source, places, drill))}`,
			})),
		];
		return [
			{
				title,
				tab: apparatus.name,
				slot: slotOf(apparatus),
				parts,
				targets: [
					{ id: places.id("apparatus", apparatus.id), title, depth: 1 as const },
					...drills.map((drill) => ({
						id: places.id("drill", drill.id),
						title: source.markdown.plain(drill.title),
						depth: 2 as const,
						source: drill.source,
					})),
				],
			},
		];
	});
}

function listSheet(
	source: SheetSource,
	places: Places,
	apparatus: Apparatus,
	drills: readonly LinkedDrill[],
	elsewhere: readonly LinkedDrill[],
): Html {
	const { words } = source;
	const say = words.drillCards;
	const levels = [...source.curriculum.levels.values()];
	const level = Math.min(62, Math.floor(260 / Math.max(1, levels.length)));
	const longest = Math.max(0, ...drills.map(({ id }) => places.numberLength("drill", id)));
	const card = Math.ceil(longest * NUMBER_WIDTH) + NUMBER_ROOM;
	return html`${sheetHead(places.id("apparatus", apparatus.id), say.title, say.on(apparatus.name), words.counts.drills(drills.length))}
${
	drills.length > 0 &&
	html`<table class="register">${columns([undefined, ...levels.map(() => level), card])}<thead><tr><th scope="col">${say.drill}</th>${levels.map(({ name }) => html`<th scope="col" class="mark">${name}</th>`)}<th scope="col" class="number">${say.card}</th></tr></thead>
<tbody>${drills.map(
		(drill) =>
			html`<tr><th scope="row">${places.link("drill", drill.id, source.markdown.plain(drill.title))}</th>${levels.map(({ id, name }) => html`<td class="mark">${drill.levels.has(id) && dot(name)}</td>`)}<td class="number">${places.page("drill", drill.id)}</td></tr>`,
	)}</tbody></table>`
}
${
	elsewhere.length > 0 &&
	html`<section><h2>${say.elsewhere}</h2>${pageList(
		places,
		"drill",
		namedDrills(
			elsewhere.map(({ id }) => id),
			source.curriculum.drills,
			source,
		),
	)}</section>`
}`;
}

function card(source: SheetSource, places: Places, drill: LinkedDrill): Html {
	const { curriculum, markdown, words } = source;
	const { apparatus, drills, shapes, skills } = curriculum;
	const { drillCards: say, drill: said } = words;
	const { direction, sides } = drill;
	const kinds = [
		...(direction === undefined || direction === "none" ? [] : [words.directions[direction]]),
		...(sides === undefined || sides === "both" ? [] : [say.sides[sides]]),
		...(drill.apparatus.length < 2
			? []
			: [say.alsoOn(drill.apparatus.slice(1).map((id) => apparatus.get(id)?.name ?? id))]),
	];
	const links: readonly (readonly [string, Html | undefined])[] = [
		[
			said.shapes,
			drill.shapes.length === 0 ? undefined : pageRun(places, "shape", named(drill.shapes, shapes)),
		],
		[
			said.leadsTo,
			drill.skills.length === 0 ? undefined : pageRun(places, "skill", named(drill.skills, skills)),
		],
		[say.after, runOf(drill.after)],
		[say.andThen, runOf(drill.next)],
		[words.binder.otherWay, runOf(drill.partners)],
	];
	function runOf(ids: LinkedDrill["after"]): Html | undefined {
		return ids.length === 0 ? undefined : pageRun(places, "drill", namedDrills(ids, drills, source));
	}
	return html`<article class="card whole">
<header class="card-head"><div><h2 id="${places.id("drill", drill.id)}">${places.inline(drill.title)}</h2>
${drill.summary !== undefined && html`<p class="summary">${places.inline(drill.summary)}</p>`}
${(kinds.length > 0 || drill.aliases.length > 0) && html`<p class="kinds">${capital(kinds.join(" · "))}${kinds.length > 0 && drill.aliases.length > 0 && ". "}${drill.aliases.length > 0 && html`<b>${said.alsoCalled}</b> ${drill.aliases.map((alias) => markdown.plain(alias)).join(", ")}`}</p>`}</div>${shapeStrip(source, drill, `strip-${drill.id}`)}${codeOf(source, drill)}</header>
<div class="card-body">
${levelRows(source, places, drill)}
<div class="prose">${places.block(drill.body, 3)}</div>
${pictures(source, places, drill)}
${drill.cues.length > 0 && html`<div class="keep-whole"><h3>${said.say}</h3>${cueList(places, drill.cues)}</div>`}
${
	drill.faults.length > 0 &&
	html`<h3>${say.seeAndSay}</h3><dl class="faults">${drill.faults.map((fault) => {
		const wrong = wrongOf(fault, drill, source.curriculum);
		return html`<div><dt>${places.inline(fault.see)}</dt><dd>${places.inline(fault.say)}</dd>${wrong && html`<dd class="two-figures">${wrongFigures(source.words, wrong)}</dd>`}</div>`;
	})}</dl>`
}
${setUp(source, places, drill)}
<div class="card-links">${links.map(([name, run]) => run && html`<p><b>${name}</b> ${run}</p>`)}${
		drill.reviewed !== undefined && html`<p>${say.reviewed(words.date(drill.reviewed, "long"))}</p>`
	}</div></div>
${safetyBox(source, places, drill, [...drill.levels.keys()])}</article>`;
}

function setUp(source: SheetSource, places: Places, drill: LinkedDrill): Html | undefined {
	const { words } = source;
	const say = words.drillCards;
	const { equipment, levels } = source.curriculum;
	const offered = [...levels.keys()].filter((id) => drill.levels.has(id));
	const at = offered.length === 0 ? [drill] : offered.map((level) => drillAt(drill, level));
	const items = [...new Set(at.flatMap((one) => one.equipment.map(({ item }) => item)))];
	const heights = setUpHeights(drill, offered);
	const turns = valuesAt(drill, offered, ({ turn }) => turn);
	if (items.length === 0 && heights.length === 0 && turns.every(({ value }) => value === undefined))
		return undefined;
	return html`<h3>${say.setUp}</h3><ul class="set-up-list">${items.flatMap((id) =>
		valuesAt(drill, offered, (one) => one.equipment.find(({ item }) => item === id)).flatMap(
			({ value, levels: those }) =>
				value === undefined
					? []
					: [
							html`<li>${beforeLevels(source, those)}<b>${value.count}</b> ${places.link("equipment", id, equipment.get(id)?.name ?? id)}${value.per === "gymnast" && ` ${words.setUp.forEachGymnast}`}</li>`,
						],
		),
	)}${heights.map(({ what: id, landmark, levels: those }) => {
		const what = equipment.get(id)?.name ?? id;
		return html`<li class="height">${say.height(those.length === offered.length ? what : `${what} (${those.map((id) => levels.get(id)?.name ?? id).join(", ")})`, html`<b>${words.landmarks[landmark]}</b>`)}</li>`;
	})}${turns.flatMap(({ value, levels: those }) =>
		value === undefined
			? []
			: [
					html`<li class="height">${beforeLevels(source, those)}${say.turn(value.seconds, value.atOnce)}</li>`,
				],
	)}</ul>`;
}

/** The drill's page on the site, as a code to point a phone at; nothing where the club names no site. */
function codeOf({ curriculum, markdown, words }: SheetSource, drill: LinkedDrill): Html | undefined {
	const { site } = curriculum.club;
	if (site === undefined) return undefined;
	const address = new URL(addressOf({ kind: "drill", id: drill.id }), site.replace(/\/?$/, "/")).href;
	const said = { title: words.drillCards.code, description: `${markdown.plain(drill.title)}, ${address}` };
	return html`<a class="code" href="${address}">${raw(drawQr(address, said))}</a>`;
}

/** Pictures are printed; of a video its poster is, with where it plays. */
function pictures(source: SheetSource, places: Places, drill: LinkedDrill): Html {
	const say = source.words.drillCards;
	return html`${drill.media.map(({ file, alt, caption }) => {
		const address = source.picture(file);
		const words = caption === undefined ? undefined : places.inline(caption);
		if (address === undefined) return html`<p class="small"><b>${say.onSite}</b> ${words ?? alt}</p>`;
		if (mediaKindOf(file) === "picture") {
			return html`<figure class="picture"><img src="${address}" alt="${alt}">${words && html`<figcaption>${words}</figcaption>`}</figure>`;
		}
		return html`<figure class="picture film"><img src="${address}" alt="${alt}"><div>${codeOf(source, drill)}<figcaption><b>${say.videoOnSite}</b> ${words ?? alt}</figcaption></div></figure>`;
	})}`;
}
