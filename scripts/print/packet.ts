/**
 * Prints an update: the leaves that a binder of an earlier edition needs, and no others.
 *
 *   1. the whole binder is laid out, with marks at passages that the earlier edition did not have
 *   2. its leaves are compared with the earlier edition's                          edition
 *   3. a sheet in front says which leaves to take out and which to put in          layouts/sheets/update
 *   4. these leaves alone are printed, joined and read back, as the binder is
 *
 * Leaves come in pairs of pages, a blank back where there is nothing on it: printed on both sides,
 * the file gives whole leaves. The edition beside it is the one of the binder after the update.
 */

import type { SheetSection, Sheets } from "../../layouts/sheets/section.ts";
import { updateSection } from "../../layouts/sheets/update.ts";
import type { Handbook } from "../handbook.ts";
import type { LinkedDrill } from "../model.ts";
import { raw } from "../views/html.ts";
import type { Edition, Update } from "../views/sheets/edition.ts";
import { updateView } from "../views/sheets/update.ts";
import { type Assembled, type Leaf, someLeaves, type Target } from "./assemble.ts";
import { type Made, type PrintedBinder, type PrintOptions, putInPlace, withPrinter } from "./binder.ts";
import { EditionFault, updateBetween } from "./edition.ts";
import { REFERENCE_WORDS, REPEATED_HEAD } from "./verify.ts";

export interface PrintedUpdate extends PrintedBinder {
	/** What is to be done; undefined where it could not be found out. */
	readonly update: Update | undefined;
}

/**
 * Prints what has changed since an edition. Nothing is written where nothing has.
 *
 * Throws EditionFault where the earlier binder is on other paper, and what `printBinder` throws.
 */
export async function printUpdate(
	handbook: Handbook,
	earlier: Edition,
	options: Omit<PrintOptions, "since" | "volume">,
): Promise<PrintedUpdate> {
	const { paper, punch } = handbook.curriculum.club;
	if (earlier.paper !== paper || earlier.punch !== punch) {
		throw new EditionFault(
			`The binder of that edition is on ${earlier.paper} for a ${earlier.punch} punch, and the club's is now on ${paper} for a ${punch} punch: print it whole.`,
		);
	}
	const failed = (problems: PrintedUpdate["problems"]): PrintedUpdate => ({
		problems,
		pages: 0,
		sections: 0,
		short: 0,
		update: undefined,
	});
	return withPrinter(
		handbook,
		{ ...options, since: earlier, volume: earlier.volume },
		async (printer) => {
			const made = await printer.make(true);
			const update = updateBetween(earlier, made.edition);
			if (update.in.length === 0 && update.out.length === 0) {
				return { problems: [], pages: 0, sections: 0, short: 0, update };
			}
			const section = updateSection(
				handbook.words,
				updateView(handbook.words, update, earlier, made.edition),
			);
			const front = await printer.makeOne(section);
			const papers = update.in.map(({ position }) => position);
			const packet = packetOf(made, section, front, someLeaves(made.assembled, papers));
			const printed = await printer.print(packet, {
				marks: true,
				drills: drillsOn(handbook.curriculum.drills, made.assembled, new Set(papers)),
				whole: made,
			});
			putInPlace(options.outFile, printed.pdf, made.edition);
			return {
				problems: [...made.problems, ...printed.problems],
				pages: packet.assembled.leaves.length,
				sections: packet.sheets.sections.length,
				short: printed.short,
				update,
			};
		},
		failed,
	);
}

/** The sheet in front and the chosen leaves as a binder of their own. */
function packetOf(made: Made, front: SheetSection, before: Assembled, chosen: Assembled): Made {
	const { sheets } = made;
	const shift = before.leaves.length;
	const used = [...new Set(chosen.leaves.map(({ section }) => section))];
	const positions = new Map(used.map((section, i) => [section, i + 1]));
	const numbered = (leaf: Leaf): Leaf => ({ ...leaf, section: positions.get(leaf.section) ?? 0 });
	const targets = [...chosen.targets].map(([id, target]): readonly [string, Target] => [
		id,
		{ ...target, leaf: target.leaf + shift },
	]);
	const packetSheets: Sheets = {
		...sheets,
		title: `${sheets.title}: ${front.title}`,
		sections: [
			front,
			...used.flatMap((number) => {
				const section = sheets.sections[number];
				// What is held against the pages is what was laid out, cut down to the chosen leaves.
				const text = chosen.leaves
					.filter((leaf) => leaf.section === number && !leaf.blank)
					.map((leaf) => leaf.text.replace(REFERENCE_WORDS, "").replace(REPEATED_HEAD, ""));
				return section === undefined
					? []
					: [{ ...section, parts: [{ label: "", head: section.title, html: raw(text.join("")) }] }];
			}),
		],
	};
	const leaves = [...before.leaves, ...chosen.leaves.map(numbered)];
	return {
		sheets: packetSheets,
		edition: made.edition,
		problems: [],
		assembled: {
			...made.assembled,
			leaves,
			targets: new Map([...before.targets, ...underSections(targets, leaves)]),
			papers: [...before.papers, ...chosen.papers],
		},
	};
}

/** The first titled target of each section stands for it in the outline, where the section's own is missing. */
function underSections(
	targets: readonly (readonly [string, Target])[],
	leaves: readonly Leaf[],
): readonly (readonly [string, Target])[] {
	let last = -1;
	return targets.map(([id, target]) => {
		const section = leaves[target.leaf]?.section ?? -1;
		if (target.title === "" || section === last) return [id, target];
		last = section;
		return [id, { ...target, depth: 1 }];
	});
}

/** The drills whose cards are wholly on some leaves. */
function drillsOn(
	drills: ReadonlyMap<string, LinkedDrill>,
	{ leaves, targets }: Assembled,
	papers: ReadonlySet<number>,
): ReadonlyMap<string, LinkedDrill> {
	const cards = [...targets.values()].filter(({ id }) => id.startsWith("drill-"));
	return new Map(
		[...drills].filter(([id]) => {
			const at = cards.findIndex((card) => card.id === `drill-${id}`);
			const first = cards[at]?.leaf;
			if (first === undefined) return false;
			const next = cards[at + 1]?.leaf;
			const { section } = leaves[first] ?? {};
			let end = first;
			while (leaves[end + 1]?.section === section && end < (next ?? leaves.length)) end++;
			for (let page = first; page <= end; page++) if (!papers.has(page >> 1)) return false;
			return true;
		}),
	);
}
