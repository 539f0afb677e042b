/**
 * Body shapes: the contact sheet, and the page of one.
 */

import { classify, type Position, STRADDLE_BORDER, TRAMPOLINE_BORDER } from "../link/classify.ts";
import type { LinkedShape } from "../model.ts";
import { type Address, addressOf } from "./addresses.ts";
import { type DrillLine, drillLines } from "./drill.ts";
import { type FindingLine, findingLines } from "./findings.ts";
import type { Html } from "./html.ts";
import { type Link, linkTo } from "./links.ts";
import type { SiteIndex } from "./site-index.ts";
import { type Spacing, spacingOf } from "./spacing.ts";

/** The position that a shape is drawn in, by the borders of published codes, in degrees. */
export interface DrawnAs {
	/** Undefined where the legs are in different positions. */
	readonly position: Position | undefined;
	readonly borders: { readonly trampoline: number; readonly straddle: number };
}

export interface ShapesView {
	readonly shapes: readonly {
		readonly shape: LinkedShape;
		readonly link: Link;
		readonly drills: number;
		readonly drawnAs: DrawnAs;
	}[];
}

/** A shape as such. */
export interface ShapeCore {
	readonly shape: LinkedShape;
	readonly link: Link;
	readonly description: Html | undefined;
}

export interface ShapeView extends ShapeCore {
	readonly drawnAs: DrawnAs;
	readonly drills: readonly { readonly apparatus: Link; readonly lines: readonly DrillLine[] }[];
	readonly spacing: readonly Spacing[];
	readonly findings: readonly FindingLine[];
}

/** All shapes in the club's order. */
export function shapesView({ curriculum }: SiteIndex): ShapesView {
	return {
		shapes: Array.from(curriculum.shapes.values(), (shape) => ({
			shape,
			link: linkTo(curriculum, "shape", shape.id),
			drills: shape.drills.length,
			drawnAs: drawnAs(shape),
		})),
	};
}

function drawnAs({ angles }: LinkedShape): DrawnAs {
	return {
		position: angles && classify(angles),
		borders: { trampoline: TRAMPOLINE_BORDER, straddle: STRADDLE_BORDER },
	};
}

export function shapeCore(site: SiteIndex, shape: LinkedShape): ShapeCore {
	return {
		shape,
		link: linkTo(site.curriculum, "shape", shape.id),
		description: site.inline(addressOf({ kind: "shape", id: shape.id }), shape.description),
	};
}

/** One shape: what it looks like, and its drills by apparatus. */
export function shapeView(site: SiteIndex, shape: LinkedShape): ShapeView {
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
