/**
 * The file and line of each finding. Finding a line parses the file again, so each is looked up once,
 * whatever number of pages and data files name it.
 */

import type { Finding } from "../model.ts";
import type { Place } from "../place.ts";

/** Where a finding is to be mended. */
export function placeOf(finding: Finding): Place {
	let place = places.get(finding);
	if (place === undefined) {
		place = finding.source.place(finding.path);
		places.set(finding, place);
	}
	return place;
}

const places = new WeakMap<Finding, Place>();
