/**
 * The demo club's drills, read from their files a second time, by a YAML library alone: no schema, no
 * linking, no search. What the held queries ask of a drill (held-queries.ts) is asked of this.
 */

import { globSync, readFileSync } from "node:fs";
import { basename, join } from "node:path";
import { parse } from "yaml";
import { REPOSITORY } from "../open-fixture.ts";

export interface WrittenDrill {
	readonly id: string;
	/** Title, aliases and summary, one to a line, in lower case. */
	readonly head: string;
	readonly shapes: readonly string[];
	readonly skills: readonly string[];
	readonly levels: readonly string[];
	readonly apparatus: readonly string[];
	readonly direction: string;
	readonly equipment: readonly string[];
	/** What a fault looks like, in lower case. */
	readonly see: readonly string[];
	readonly weeks: readonly number[];
}

type Fields = Readonly<Record<string, unknown>>;

/** The drills of the repository's own club, by id. */
export function writtenDrills(): ReadonlyMap<string, WrittenDrill> {
	const weeks = new Map<string, Set<number>>();
	for (const week of frontMatters("content/weeks/*.md")) {
		for (const [, plan] of Object.entries((week.fields.apparatus ?? {}) as Fields)) {
			for (const id of drillsIn(plan)) {
				if (!weeks.has(id)) weeks.set(id, new Set());
				weeks.get(id)?.add(Number(week.fields.week));
			}
		}
	}
	return new Map(
		frontMatters("content/drills/*/*.md").map(({ id, fields }) => {
			const { title, summary, levels, equipment, direction } = fields;
			const faults = (fields.faults ?? []) as readonly { readonly see: string }[];
			const drill: WrittenDrill = {
				id,
				head: [title, ...list(fields.aliases), summary ?? ""].join("\n").toLowerCase(),
				shapes: list(fields.shapes),
				skills: list(fields.skills),
				levels: Array.isArray(levels) ? list(levels) : Object.keys(levels as Fields),
				apparatus: list(fields.apparatus),
				direction: String(direction ?? ""),
				equipment: Object.keys((equipment ?? {}) as Fields),
				see: faults.map(({ see }) => see.toLowerCase()),
				weeks: [...(weeks.get(id) ?? [])],
			};
			return [id, drill] as const;
		}),
	);
}

function frontMatters(pattern: string): readonly { readonly id: string; readonly fields: Fields }[] {
	return globSync(pattern, { cwd: REPOSITORY }).map((path) => ({
		id: basename(path, ".md"),
		fields: parse(readFileSync(join(REPOSITORY, path), "utf8").split(/^---$/m)[1] ?? "") as Fields,
	}));
}

/** Every `drill` written anywhere below, in blocks, stations or options. */
function drillsIn(value: unknown): readonly string[] {
	if (Array.isArray(value)) return value.flatMap(drillsIn);
	if (typeof value !== "object" || value === null) return [];
	return Object.entries(value).flatMap(([key, inner]) =>
		key === "drill" ? [String(inner)] : drillsIn(inner),
	);
}

function list(value: unknown): readonly string[] {
	return value === undefined ? [] : Array.isArray(value) ? value.map(String) : [String(value)];
}
