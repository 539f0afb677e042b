/** Which fields of a club's files hold ids, and of what: the one list of them. */

import { type DataPath, type FileKind, type Id, LINK_KINDS, type SourceFile } from "../model.ts";
import { ID_PATTERN } from "../validate/schemas.ts";

/** What has an id: what can be linked to, and what only fields name. */
export const ID_KINDS = [...LINK_KINDS, "class", "purpose"] as const;
export type IdKind = (typeof ID_KINDS)[number];

/**
 * A field of ids: the field itself where it is one id, its items, or its keys where it is a map. Where
 * two kinds of things may stand in it, both are named.
 */
type Field = readonly [path: readonly (string | null)[], kind: IdKind | readonly IdKind[], place?: "key"];

/** `null` stands for any key or place in a list. A field may hold one id or a list of them. */
const FIELDS: Readonly<Partial<Record<FileKind, readonly Field[]>>> = {
	drill: [
		[["apparatus"], "apparatus"],
		[["levels"], "level"],
		[["levels", null], "level", "key"],
		[["shapes"], "shape"],
		[["sequence"], "shape"],
		[["sequence", null, "shape"], "shape"],
		[["faults", null, "shape"], "shape"],
		[["levels", null, "sequence"], "shape"],
		[["levels", null, "sequence", null, "shape"], "shape"],
		[["skills"], "skill"],
		[["performs"], "skill"],
		[["elements", null, "skill"], "skill"],
		[["elements", null, "drill"], "drill"],
		[["after"], "drill"],
		[["ready", null, "drill"], "drill"],
		[["ready", null, "skill"], "skill"],
		[["partner"], "drill"],
		[["purpose"], "purpose"],
		[["equipment", null], "equipment", "key"],
		[["levels", null, "equipment", null], "equipment", "key"],
		[["heights", null, null], "level", "key"],
	],
	week: [
		[["apparatus", null], "apparatus", "key"],
		[["apparatus", null, "blocks", null, "drill"], "drill"],
		[["apparatus", null, "blocks", null, "stations", null, "drill"], "drill"],
		[["apparatus", null, "blocks", null, "options", null, "drill"], "drill"],
		[["apparatus", null, "blocks", null, "levels"], "level"],
		[["apparatus", null, "blocks", null, "dose", null], "level", "key"],
	],
	club: [[["emergency-guide"], "guide"]],
	term: [
		[["classes", null, "id"], "class"],
		[["classes", null, "level"], "level"],
		[["classes", null, "rotation"], "apparatus"],
		[["classes", null, "same-as"], "class"],
		[["classes", null, "groups", null, "level"], "level"],
		[["classes", null, "groups", null, "rotation"], "apparatus"],
	],
	levels: [
		[[null, "id"], "level"],
		[
			[null, "entry"],
			["skill", "drill"],
		],
	],
	apparatus: [[[null, "id"], "apparatus"]],
	shapes: [[[null, "id"], "shape"]],
	skills: [
		[[null, "id"], "skill"],
		[[null, "apparatus"], "apparatus"],
		[[null, "levels"], "level"],
		[[null, "needs"], "skill"],
		[[null, "opposite"], "skill"],
	],
	equipment: [[[null, "id"], "equipment"]],
	purposes: [[[null, "id"], "purpose"]],
	accepted: [
		[[null, "about", "level"], "level"],
		[[null, "about", "apparatus"], "apparatus"],
		[[null, "about", "drill"], "drill"],
		[[null, "about", "skill"], "skill"],
		[[null, "about", "shape"], "shape"],
		[[null, "about", "class"], "class"],
		[[null, "about", "equipment"], "equipment"],
	],
	taught: [
		[[null, "class"], "class"],
		[[null, "blocks", null, "apparatus"], "apparatus"],
		[[null, "blocks", null, "drills"], "drill"],
		[[null, "skills", null, "skill"], "skill"],
	],
};

/** A block's dose for everybody has these in place of levels. */
const DOSE_FIELDS: ReadonlySet<unknown> = new Set(["sets", "reps", "hold"]);

function isDoseField(pattern: readonly (string | null)[], at: DataPath): boolean {
	return pattern.at(-2) === "dose" && DOSE_FIELDS.has(at.at(-1));
}

/** What the id may name that stands at this path of a file of this kind; empty where none stands. */
export function kindsOfField(file: FileKind, at: DataPath, isKey: boolean): readonly IdKind[] {
	for (const [pattern, kind, place] of FIELDS[file] ?? []) {
		if (isKey !== (place === "key")) continue;
		// The field itself, or an item of its list.
		const isItem = !isKey && at.length === pattern.length + 1 && typeof at.at(-1) === "number";
		if (at.length !== pattern.length && !isItem) continue;
		if (!pattern.every((name, i) => name === null || name === at[i])) continue;
		return isDoseField(pattern, at) ? [] : typeof kind === "string" ? [kind] : kind;
	}
	return [];
}

/** An id that stands in a field of a file. */
export interface Reference {
	/** What it may name: one thing of any of these kinds. */
	readonly kinds: readonly IdKind[];
	readonly id: Id;
	readonly path: DataPath;
	readonly what: "key" | "value";
}

/** A file that was read stays the same for ever, and `serve` brings it again at every change of another. */
const known = new WeakMap<SourceFile, readonly Reference[]>();

/**
 * The ids that a file names, apart from its entries' own. The file may be at fault: what is not of the
 * form of an id, or not where one belongs, is passed over.
 */
export function referencesIn(file: SourceFile): readonly Reference[] {
	const before = known.get(file);
	if (before !== undefined) return before;
	const found: Reference[] = [];
	known.set(file, found);
	for (const [pattern, kind, place] of FIELDS[file.kind] ?? []) {
		if (pattern.at(-1) === "id") continue;
		const what = place ?? "value";
		const kinds = typeof kind === "string" ? [kind] : kind;
		const add = (id: unknown, path: DataPath): void => {
			const text = typeof id === "number" ? String(id) : id;
			if (typeof text === "string" && ID_PATTERN.test(text) && !isDoseField(pattern, path))
				found.push({ kinds, id: text, path: [...path], what });
		};
		follow(file.data, pattern, 0, [], what, add);
	}
	return found;
}

/** @param path what was followed so far: one list, which `add` copies where it keeps it */
function follow(
	value: unknown,
	pattern: readonly (string | null)[],
	at: number,
	path: (string | number)[],
	what: "key" | "value",
	add: (id: unknown, path: DataPath) => void,
): void {
	const into = (step: string | number, next: unknown): void => {
		path.push(step);
		follow(next, pattern, at + 1, path, what, add);
		path.pop();
	};
	const step = pattern[at];
	if (step === undefined) {
		if (Array.isArray(value)) {
			for (const [i, item] of value.entries()) {
				path.push(i);
				add(item, path);
				path.pop();
			}
		} else add(value, path);
	} else if (typeof value !== "object" || value === null) return;
	else if (step !== null) {
		if (Object.hasOwn(value, step)) into(step, Reflect.get(value, step));
	} else if (Array.isArray(value)) {
		if (what === "value") for (const [i, item] of value.entries()) into(i, item);
	} else {
		const isKey = what === "key" && at === pattern.length - 1;
		for (const key of Object.keys(value)) {
			if (isKey) {
				path.push(key);
				add(key, path);
				path.pop();
			} else into(key, Reflect.get(value, key));
		}
	}
}
