/**
 * The drill library: for each apparatus a list of its drills, then a card for each.
 */

import { drawQr } from "../../scripts/figures/qr.ts";
import type { Apparatus, LinkedDrill } from "../../scripts/model.ts";
import type { SheetPart, SheetSection } from "../../scripts/print/section.ts";
import { mediaKindOf } from "../../scripts/read/inspect-media.ts";
import { addressOf } from "../../scripts/render/addresses.ts";
import { type Html, html, raw } from "../../scripts/render/html.ts";
import { capital, counted, shortNumber } from "../../scripts/render/views/words.ts";
import { yearWords } from "./front.ts";
import {
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

const ALSO_CALLED = "Also called";
const CODE = "Code to scan: this drill on the club's site";
const ON_THE_SITE = "On the site:";
const VIDEO = "Video on the site:";

const LANDMARKS = {
	knee: "knee height",
	hip: "hip height",
	chest: "chest height",
	shoulder: "shoulder height",
	head: "the top of the head",
	reach: "fingertips overhead",
} as const;

const DIRECTIONS = { forward: "forward", backward: "backward", sideways: "sideways", none: "" } as const;

const SIDES = { both: "", each: "on each side", lead: "on the favoured side" } as const;

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
		const title = `${apparatus.name} drills`;
		const label = drillLabel(apparatus);
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
	const levels = [...source.curriculum.levels.values()];
	const level = Math.min(62, Math.floor(260 / Math.max(1, levels.length)));
	return html`${sheetHead(places.id("apparatus", apparatus.id), "Drill cards", `${apparatus.name} drills`, counted(drills.length, "drill"))}
${
	drills.length > 0 &&
	html`<table class="register">${columns([undefined, ...levels.map(() => level), 112])}<thead><tr><th scope="col">Drill</th>${levels.map(({ name }) => html`<th scope="col" class="mark">${name}</th>`)}<th scope="col" class="number">Card</th></tr></thead>
<tbody>${drills.map(
		(drill) =>
			html`<tr><th scope="row">${places.link("drill", drill.id, source.markdown.plain(drill.title))}</th>${levels.map(({ id, name }) => html`<td class="mark">${drill.levels.has(id) && dot(name)}</td>`)}<td class="number">${places.page("drill", drill.id)}</td></tr>`,
	)}</tbody></table>`
}
${
	elsewhere.length > 0 &&
	html`<section><h2>Also done here, with their card elsewhere</h2>${pageList(
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
	const { curriculum, markdown } = source;
	const { apparatus, drills, shapes, skills } = curriculum;
	const kinds = [
		drill.direction === undefined ? "" : DIRECTIONS[drill.direction],
		drill.sides === undefined ? "" : SIDES[drill.sides],
		drill.apparatus.length < 2
			? ""
			: `also on ${drill.apparatus
					.slice(1)
					.map((id) => apparatus.get(id)?.name ?? id)
					.join(", ")}`,
	].filter((words) => words !== "");
	const links: readonly (readonly [string, Html | undefined])[] = [
		["Shapes", drill.shapes.length === 0 ? undefined : pageRun(places, "shape", named(drill.shapes, shapes))],
		[
			"Leads to",
			drill.skills.length === 0 ? undefined : pageRun(places, "skill", named(drill.skills, skills)),
		],
		["After", runOf(drill.after)],
		["Then", runOf(drill.next)],
		["The other way", runOf(drill.partners)],
	];
	function runOf(ids: LinkedDrill["after"]): Html | undefined {
		return ids.length === 0 ? undefined : pageRun(places, "drill", namedDrills(ids, drills, source));
	}
	return html`<article class="card whole">
<header class="card-head"><div><h2 id="${places.id("drill", drill.id)}">${places.inline(drill.title)}</h2>
${drill.summary !== undefined && html`<p class="summary">${places.inline(drill.summary)}</p>`}
${(kinds.length > 0 || drill.aliases.length > 0) && html`<p class="kinds">${capital(kinds.join(" · "))}${kinds.length > 0 && drill.aliases.length > 0 && ". "}${drill.aliases.length > 0 && html`<b>${ALSO_CALLED}</b> ${drill.aliases.map((alias) => markdown.plain(alias)).join(", ")}`}</p>`}</div>${shapeStrip(source, drill, `strip-${drill.id}`)}${codeOf(source, drill)}</header>
<div class="card-body">
${levelRows(source, places, drill)}
<div class="prose">${places.block(drill.body, 3)}</div>
${pictures(source, places, drill)}
${drill.cues.length > 0 && html`<div class="keep-whole"><h3>Say</h3>${cueList(places, drill.cues)}</div>`}
${
	drill.faults.length > 0 &&
	html`<h3>See and say</h3><dl class="faults">${drill.faults.map(({ see, say }) => html`<div><dt>${places.inline(see)}</dt><dd>${places.inline(say)}</dd></div>`)}</dl>`
}
${setUp(source, places, drill)}
<div class="card-links">${links.map(([words, run]) => run && html`<p><b>${words}</b> ${run}</p>`)}${
		drill.reviewed !== undefined &&
		html`<p>Reviewed ${yearWords(drill.reviewed, curriculum.club.language)}.</p>`
	}</div></div>
${safetyBox(places, drill)}</article>`;
}

function setUp(source: SheetSource, places: Places, drill: LinkedDrill): Html | undefined {
	const { equipment } = source.curriculum;
	if (drill.equipment.length === 0 && drill.heights.size === 0 && drill.turn === undefined) return undefined;
	return html`<h3>Set up</h3><ul class="set-up-list">${drill.equipment.map(
		({ item, count, per }) =>
			html`<li><b>${count}</b> ${places.link("equipment", item, equipment.get(item)?.name ?? item)}${per === "gymnast" && " for each gymnast"}</li>`,
	)}${[...drill.heights].map(
		([what, landmark]) => html`<li class="height">${what}: <b>${LANDMARKS[landmark]}</b></li>`,
	)}${
		drill.turn !== undefined &&
		html`<li class="height">a turn takes about ${shortNumber(drill.turn.seconds)} s${drill.turn.atOnce > 1 && `, ${drill.turn.atOnce} gymnasts at once`}</li>`
	}</ul>`;
}

/** The drill's page on the site, as a code to point a phone at; nothing where the club names no site. */
function codeOf({ curriculum, markdown }: SheetSource, drill: LinkedDrill): Html | undefined {
	const { site } = curriculum.club;
	if (site === undefined) return undefined;
	const address = new URL(addressOf({ kind: "drill", id: drill.id }), site.replace(/\/?$/, "/")).href;
	const words = { title: CODE, description: `${markdown.plain(drill.title)}, ${address}` };
	return html`<a class="code" href="${address}">${raw(drawQr(address, words))}</a>`;
}

/** Pictures are printed; of a video its poster is, with where it plays. */
function pictures(source: SheetSource, places: Places, drill: LinkedDrill): Html {
	return html`${drill.media.map(({ file, alt, caption }) => {
		const address = source.picture(file);
		const words = caption === undefined ? undefined : places.inline(caption);
		if (address === undefined) return html`<p class="small"><b>${ON_THE_SITE}</b> ${words ?? alt}</p>`;
		if (mediaKindOf(file) === "picture") {
			return html`<figure class="picture"><img src="${address}" alt="${alt}">${words && html`<figcaption>${words}</figcaption>`}</figure>`;
		}
		return html`<figure class="picture film"><img src="${address}" alt="${alt}"><div>${codeOf(source, drill)}<figcaption><b>${VIDEO}</b> ${words ?? alt}</figcaption></div></figure>`;
	})}`;
}
