/**
 * Body shapes: the contact sheet, and the page of one.
 */

import { classify, STRADDLE_BORDER, TRAMPOLINE_BORDER } from "../link/classify.ts";
import type { LinkedShape } from "../model.ts";
import { type Address, addressOf } from "./addresses.ts";
import { type DrillLine, drillLines } from "./drill.ts";
import { findingLines } from "./findings.ts";
import { type Link, linkTo } from "./links.ts";
import type { SiteIndex } from "./site-index.ts";
import { spacingOf } from "./spacing.ts";

/** The position that a shape is drawn in, by the borders of published codes, in degrees. */
export type DrawnAs = ReturnType<typeof drawnAs>;

export type ShapesView = ReturnType<typeof shapesView>;

export type ShapeCore = ReturnType<typeof shapeCore>;

export type ShapeView = ReturnType<typeof shapeView>;

/** All shapes in the club's order. */
export function shapesView({ curriculum }: SiteIndex) {
	return {
		shapes: Array.from(curriculum.shapes.values(), (shape) => ({
			shape,
			link: linkTo(curriculum, "shape", shape.id),
			drills: shape.drills.length,
			drawnAs: drawnAs(shape),
		})),
	};
}

function drawnAs({ angles }: LinkedShape) {
	return {
		/** Undefined where the legs are in different positions. */
		position: angles && classify(angles),
		borders: { trampoline: TRAMPOLINE_BORDER, straddle: STRADDLE_BORDER },
	};
}

export function shapeCore(site: SiteIndex, shape: LinkedShape) {
	return {
		shape,
		link: linkTo(site.curriculum, "shape", shape.id),
		description: site.inline(addressOf({ kind: "shape", id: shape.id }), shape.description),
	};
}

/** One shape: what it looks like, and its drills by apparatus. */
export function shapeView(site: SiteIndex, shape: LinkedShape) {
	const page = addressOf({ kind: "shape", id: shape.id });
	const places = site.drillsOfShape(shape.id);
	return {
		...shapeCore(site, shape),
		drawnAs: drawnAs(shape),
		drills: byApparatus(site, page, (id) => places.get(id) ?? []),
		spacing: spacingOf(site, "shape", shape.id),
		findings: findingLines(site, site.findings.shape.get(shape.id) ?? []),
	};
}

/** Lists of drills by apparatus, in the club's order; apparatus without any are left out. */
export function byApparatus(
	site: SiteIndex,
	page: Address,
	drillsOn: (apparatus: string) => Parameters<typeof drillLines>[2],
): readonly { readonly apparatus: Link; readonly lines: readonly DrillLine[] }[] {
	return [...site.curriculum.apparatus.keys()].flatMap((id) => {
		const lines = drillLines(site, page, drillsOn(id));
		return lines.length === 0 ? [] : [{ apparatus: linkTo(site.curriculum, "apparatus", id), lines }];
	});
}
