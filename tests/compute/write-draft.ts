/** A draft of a club as a folder, for tests that go by the files. */

import { mkdirSync, mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { stringify } from "yaml";
import type { EquipmentNeed } from "../../scripts/model.ts";
import type { BlockDraft, Draft } from "./build-curriculum.ts";

/** Writes the files of a random club (random-club.ts) to a new folder. */
export function writeDraft({
	levels = [],
	apparatus = [],
	shapes = [],
	skills = [],
	equipment = [],
	drills,
	weeks = {},
	term,
	classes = [],
	targets = {},
}: Draft): string {
	const dir = mkdtempSync(join(tmpdir(), "club-"));
	const write = (path: string, data: unknown, page = false): void => {
		const text = stringify(kebab(data), { aliasDuplicateObjects: false });
		mkdirSync(dirname(join(dir, path)), { recursive: true });
		writeFileSync(join(dir, path), page ? `---\n${text}---\n` : text);
	};
	const named = (list: readonly unknown[]) =>
		list.map((one) => ({
			...(typeof one === "string"
				? { id: one, name: one }
				: { name: (one as { id: string }).id, ...(one as object) }),
		}));
	write("_data/club.yaml", { name: "Club", format: 1 });
	write("_data/levels.yaml", named(levels));
	write("_data/apparatus.yaml", named(apparatus));
	write("_data/shapes.yaml", named(shapes));
	write("_data/skills.yaml", named(skills));
	write("_data/equipment.yaml", named(equipment));
	write("_data/targets.yaml", targets);
	write("_data/term.yaml", {
		name: "Term",
		starts: "2027-01-04",
		between: 0,
		...term,
		classes: named(classes).map(({ levels, ...one }: Record<string, unknown>) => ({
			...one,
			...(levels === undefined || (levels as unknown[]).length === 0 ? {} : { level: levels }),
		})),
	});
	for (const { id, levels, equipment, ...drill } of drills) {
		const own = Array.isArray(levels)
			? levels
			: Object.fromEntries(
					Object.entries(levels).map(([level, manner]) => [
						level,
						{
							do: "As it is.",
							...manner,
							...(manner.equipment === undefined ? {} : { equipment: needs(manner.equipment) }),
						},
					]),
				);
		write(
			`content/drills/floor/${id}.md`,
			{ title: id, ...drill, levels: own, equipment: needs(equipment ?? []) },
			true,
		);
	}
	for (const [week, plan] of Object.entries(weeks)) {
		const planned = Object.entries(plan).map(([place, blocks]) => [place, { blocks: blocks.map(written) }]);
		const page = { week: Number(week), theme: "A week", apparatus: Object.fromEntries(planned) };
		write(`content/weeks/week-${week}.md`, page, true);
	}
	return dir;
}

function written({ options, stations, choose, change, minutes, show = 0, ...block }: BlockDraft) {
	const named = (ids: readonly unknown[] = []) =>
		ids.map((one) => (typeof one === "string" ? { drill: one } : one));
	const own =
		options === undefined
			? { stations: named(stations), change }
			: { options: named(options), choose: Math.min(choose ?? 1, options.length) };
	// A block has some minutes, and does not show for longer.
	const most = Math.max(1, minutes);
	return { ...block, ...own, minutes: most, show: Math.min(show, most) };
}

/** An item that is needed twice is needed that often. */
function needs(list: readonly EquipmentNeed[]): object {
	return Object.fromEntries(list.map(({ item, count, per }) => [item, { count, per }]));
}

/** Keys as files have them; what is empty is left out. */
function kebab(data: unknown): unknown {
	if (Array.isArray(data)) return data.map(kebab);
	if (typeof data !== "object" || data === null) return data;
	return Object.fromEntries(
		Object.entries(data).flatMap(([key, value]) => {
			const isEmpty =
				value === undefined ||
				(typeof value === "object" && value !== null && Object.keys(value).length === 0);
			const isId = ["apparatus", "levels", "blocks"].includes(key);
			return isEmpty && !isId ? [] : [[key.replace(/[A-Z]/g, (c) => `-${c.toLowerCase()}`), kebab(value)]];
		}),
	);
}
