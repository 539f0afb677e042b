/**
 * Writes a club for measuring: as many drills as asked, with the demo's weeks, tags and equipment.
 *
 * Every text is new. Words follow each other as they do somewhere in the demo's texts, so that sentences
 * do not repeat, and compress about as written ones do: copies of the demo's texts would not. The same
 * numbers give the same club.
 */

import { cpSync, mkdirSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Handbook } from "../../scripts/handbook.ts";
import type { LinkedDrill } from "../../scripts/model.ts";

export interface LargeClub {
	readonly drills: number;
	/** Words of a drill in all its fields; the demo has about 330. */
	readonly words: number;
}

/** Writes the club folder anew. The demo's own drills keep their ids, since its weeks name them. */
export function writeLargeClub(demo: Handbook, dir: string, { drills, words }: LargeClub): void {
	rmSync(dir, { recursive: true, force: true });
	mkdirSync(join(dir, "content"), { recursive: true });
	cpSync(join(demo.clubDir, "_data"), join(dir, "_data"), {
		recursive: true,
		filter: (path) => !path.endsWith(".ts"),
	});
	for (const kind of ["weeks", "guides"])
		cpSync(join(demo.clubDir, "content", kind), join(dir, "content", kind), { recursive: true });
	const models = [...demo.curriculum.drills.values()];
	const text = new Chain(models);
	const known = new Set(models.map(({ id }) => id));
	for (let i = 0; i < drills; i++) {
		const model = models[i % models.length] as LinkedDrill;
		const id = i < models.length ? model.id : `${model.id}-${Math.floor(i / models.length)}`;
		const folder = join(dir, "content/drills", model.apparatus[0] ?? "floor");
		mkdirSync(folder, { recursive: true });
		writeFileSync(join(folder, `${id}.md`), drillText(model, text, words / 330, known));
	}
}

function drillText(model: LinkedDrill, text: Chain, share: number, known: ReadonlySet<string>): string {
	const of = (words: number) => text.sentence(Math.max(2, Math.round(words * share)));
	const some = <T>(list: readonly T[]) => list.slice(0, Math.max(1, Math.round(list.length * share)));
	const fields: Record<string, unknown> = {
		title: text.sentence(4).slice(0, -1),
		apparatus: model.apparatus,
		levels: Object.fromEntries(
			Array.from(model.levels, ([level, { equipment, ...rest }]) => [
				level,
				{ ...(asWritten(rest) as object), do: of(15), equipment: equipment && counts(equipment) },
			]),
		),
		summary: of(22),
		shapes: model.shapes,
		sequence: model.sequence.map(({ shape }) => shape),
		skills: model.skills,
		after: model.after.filter((id) => known.has(id)),
		direction: model.direction,
		sides: model.sides,
		equipment: counts(model.equipment),
		turn: asWritten(model.turn),
		contacts: model.contacts,
		cues: model.cues.map(() => text.sentence(3)),
		faults: some(model.faults).map(() => ({ see: text.sentence(6), say: text.sentence(8) })),
		spotting: model.spotting && of(24),
		caution: model.caution && of(24),
		reviewed: model.reviewed,
	};
	const yaml = Object.entries(fields)
		.filter(([, value]) => value !== undefined && !(Array.isArray(value) && value.length === 0))
		.map(([name, value]) => `${name}: ${JSON.stringify(value)}`);
	const body = [of(50), of(50), of(40)].join("\n\n");
	return `---\n${yaml.join("\n")}\n---\n${body}\n`;
}

/** Fields by the names that they have in files, `at-once` for `atOnce`. */
function asWritten(value: unknown): unknown {
	if (typeof value !== "object" || value === null || Array.isArray(value)) return value;
	return Object.fromEntries(
		Object.entries(value).map(([name, part]) => [
			name.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`),
			asWritten(part),
		]),
	);
}

function counts(equipment: LinkedDrill["equipment"]): Readonly<Record<string, number>> {
	return Object.fromEntries(equipment.map(({ item, count }) => [item, count]));
}

/** Words that follow each other somewhere in the demo. */
class Chain {
	readonly #next = new Map<string, string[]>();
	readonly #starts: string[] = [];
	#state = 20_270_104;

	constructor(drills: readonly LinkedDrill[]) {
		for (const drill of drills) {
			const texts = [
				drill.summary ?? "",
				...drill.cues,
				drill.spotting ?? "",
				drill.caution ?? "",
				drill.body,
			];
			for (const text of texts) this.#read(text.replace(/\[\[[^\]]*\]\]|[*_#>|[\]`\-"':;]/g, " "));
		}
	}

	#read(text: string): void {
		const words = text.split(/\s+/).filter((word) => word !== "");
		words.forEach((word, i) => {
			if (i === 0) this.#starts.push(word);
			const following = this.#next.get(words[i - 1] ?? "");
			if (following === undefined) this.#next.set(words[i - 1] ?? "", [word]);
			else following.push(word);
		});
	}

	/** A sentence of so many words. */
	sentence(words: number): string {
		let word = this.#any(this.#starts);
		const said = [word];
		while (said.length < words) {
			word = this.#any(this.#next.get(word) ?? this.#starts);
			said.push(word);
		}
		return `${said.join(" ").replace(/[,.]$/, "")}.`;
	}

	#any(list: readonly string[]): string {
		this.#state = (Math.imul(this.#state, 1_664_525) + 1_013_904_223) >>> 0;
		return list[Math.floor((this.#state / 2 ** 32) * list.length)] ?? "Hold";
	}
}
