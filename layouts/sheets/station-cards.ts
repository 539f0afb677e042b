/**
 * Station cards: what hangs or lies at each station. The cues are read from two metres (24 pt), the rest from
 * an arm's length. Two to a sheet (A5 or
 * half Letter) or four (A6 or quarter Letter), with marks to cut along.
 */

import { drawMiniPlan } from "../../scripts/figures/mini-plan.ts";
import { addressOf } from "../../scripts/views/addresses.ts";
import { type Html, html, raw } from "../../scripts/views/html.ts";
import type { SheetFacts } from "../../scripts/views/sheets/sheet.ts";
import type { Nearby, StationCard, StationCardsView } from "../../scripts/views/sheets/station-cards.ts";
import type { Words } from "../../scripts/words/words.ts";
import { levelText, safetyLines } from "../parts/drill-parts.ts";
import { stationLabel } from "../parts/floor-plan.ts";
import { drawnSign } from "../parts/icons.ts";
import type { Nothing } from "../parts/nothing.ts";
import { pageCode } from "./page-code.ts";
import { figureStrip, inSentence, wayOf } from "./pieces.ts";
import type { Drawn } from "./sheet-file.ts";
import { AS_DESIGNED, fixedPiece } from "./side.ts";

export function stationCards(facts: SheetFacts, { up, apparatus, week, cards }: StationCardsView): Drawn {
	const { words } = facts;
	const where = `${apparatus}, ${words.ofWeek(week)}`;
	const drawn = cards.map((card) => cardOf(facts, where, card));
	const sides = Array.from(
		{ length: Math.ceil(drawn.length / up) },
		(_, side) => html`${cutMarks(up)}<div class="cards">${drawn.slice(side * up, (side + 1) * up)}</div>`,
	);
	return {
		html: fixedPiece(facts, `station-cards up-${up}`, sides),
		most: sides.length,
		steps: AS_DESIGNED,
	};
}

/** Short lines at the edges of the sheet, where the knife goes. */
function cutMarks(up: 2 | 4): Html {
	return html`<i class="cut left"></i><i class="cut right"></i>${up === 4 && html`<i class="cut top"></i><i class="cut bottom"></i>`}`;
}

function cardOf(facts: SheetFacts, where: string, card: StationCard): Html {
	const { words } = facts;
	const { number, of, station, cues, props, easier, harder, plan } = card;
	const {
		id,
		title,
		levels,
		figures,
		safety,
		// The first few are the card's own, and so is what to do instead.
		cues: _cues,
		adapt: _adapt,
		// What takes longer to read than a turn lasts is on the class sheet; what stands ready is counted for the card.
		faults: _faults,
		criteria: _criteria,
		setUp: _setUp,
		// One level's figures stand for all here.
		strips: _strips,
		...rest
	} = station.core;
	rest satisfies Nothing;
	const { stationCards: say, drill: said } = words;
	const strip = figureStrip(words, figures);
	const who = inSentence(levels.map(({ level }) => level));
	const own = plan.stations.find((one) => one.number === number);
	const at = own && say.standsAt(own.left + own.length / 2, own.top + own.width / 2);
	return html`<article class="box">
<header><span class="no">${stationLabel(number - 1)}</span><div><p>${where} · ${say.station(number, of)} · ${who}</p><h2>${title}</h2></div>${raw(drawMiniPlan(plan, number, at ?? ""))}</header>
<div class="body"><div class="shown">${strip && html`<div class="strip">${strip}</div>`}
<div class="at-hand">${pageCode(facts, addressOf({ kind: "drill", id }), title)}${props.length > 0 && html`<p class="props">${props.map(({ name, needed }, i) => html`${i > 0 && ", "}<b>${words.number(needed)}</b> ${name}`)}</p>`}</div></div>
<div class="told">${cues.length > 0 && html`<ol class="cues">${cues.map((cue) => html`<li>${cue}</li>`)}</ol>`}
${station.note && html`<p class="note">${station.note}</p>`}
<ul class="ways">${levels.map((way) => html`<li><b>${way.level.name}</b> ${wayOf(words, way)}</li>`)}</ul>
<dl>${nearby(words, said.easier, easier)}${nearby(words, said.harder, harder)}</dl></div></div>
<div class="safe">${safetyLines(words, safety, words.sheets.nothingWritten, drawnSign)}</div></article>`;
}

function nearby(words: Words, name: string, near: Nearby | undefined): Html | undefined {
	if (near === undefined) return undefined;
	const { dose, levels, text } = near;
	return html`<div><dt>${name}</dt><dd>${levelText(words, { levels, text: html`${text}` })}${dose !== "" && html` <b>${dose}</b>`}</dd></div>`;
}
