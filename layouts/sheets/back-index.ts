/**
 * The index: drills, shapes, skills and equipment by name and by every other name they go by.
 */

import type { Id } from "../../scripts/model.ts";
import { type Html, html } from "../../scripts/views/html.ts";
import { capital } from "../../scripts/views/words.ts";
import { pageLine, sheetHead } from "./pieces.ts";
import type { PlaceKind, Places } from "./places.ts";
import type { SheetSection } from "./section.ts";
import type { SheetSource } from "./source.ts";

interface Term {
	readonly words: string;
	/** Which name it is listed under elsewhere, where these words are another name. */
	readonly see: string | undefined;
	readonly kind: PlaceKind;
	readonly id: Id;
}

export function indexSection(source: SheetSource, places: Places, slot: number): SheetSection | undefined {
	const terms = termsOf(source).filter(({ kind, id }) => places.has(kind, id));
	if (terms.length === 0) return undefined;
	const { binder: say, pageLabels } = source.words;
	const order = new Intl.Collator(source.curriculum.club.language, { sensitivity: "base", numeric: true });
	const sorted = [...terms].sort(
		(a, b) => order.compare(a.words, b.words) || order.compare(a.kind, b.kind) || order.compare(a.id, b.id),
	);
	const letters = new Map<string, Term[]>();
	for (const term of sorted) {
		const letter = initial(term.words);
		const group = letters.get(letter);
		if (group === undefined) letters.set(letter, [term]);
		else group.push(term);
	}
	return {
		title: say.index,
		tab: say.index,
		slot,
		parts: [
			{
				label: pageLabels.index,
				head: say.index,
				html: html`${sheetHead(places.id("part", "index"), "", say.index, say.indexLead)}<div class="index">${[...letters].map(([letter, group]) => letterGroup(places, letter, group))}</div>`,
			},
		],
		targets: [{ id: places.id("part", "index"), title: say.index, depth: 1 }],
	};
}

function letterGroup(places: Places, letter: string, terms: readonly Term[]): Html {
	return html`<h2>${letter}</h2><ul>${terms.map(({ words, see, kind, id }) =>
		pageLine(
			html`${places.link(kind, id, words)}${see !== undefined && html` <i>${see}</i>`}`,
			places.page(kind, id),
		),
	)}</ul>`;
}

function termsOf(source: SheetSource): readonly Term[] {
	const { drills, shapes, skills, equipment } = source.curriculum;
	const terms: Term[] = [];
	const add = (kind: PlaceKind, id: Id, name: string, aliases: readonly string[]) => {
		terms.push({ words: capital(name), see: undefined, kind, id });
		for (const alias of aliases) {
			const words = capital(source.markdown.plain(alias));
			if (words !== capital(name)) terms.push({ words, see: name, kind, id });
		}
	};
	for (const drill of drills.values())
		add("drill", drill.id, source.markdown.plain(drill.title), drill.aliases);
	for (const shape of shapes.values()) add("shape", shape.id, shape.name, shape.aliases);
	for (const skill of skills.values()) add("skill", skill.id, skill.name, skill.aliases);
	for (const item of equipment.values()) add("equipment", item.id, item.name, item.aliases);
	return terms;
}

/** The letter a word is listed under, without its accent; a sign for all that is no letter. */
function initial(words: string): string {
	const first = words.normalize("NFD").charAt(0).toUpperCase();
	return /\p{L}/u.test(first) ? first : "#";
}
