/**
 * Station cards: what hangs or lies at each station, read from an arm's length. Two to a sheet (A5 or
 * half Letter) or four (A6 or quarter Letter), with marks to cut along.
 */

import { equipmentForBlock } from "../../scripts/compute/equipment.ts";
import { type FloorPlan, floorPlanOf } from "../../scripts/compute/placing.ts";
import { clearPlaces } from "../../scripts/figures/floor-plan.ts";
import type { Point } from "../../scripts/figures/floor-plan-marks.ts";
import { tenth } from "../../scripts/figures/markup.ts";
import type { ApparatusPlan, Block, Id, LinkedDrill, WeekPlan } from "../../scripts/model.ts";
import { drillCore, levelsInOrder } from "../../scripts/views/drill.ts";
import { type Html, html, raw } from "../../scripts/views/html.ts";
import { doseWords } from "../../scripts/views/words.ts";
import type { Words } from "../../scripts/words/words.ts";
import { stationLabel } from "../parts/floor-plan.ts";
import type { SheetPiece } from "./sheet-file.ts";
import {
	AS_DESIGNED,
	figureStrip,
	fixedPiece,
	type SheetMaker,
	safetyLines,
	safetyOfDrill,
	wordsOfDrill,
} from "./side.ts";

/** As many cues as a gymnast or a coach takes in at a glance. */
const CUES = 3;

/** The cards of an apparatus in a week; undefined where it has no stations. */
export function stationCards(
	maker: SheetMaker,
	week: WeekPlan,
	plan: ApparatusPlan,
	up: 2 | 4,
): SheetPiece | undefined {
	const { curriculum, words } = maker.site;
	const stations = plan.blocks
		.filter(({ kind }) => kind === "stations")
		.flatMap((block) => block.stations.map((_, i) => ({ block, i })));
	if (stations.length === 0) return undefined;
	const name = curriculum.apparatus.get(plan.apparatus)?.name ?? plan.apparatus;
	const cards = stations.map(({ block, i }) => cardOf(maker, week, plan, name, block, i));
	const sides = Array.from(
		{ length: Math.ceil(cards.length / up) },
		(_, side) => html`${cutMarks(up)}<div class="cards">${cards.slice(side * up, (side + 1) * up)}</div>`,
	);
	return {
		title: words.stationCards.title(name, week.week),
		label: words.pageLabels.inWeek(name, week.week),
		html: fixedPiece(maker, `station-cards up-${up}`, sides),
		most: sides.length,
		steps: AS_DESIGNED,
		words: stations.flatMap(({ block, i }) => {
			const id = block.stations[i]?.drill ?? "";
			const levels = levelsHere(maker, block, curriculum.drills.get(id));
			return wordsOfDrill(maker, id, levels, CUES, block);
		}),
		safety: stations.flatMap(({ block, i }) => {
			const id = block.stations[i]?.drill ?? "";
			return safetyOfDrill(maker, id, levelsHere(maker, block, curriculum.drills.get(id)));
		}),
		place: week.source.place(["apparatus", plan.apparatus]),
	};
}

/** Short lines at the edges of the sheet, where the knife goes. */
function cutMarks(up: 2 | 4): Html {
	return html`<i class="cut left"></i><i class="cut right"></i>${up === 4 && html`<i class="cut top"></i><i class="cut bottom"></i>`}`;
}

function levelsHere({ site }: SheetMaker, block: Block, drill: LinkedDrill | undefined): readonly Id[] {
	if (drill === undefined) return [];
	return levelsInOrder(site, drill).filter(
		(level) => block.levels.length === 0 || block.levels.includes(level),
	);
}

function cardOf(
	maker: SheetMaker,
	week: WeekPlan,
	plan: ApparatusPlan,
	name: string,
	block: Block,
	i: number,
): Html {
	const { site } = maker;
	const { curriculum, words } = site;
	const { stationCards: say, drill: said } = words;
	const station = block.stations[i];
	const drill = curriculum.drills.get(station?.drill ?? "");
	if (station === undefined || drill === undefined) return html`<article class="box"></article>`;
	const here = levelsHere(maker, block, drill);
	const core = drillCore(site, "", drill, here, undefined, block);
	const figures = figureStrip(words, core.figures);
	const names = here.map((level) => curriculum.levels.get(level)?.name ?? level);
	const props = equipmentForBlock(curriculum, plan, { ...block, stations: [station] });
	const near = ways(maker, drill, here);
	// The club's own words for this drill say more than another drill's title.
	const easier = core.adapt.easier[0] ?? near.easier;
	const harder = core.adapt.harder[0] ?? near.harder;
	return html`<article class="box">
<header><span class="no">${stationLabel(i)}</span><div><p>${name}, ${words.ofWeek(week.week)} · ${say.station(i + 1, block.stations.length)} · ${names.join(", ")}</p><h2>${drill.title}</h2></div>${raw(miniPlan(words, floorPlanOf(curriculum, plan, block), i + 1))}</header>
<div class="body"><div class="shown">${figures && html`<div class="strip">${figures}</div>`}
${props.length > 0 && html`<p class="props">${props.map(({ item, needed }, j) => html`${j > 0 && ", "}<b>${words.number(needed)}</b> ${curriculum.equipment.get(item)?.name ?? item}`)}</p>`}</div>
<div class="told">${drill.cues.length > 0 && html`<ol class="cues">${core.cues.slice(0, CUES).map((cue) => html`<li>${cue}</li>`)}</ol>`}
${station.note !== undefined && html`<p class="note">${site.inline("", station.note)}</p>`}
<ul class="ways">${core.levels.map(({ level, how, dose }) => html`<li><b>${level.name}</b> ${how ?? said.asDescribed}${dose !== "" && html` <b class="dose">${dose}</b>`}</li>`)}</ul>
<dl>${easier && html`<div><dt>${said.easier}</dt><dd>${easier}</dd></div>`}${harder && html`<div><dt>${said.harder}</dt><dd>${harder}</dd></div>`}</dl></div></div>
${safetyLines(words, core.safety)}</article>`;
}

/** How the level below and the level above do it; else the nearest drill that comes before or after. */
function ways(
	{ site }: SheetMaker,
	drill: LinkedDrill,
	here: readonly Id[],
): { readonly easier: Html | undefined; readonly harder: Html | undefined } {
	const levels = levelsInOrder(site, drill);
	const told = (level: Id | undefined): Html | undefined => {
		const dose = level === undefined ? undefined : drill.levels.get(level);
		if (dose?.do === undefined) return undefined;
		const amount = doseWords(site.words, drill, dose);
		return html`${site.inline("", dose.do)}${amount !== "" && html` <b>${amount}</b>`}`;
	};
	const first = levels.indexOf(here[0] ?? "");
	const last = levels.indexOf(here.at(-1) ?? "");
	const steps = site.progressions(drill);
	const title = (id: Id | undefined) =>
		id === undefined ? undefined : html`${site.curriculum.drills.get(id)?.title ?? id}`;
	return {
		easier: told(first > 0 ? levels[first - 1] : undefined) ?? title(steps.easier[0]?.drill),
		harder: told(levels[last + 1]) ?? title(steps.harder[0]?.drill),
	};
}

/** Units between the middles of two spots: they are 16 wide, and grow on a small card. */
const SPOT_ROOM = 26;

/** A station's middle, and places beside it on the plan for when that is taken. */
function around(x: number, y: number, long: number, wide: number): readonly Point[] {
	const inside = (value: number, most: number) => Math.min(Math.max(value, 0), most);
	const turns = [0, 1, 2, 3, 4, 5, 6, 7].map((eighth) => (eighth * Math.PI) / 4);
	const beside = [1, 2, 3].flatMap((far) =>
		turns.map((turn) => ({
			x: inside(x + far * SPOT_ROOM * Math.cos(turn), long),
			y: inside(y + far * SPOT_ROOM * Math.sin(turn), wide),
		})),
	);
	return [{ x: inside(x, long), y: inside(y, wide) }, ...beside];
}

/** Where it stands: the block's stations as numbered spots on their ground, its own filled. */
function miniPlan(words: Words, { length, width, stations }: FloorPlan, own: number): string {
	const scale = 100 / Math.max(length, width * 1.4);
	const middles = stations.map(({ left, top, length: long, width: wide }) =>
		around((left + long / 2) * scale, (top + wide / 2) * scale, length * scale, width * scale),
	);
	const places = clearPlaces(middles, SPOT_ROOM);
	const spots = stations.map(({ number }, i) => {
		const x = tenth(places[i]?.x ?? 0);
		const y = tenth(places[i]?.y ?? 0);
		const isOwn = number === own;
		return (
			`<g class="plan-label" transform="translate(${x} ${y})"><circle r="8" fill="${isOwn ? "#000" : "#fff"}" stroke="#000" stroke-width="1.5"/>` +
			`<text y="3.600" font-size="10.500" font-weight="700" text-anchor="middle" fill="${isOwn ? "#fff" : "#000"}">${number}</text></g>`
		);
	});
	const w = tenth(length * scale);
	const h = tenth(width * scale);
	const at = stations.find(({ number }) => number === own);
	const where =
		at === undefined ? "" : words.stationCards.standsAt(at.left + at.length / 2, at.top + at.width / 2);
	return `<svg class="mini" viewBox="-10 -10 ${w + 20} ${h + 20}" role="img" aria-label="${where}"><rect width="${w}" height="${h}" fill="none" stroke="#000" stroke-width="1.5"/>${spots.join("")}</svg>`;
}
