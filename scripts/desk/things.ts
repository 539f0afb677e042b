/**
 * What a club has, read off its files as they are: for lists, pickers and forms. It needs no sound folder,
 * since what is at fault has to be found here to be mended.
 */

import type { DrillLine, FileText, Names, Thing } from "../../layouts/desk/api.ts";
import { idOf, kindOf } from "../edit/club-texts.ts";
import { bodyIn, dataIn } from "../edit/write-data.ts";
import { openFolder } from "../files/folder.ts";
import { sha256 } from "../files/hash.ts";
import { type FileKind, type Id, isPageKind, LIST_FILES, type SourceFile } from "../model.ts";
import type { Problem } from "../problems.ts";
import { readClub, type TriedTexts } from "../read/read-club.ts";
import type { Desk, DeskPlan } from "./desk.ts";
import { draftOf, draftPaths } from "./drafts.ts";
import { problemLine } from "./problem-lines.ts";

/** What a picker calls the kind of the things in a data file. */
const KIND_OF_LIST: ReadonlyMap<FileKind, string> = new Map(
	Object.entries(LIST_FILES).map(([kind, file]) => [file, kind]),
);
const SINGLE = ["club", "term", "targets"] as const;

/** Names by kind: as the handbook has them, where there is one, and from the files for what it has not. */
export function namesIn(handbook: DeskPlan | undefined, files: readonly SourceFile[]): Names {
	const names = new Map<string, Map<Id, string>>();
	const add = (kind: string, id: unknown, name: unknown): void => {
		if (typeof id !== "string" && typeof id !== "number") return;
		const own = names.get(kind) ?? new Map<Id, string>();
		names.set(kind, own);
		if (!own.has(String(id)))
			own.set(String(id), typeof name === "string" && name !== "" ? name : String(id));
	};
	if (handbook !== undefined) {
		const { curriculum } = handbook;
		const { drills, weeks, guides, term } = curriculum;
		for (const [kind, list] of Object.entries(LIST_FILES))
			for (const { id, name } of curriculum[list].values()) add(kind, id, name);
		for (const { id, title } of drills.values()) add("drill", id, title);
		for (const { id, week, theme } of weeks) add("week", id, `${week}: ${theme}`);
		for (const { id, title } of guides.values()) add("guide", id, title);
		for (const { id, name } of term.classes) add("class", id, name);
	}
	for (const { kind, id, data } of files) {
		if (isPageKind(kind)) add(kind, id, field(data, kind === "week" ? "theme" : "title"));
		else if (isListed(kind) && Array.isArray(data))
			for (const entry of data) add(KIND_OF_LIST.get(kind) ?? kind, field(entry, "id"), field(entry, "name"));
	}
	return Object.fromEntries(
		Array.from(names, ([kind, own]) => [kind, Array.from(own, ([id, name]) => ({ id, name }))]),
	);
}

/** Everything of a kind, where it is written, and what is wrong there. */
export function thingsOf(desk: Desk, kind: FileKind): readonly Thing[] {
	const read = readClub(desk.clubDir, desk.cache);
	const faults = (path: string) => desk.problems.filter(({ place }) => place.file === path).length;
	const drafts = draftPaths(desk.clubDir);
	const own = read.files.filter((file) => file.kind === kind);
	if (isPageKind(kind)) {
		const unread = read.unreadable.filter((one) => one.kind === kind).map(({ id }) => id);
		const atFault = [...new Set(desk.problems.map(({ place }) => place.file))].filter(
			(path) => kindOf(path) === kind && unread.includes(idOf(path)),
		);
		const started = drafts.filter(
			(path) => kindOf(path) === kind && !own.some(({ file }) => file === path) && !atFault.includes(path),
		);
		const page = (path: string, id: Id, name: string): Thing => {
			return { id, name, path, problems: faults(path), isDraft: drafts.includes(path) };
		};
		return [
			...own.map(({ id, file, data }) => page(file, id, pageName(kind, id, data))),
			...[...atFault, ...started].map((path) => page(path, idOf(path), idOf(path))),
		].sort((a, b) => a.name.localeCompare(b.name, undefined, { numeric: true }));
	}
	const [file] = own;
	const path = file?.file ?? `_data/${kind}.yaml`;
	const isDraft = drafts.includes(path);
	if (!isListed(kind) || !Array.isArray(file?.data)) {
		return SINGLE.some((one) => one === kind)
			? [{ id: kind, name: kind, path, problems: faults(path), isDraft }]
			: [];
	}
	return file.data.map((entry: unknown, index) => ({
		id: String(field(entry, "id") ?? index + 1),
		name: String(field(entry, "name") ?? field(entry, "id") ?? index + 1),
		path,
		index,
		problems: 0,
		isDraft,
	}));
}

function pageName(kind: FileKind, id: Id, data: unknown): string {
	const name = field(data, kind === "week" ? "theme" : "title");
	const text = typeof name === "string" ? name : id;
	return kind === "week" ? `${String(field(data, "week") ?? "?")}: ${text}` : text;
}

/** Drills for the search beside the board. */
export function drillLines({ curriculum }: DeskPlan): readonly DrillLine[] {
	const { shapes, skills } = curriculum;
	return Array.from(curriculum.drills.values(), (drill) => ({
		id: drill.id,
		name: drill.title,
		file: drill.source.file,
		areas: drill.apparatus,
		levels: [...drill.levels.keys()],
		words: [...drill.aliases, drill.summary ?? ""].join(" "),
		shapes: drill.shapes.map((id) => shapes.get(id)?.name ?? id),
		skills: drill.skills.map((id) => skills.get(id)?.name ?? id),
		weeks: [...new Set(drill.planned.map(({ week }) => week))],
	}));
}

/** A file for its form and its text, with the draft of it that is kept. */
export function fileText(desk: Desk, path: string): FileText {
	if (kindOf(path) === undefined) throw new Error(`${path} is no file of a club.`);
	const club = openFolder(desk.clubDir);
	const text = club.info(path)?.kind === "file" ? club.readText(path) : undefined;
	const draft = draftOf(desk.clubDir, path);
	return {
		path,
		hash: text === undefined ? null : sha256(text),
		problems: problemsIn(path, desk.problems),
		...parts(path, text ?? ""),
		...(draft === undefined ? {} : { draft }),
	};
}

/** A text with its data and its Markdown; without them where it cannot be taken apart. */
export function parts(path: string, text: string): Pick<FileText, "text" | "data" | "body"> {
	try {
		const data = dataIn(path, text);
		return { text, body: bodyIn(path, text), ...(data === undefined ? {} : { data }) };
	} catch {
		return { text, body: "" };
	}
}

function problemsIn(path: string, problems: readonly Problem[]): FileText["problems"] {
	return problems.filter(({ place }) => place.file === path).map(problemLine);
}

export function problemsWith(desk: Desk, path: string, text: string): FileText["problems"] {
	const tried: TriedTexts = new Map([[path, text]]);
	return problemsIn(path, desk.trying(tried).problems);
}

/** Whether a data file holds a list of things, each with an id. */
export function isListed(kind: FileKind): boolean {
	return KIND_OF_LIST.has(kind);
}

function field(data: unknown, name: string): unknown {
	return typeof data === "object" && data !== null ? Reflect.get(data, name) : undefined;
}
