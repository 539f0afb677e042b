/**
 * An acceptance written into `_data/accepted.yaml`: one line at the end of the list. What stands there,
 * comments and all, stays as it is.
 */

import { isSeq } from "yaml";
import type { Finding } from "../model.ts";
import { type ClubTexts, kindOf } from "./club-texts.ts";
import { placeFile } from "./yaml-places.ts";

export interface NewAcceptance {
	readonly finding: string;
	readonly about: Finding["about"];
	readonly reason: string;
	/** ISO 8601 date of the last day. */
	readonly until: string | undefined;
}

export function accept(texts: ClubTexts, acceptance: NewAcceptance): ClubTexts {
	const path = [...texts.keys()].find((one) => kindOf(one) === "accepted") ?? "_data/accepted.yaml";
	return new Map(texts).set(path, withEntry(path, texts.get(path) ?? "", entryOf(acceptance)));
}

function entryOf({ finding, about, reason, until }: NewAcceptance): string {
	const things = Object.entries(about).map(([kind, value]) => `${kind}: ${value}`);
	return `{${[
		`finding: ${finding}`,
		...(things.length === 0 ? [] : [`about: {${things.join(", ")}}`]),
		// JSON's strings are YAML's as well, whatever stands in them.
		`reason: ${JSON.stringify(reason)}`,
		...(until === undefined ? [] : [`until: ${until}`]),
	].join(", ")}}`;
}

function withEntry(path: string, text: string, entry: string): string {
	const { document, offset } = placeFile(path, text);
	const list = document.contents;
	const end = text.includes("\r\n") ? "\r\n" : "\n";
	if (isSeq(list) && list.flow === true) {
		const [start = 0, close = 0] = list.range ?? [];
		const last = list.items.at(-1);
		const isEmpty = last === undefined;
		const inside = text.slice(offset + start + 1, offset + close - 1);
		const comma = isEmpty ? "" : inside.trimEnd().endsWith(",") ? " " : ", ";
		const at = offset + close - 1;
		return `${text.slice(0, at)}${comma}${entry}${text.slice(at)}`;
	}
	// Dashes stand in the column of the first.
	const [start = 0] = isSeq(list) ? (list.range ?? []) : [];
	const before = text.slice(0, offset + start);
	const indent = isSeq(list) ? before.slice(before.lastIndexOf("\n") + 1) : "";
	const lead = text === "" || text.endsWith("\n") ? "" : end;
	return `${text}${lead}${indent.replace("\ufeff", "")}- ${entry}${end}`;
}
