/**
 * `compare --library`: what the club's libraries changed of what it takes, since the director last looked.
 *
 *   take   the library's new word is the club's: it is noted as seen
 *   keep   the club goes on with the old one: what changed is written into its own files, as fields of its
 *          own, which come before the library's from then on
 *
 * Without either nothing is written.
 */

import { type Document, isMap, isSeq, parseDocument } from "yaml";
import { type ClubTexts, idOf, kindOf } from "../edit/club-texts.ts";

import { joinLibraries } from "../libraries/join-libraries.ts";
import { changesSince, type LibraryChange, noteSeen, seenIn, TEXT_FIELD } from "../libraries/seen.ts";
import { type DataKind, LIST_FILES } from "../model.ts";
import type { Data } from "../read/data.ts";
import { readClub } from "../read/read-club.ts";
import { splitPage } from "../read/split-page.ts";
import { editClub } from "./edit-club.ts";
import { count } from "./report.ts";
import type { Run } from "./run.ts";
import { clubFilePath } from "./write-club-file.ts";

export interface LibraryChoice {
	/** Things as `drill:log-roll`, or `all`. */
	readonly take: readonly string[];
	readonly keep: readonly string[];
	readonly json: boolean;
}

const LIST_OF: Readonly<Record<string, DataKind>> = LIST_FILES;

/** @returns 0 told or done, 1 where the folder has errors, 2 where a name is none that changed */
export function compareLibrary(run: Run, { take, keep, json }: LibraryChoice): number {
	const { clubDir, out } = run;
	const { theirs, origins, libraries } = joinLibraries(readClub(clubDir), clubDir);
	if (libraries.length === 0) {
		out.line("This club names no library in `_data/club.yaml`.");
		return 0;
	}
	const seen = new Map(seenIn(clubDir));
	for (const [thing, now] of theirs) if (!seen.has(thing)) seen.set(thing, now);
	const changes = changesSince(seen, theirs);
	const known = new Set(changes.map(({ thing }) => thing));
	const wrong = [...take, ...keep].filter((one) => one !== "all" && !known.has(one));
	if (wrong.length > 0) {
		out.line(`Nothing changed of ${wrong.join(", ")}. What changed is named as in: drill:log-roll`);
		return 2;
	}
	if (json) out.line(JSON.stringify(changes, null, "\t"));
	else {
		for (const change of changes) tell(change, origins.get(change.thing)?.changed ?? [], run);
		out.line(
			`${count(theirs.size, "thing")} from ${libraries.length} ${libraries.length === 1 ? "library" : "libraries"}: ${changes.length === 0 ? "nothing has changed since you looked." : `${changes.length} changed since you looked.`}`,
		);
	}
	const isIn = (list: readonly string[], thing: string) => list.includes(thing) || list.includes("all");
	const kept = changes.filter(({ thing }) => isIn(keep, thing) && !take.includes(thing));
	const taken = changes.filter(({ thing }) => isIn(take, thing) && !kept.some((one) => one.thing === thing));
	if (kept.length > 0) {
		const what = `compare --library --keep ${keep.join(",")}`;
		const ended = editClub(run, { what, write: true }, (texts) =>
			kept.reduce((all, change) => keepOld(all, change, theirs.get(change.thing)?.data), texts),
		);
		if (ended !== 0) return ended;
	}
	if (kept.length + taken.length === 0) return 0;
	for (const { thing } of [...kept, ...taken]) {
		const now = theirs.get(thing);
		if (now !== undefined) seen.set(thing, now);
	}
	noteSeen(clubDir, seen);
	if (taken.length > 0) out.line(`Taken: ${taken.map(({ thing }) => thing).join(", ")}`);
	return 0;
}

/** Longest value that is shown whole. */
const SHOWN = 100;

function tell({ thing, library, fields }: LibraryChange, own: readonly string[], { out }: Run): void {
	out.line(`${thing}, in ${library}`);
	for (const { field, before, now } of fields) {
		const mine = own.includes(field) ? "  (yours stays: you say it yourself)" : "";
		out.line(`    ${field}: ${shown(before)} → ${shown(now)}${mine}`);
	}
}

function shown(value: unknown): string {
	if (value === undefined) return "nothing";
	const text = typeof value === "string" ? value.trim().replace(/\s+/g, " ") : JSON.stringify(value);
	return text.length <= SHOWN ? text : `${text.slice(0, SHOWN)}…`;
}

/** The club's texts with what a library said before as the club's own word. Fields that it says already stay. */
function keepOld(texts: ClubTexts, { thing, fields }: LibraryChange, now: Data = {}): ClubTexts {
	const [kind = "", id = ""] = thing.split(":");
	const list = LIST_OF[kind];
	if (list !== undefined) return keepInList(texts, list, id, fields);
	const path = [...texts.keys()].find((one) => kindOf(one) === kind && idOf(one) === id);
	const page = splitPage(path === undefined ? "---\n---\n" : (texts.get(path) ?? ""));
	if (page.fault !== undefined) return texts;
	const document = parseDocument(page.matter === "" ? "{}" : page.matter);
	let { body } = page;
	for (const { field, before } of fields) {
		if (field !== TEXT_FIELD) keepField(document, [], field, before);
		else if (body.trim() === "") body = String(before);
	}
	const where = path ?? clubFilePath(kind === "guide" ? "guide" : "drill", id, now);
	return new Map(texts).set(where, `---\n${inBlock(document)}---\n${body}`);
}

function keepInList(texts: ClubTexts, list: string, id: string, fields: LibraryChange["fields"]): ClubTexts {
	const path = [...texts.keys()].find((one) => kindOf(one) === list) ?? `_data/${list}.yaml`;
	const document = parseDocument(texts.get(path) ?? "[]");
	if (!isSeq(document.contents)) return texts;
	let at = document.contents.items.findIndex((item) => isMap(item) && String(item.get("id")) === id);
	if (at < 0) {
		at = document.contents.items.length;
		document.add(document.createNode({ id }));
	}
	for (const { field, before } of fields) {
		if (field !== TEXT_FIELD) keepField(document, [at], field, before);
	}
	return new Map(texts).set(path, inBlock(document));
}

function keepField(document: Document, at: readonly number[], field: string, before: unknown): void {
	const path = [...at, field];
	if (document.hasIn(path)) return;
	// Where the library said nothing before, saying nothing is kept too.
	document.setIn(path, before === undefined ? null : document.createNode(before));
}

function inBlock(document: Document): string {
	const { contents } = document;
	if ((isMap(contents) || isSeq(contents)) && contents.items.length > 0) contents.flow = false;
	return document.toString({ lineWidth: 0, flowCollectionPadding: false });
}
