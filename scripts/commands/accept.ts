/** `accept`: a finding that the director lets stand on purpose, with her reason. `undo` takes it back. */

import { accept, type NewAcceptance } from "../edit/accept.ts";
import { openHandbook } from "../handbook.ts";
import type { Finding } from "../model.ts";
import { editClub } from "./edit-club.ts";
import { count, reportFindings } from "./report.ts";
import type { Run } from "./run.ts";

/** Findings of the same code that are shown where none is meant. */
const SHOWN = 5;

/** @returns 0 written, 1 errors in the content, 2 where the plan has no such finding */
export function acceptCommand(run: Run, acceptance: NewAcceptance): number {
	const { out, clubDir } = run;
	const { handbook } = openHandbook(clubDir);
	if (handbook !== undefined) {
		const { finding: code, about } = acceptance;
		const isMeant = (one: Finding): boolean => one.code === code && isAbout(one, about);
		const meant = handbook.findings.filter(isMeant);
		if (meant.length === 0) {
			const before = handbook.accepted.filter(({ finding }) => isMeant(finding));
			const like = handbook.findings.filter((one) => one.code === code);
			out.line(
				before.length > 0
					? `${code} is accepted already: ${before[0]?.by.reason ?? ""}`
					: `The plan has no such finding of ${code}${like.length === 0 ? "." : `; it has ${like.length === 1 ? "this" : "these"}:`}`,
			);
			if (before.length === 0) reportFindings(like, SHOWN, out);
			return 2;
		}
		out.line(`Accepts ${count(meant.length, "finding")}:`);
		reportFindings(meant, SHOWN, out);
		out.line("");
	}
	return editClub(run, { what: said(acceptance), write: true }, (texts) => accept(texts, acceptance));
}

function isAbout(one: Finding, about: Finding["about"]): boolean {
	return Object.entries(about).every(([key, value]) => Reflect.get(one.about, key) === value);
}

function said({ finding, about, reason }: NewAcceptance): string {
	const options = Object.entries(about).map(([key, value]) => ` --${key} ${value}`);
	return `accept ${finding}${options.join("")} --reason ${JSON.stringify(reason)}`;
}
