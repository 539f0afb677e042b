/**
 * Drills for benchmarks, as many as wanted, with the same mix as a real club's: as many values of each
 * filter, as many names, cues and faults, texts as long, and things that belong together (an apparatus
 * and its equipment) kept together.
 *
 * Every drill takes its tags from drills of one apparatus, and every text begins as one text of the
 * club does and ends as another does. The same drills come out on every run. Their vocabulary is the
 * club's own and does not grow, so read the sizes of the largest as a floor.
 */

import { FACETS } from "../../scripts/search/choice.ts";
import type { SearchDocument } from "../../scripts/search/engine.ts";

/** Draws whole numbers from 0 up to below a limit. */
type Draw = (limit: number) => number;

/** As many drills as asked, made from a club's. */
export function generatedDrills(
	club: readonly SearchDocument[],
	size: number,
	seed = 20_270_104,
): readonly SearchDocument[] {
	const draw = drawing(seed);
	const byApparatus = Map.groupBy(club, placeOf);
	const texts = (of: (drill: SearchDocument) => readonly string[]) =>
		new Map(
			[...byApparatus].map(([place, drills]) => [place, drills.flatMap(of).filter((text) => text !== "")]),
		);
	const aliases = texts((drill) => drill.aliases);
	const cues = texts((drill) => drill.cues);
	const see = texts((drill) => drill.faults.map((fault) => fault.see));
	const say = texts((drill) => drill.faults.map((fault) => fault.say));
	const sentences = texts((drill) => sentencesOf(drill.body));
	const taken = new Set<string>();
	return Array.from({ length: size }, (): SearchDocument => {
		const first = club[draw(club.length)] as SearchDocument;
		const place = placeOf(first);
		const alike = byApparatus.get(place) ?? club;
		const [second, third] = [alike[draw(alike.length)], alike[draw(alike.length)]] as [
			SearchDocument,
			SearchDocument,
		];
		const fresh = (pool: ReadonlyMap<string, readonly string[]>, many: number) =>
			Array.from({ length: many }, () => {
				const all = pool.get(place) ?? [];
				const [a, b] = [all[draw(all.length)], all[draw(all.length)]];
				return joined(draw, a ?? "", b ?? "");
			});
		return {
			id: unique(taken, joined(draw, first.id, second.id, "-")),
			title: joined(draw, first.title, second.title),
			aliases: fresh(aliases, first.aliases.length),
			summary: joined(draw, second.summary, third.summary),
			facets: {
				...first.facets,
				shape: second.facets.shape ?? [],
				skill: third.facets.skill ?? [],
				equipment: (alike[draw(alike.length)] ?? first).facets.equipment ?? [],
			},
			cues: fresh(cues, first.cues.length),
			faults: fresh(see, first.faults.length).map((line, i) => ({
				see: line,
				say: fresh(say, first.faults.length)[i] ?? "",
			})),
			body: fresh(sentences, sentencesOf(first.body).length).join(" "),
		};
	});
}

/** What the mix is measured by: means over all drills, by name. */
export function mixOf(drills: readonly SearchDocument[]): ReadonlyMap<string, number> {
	const means = new Map<string, number>();
	const mean = (name: string, of: (drill: SearchDocument) => number) => {
		means.set(name, drills.reduce((sum, drill) => sum + of(drill), 0) / Math.max(1, drills.length));
	};
	const words = (texts: readonly string[]) => texts.join(" ").split(/\s+/).filter(Boolean).length;
	for (const facet of FACETS) mean(facet, (drill) => drill.facets[facet]?.length ?? 0);
	mean("id words", (drill) => drill.id.split("-").length);
	mean("title words", (drill) => words([drill.title]));
	mean("alias words", (drill) => words(drill.aliases));
	mean("summary words", (drill) => words([drill.summary]));
	mean("cue words", (drill) => words(drill.cues));
	mean("fault words", (drill) => words(drill.faults.flatMap(({ see, say }) => [see, say])));
	mean("body words", (drill) => words([drill.body]));
	return means;
}

function placeOf(drill: SearchDocument): string {
	return drill.facets.apparatus?.[0] ?? "";
}

function sentencesOf(text: string): readonly string[] {
	return text.split(/(?<=[.!?])\s+/).filter((sentence) => sentence !== "");
}

/** The beginning of one and the end of another, cut at the same share, so that lengths stay what they are. */
function joined(draw: Draw, first: string, second: string, between = " "): string {
	const [a, b] = [first.split(between), second.split(between)];
	const cut = draw(1_000) / 1_000;
	return [...a.slice(0, Math.round(cut * a.length)), ...b.slice(Math.round(cut * b.length))].join(between);
}

function unique(taken: Set<string>, wanted: string): string {
	let id = wanted;
	for (let number = 2; taken.has(id); number++) id = `${wanted}-${number}`;
	taken.add(id);
	return id;
}

/** A linear congruential generator (the constants of Numerical Recipes). */
function drawing(seed: number): Draw {
	let state = seed >>> 0;
	return (limit) => {
		state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
		return Math.floor((state / 2 ** 32) * limit);
	};
}
