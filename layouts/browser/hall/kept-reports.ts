/**
 * The reports that this device keeps, one for each class and week: changed until they are sent, and after.
 * In `localStorage`, whose writes are there at once, also where a page is thrown out of memory with the next
 * tap. Nothing leaves the device by itself.
 */

import { isEmpty, judged, type Report, reportText } from "../../../scripts/records/report.ts";
import { keep, recall } from "./device-memory.ts";

const PREFIX = "handbook-taught/";
/** Sent reports that are kept for looking back; what was not sent is never dropped. */
const MOST_SENT = 60;

export interface KeptReport {
	readonly report: Report;
	/** The revision that was sent last; 0 for none. */
	readonly sent: number;
	/** The sheet, as a path on this host, and how it is called. */
	readonly at: string;
	readonly title: string;
}

export function isUnsent({ report, sent }: KeptReport): boolean {
	return report.revision > sent && !(isEmpty(report) && sent === 0);
}

function keyOf({ class: own, week }: Pick<Report, "class" | "week">): string {
	return `${PREFIX}${own}/${week}`;
}

export function keptReport(own: string, week: string): KeptReport | undefined {
	return readKept(recall(keyOf({ class: own, week })));
}

/** Keeps a report, and says whether it stands: a browser in private mode may keep nothing. */
export function keepReport(kept: KeptReport): boolean {
	const key = keyOf(kept.report);
	const text = JSON.stringify({ ...kept, report: JSON.parse(reportText(kept.report)) as unknown });
	keep(key, text);
	if (recall(key) === text) return true;
	// No room: sent ones make way.
	for (const old of allKept().filter((one) => !isUnsent(one))) keep(keyOf(old.report), undefined);
	keep(key, text);
	return recall(key) === text;
}

export function forgetReport(report: Report): void {
	keep(keyOf(report), undefined);
}

/** Every report on the device, by class and week. */
export function allKept(): readonly KeptReport[] {
	try {
		const keys = Array.from({ length: localStorage.length }, (_, i) => localStorage.key(i) ?? "");
		return keys
			.filter((key) => key.startsWith(PREFIX))
			.sort()
			.flatMap((key) => readKept(recall(key)) ?? []);
	} catch {
		return [];
	}
}

/** Lets the oldest of many sent ones go. */
export function tidyUp(): void {
	const sent = allKept().filter((one) => !isUnsent(one));
	for (const { report } of sent.slice(0, Math.max(0, sent.length - MOST_SENT))) forgetReport(report);
}

/** What was kept by another version of this program, or by something else, is no report. */
function readKept(text: string | undefined): KeptReport | undefined {
	try {
		const { report, sent, at, title } = JSON.parse(text ?? "{}") as Readonly<Record<string, unknown>>;
		const found = judged(report);
		if (typeof found === "string" || typeof sent !== "number") return undefined;
		if (typeof at !== "string" || !/^\/(?!\/)/.test(at) || typeof title !== "string") return undefined;
		return { report: found, sent, at, title };
	} catch {
		return undefined;
	}
}
