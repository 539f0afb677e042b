/**
 * The head of a measure's page: what it means, the club's target, and what it finds.
 */

import { type FindingLine, findingLines } from "../findings.ts";
import type { Link } from "../links.ts";
import type { SiteIndex } from "../site-index.ts";
import { filesOf, MEASURE_IDS, type MeasureId, measureFacts, measureLink, targetOf } from "./measure-page.ts";

/** What every page of a measure begins and ends with. */
export interface MeasureHead {
	readonly title: string;
	readonly means: string;
	readonly source: string;
	/** One sentence; undefined where the club has set no target. */
	readonly target: string | undefined;
	/** Whether the measure has targets at all. */
	readonly judged: boolean;
	readonly files: readonly Link[];
	readonly findings: readonly FindingLine[];
	/** No week is planned, so there is nothing to count. */
	readonly empty: boolean;
	readonly others: readonly Link[];
}

export function measureHead(site: SiteIndex, id: MeasureId): MeasureHead {
	const { files, codes } = measureFacts(id);
	const { title, means, source } = site.words.measures[id];
	return {
		title,
		means,
		source,
		target: targetOf(site, id),
		judged: codes.length > 0,
		files: filesOf(site, files),
		findings: findingLines(
			site,
			site.handbook.findings.filter((finding) => (codes as readonly string[]).includes(finding.code)),
		),
		empty: site.curriculum.weeks.length === 0,
		others: MEASURE_IDS.filter((other) => other !== id).map((other) => measureLink(site.words, other)),
	};
}
