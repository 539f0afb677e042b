/**
 * Contact sheets of everything the demo club draws, to be looked at by a coach: all shapes, all
 * sequences, all floor plans. Run: node tests/bench/contact-sheet.ts FOLDER [CLUB]. Writes one page of
 * HTML for each into the folder.
 */

import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { floorPlanFigure } from "../../layouts/parts/floor-plan.ts";
import { drawFigure } from "../../scripts/figures/figure.ts";
import { escaped } from "../../scripts/figures/markup.ts";
import { drawStrip } from "../../scripts/figures/strip.ts";
import { movementOf, stripCaption } from "../../scripts/figures/support.ts";
import { openHandbook } from "../../scripts/handbook.ts";
import { floorPlanView } from "../../scripts/views/floor-plan.ts";

const [folder, club = fileURLToPath(new URL("../../", import.meta.url))] = process.argv.slice(2);
if (folder === undefined) throw new Error("name the folder for the contact sheets");
const { handbook } = openHandbook(club);
if (handbook === undefined) throw new Error("the club has an error");
const { curriculum, words } = handbook;

const LOOK = "body{font:16px system-ui;margin:16px;color:#111;background:#fff;--figure-paper:#fff}";

function write(name: string, style: string, parts: readonly string[]): void {
	const page = `<!doctype html><meta charset="utf-8"><title>${name}</title><style>${LOOK}${style}</style>${parts.join("\n")}\n`;
	const file = join(folder ?? "", `${name}.html`);
	writeFileSync(file, page);
	console.log(`${file}: ${parts.length}`);
}

const named = (drawn: string, name: string, more = ""): string =>
	`<figure>${drawn}<figcaption><b>${escaped(name)}</b> ${escaped(more)}</figcaption></figure>`;

mkdirSync(folder, { recursive: true });

const shapes = [...curriculum.shapes.values()].filter(({ angles }) => angles !== undefined);
/** Millimetres at which shapes are met: on a row of a sheet, on a card, on a page of their own. */
const SIZES = [10, 20, 60] as const;

write(
	"shapes",
	"body{display:grid;grid-template-columns:repeat(4,1fr);gap:12px}figure{margin:0;font-size:13px}",
	shapes.map((shape) => {
		const drawn = (size: number): string =>
			drawFigure(shape, {
				title: shape.name,
				description: "",
				idPrefix: `${shape.id}-${size}`,
				size: Math.round((size * 96) / 25.4),
			});
		const sizes = SIZES.toReversed().map(drawn).join("");
		return named(sizes, shape.name, `${JSON.stringify(shape.angles)} ${shape.description}`);
	}),
);

write(
	"sequences",
	"figure{margin:0 0 28px;break-inside:avoid}svg{height:190px;width:auto;max-width:none}",
	[...curriculum.drills.values()].flatMap((drill) => {
		const movement = movementOf(drill, curriculum);
		if (!movement.inOrder || movement.stances.length === 0) return [];
		const strip = drawStrip(movement, { title: drill.title, description: "", idPrefix: drill.id });
		return [
			named(
				strip,
				`${drill.id}: ${drill.title}`,
				`— ${stripCaption(movement, words)} — ${drill.summary ?? ""}`,
			),
		];
	}),
);

const plans = curriculum.weeks.flatMap((week) =>
	week.apparatus.flatMap((plan) =>
		plan.blocks.flatMap((block) => {
			const view = floorPlanView(curriculum, week, plan, block, words);
			if (view === undefined) return [];
			const idPrefix = `${week.id}-${plan.apparatus}-${block.number}`;
			return [
				`<section><h2>${escaped(words.ofBlock(view.apparatus, view.week, view.block))}</h2>${floorPlanFigure(words, view, { idPrefix, upright: false }).text}</section>`,
			];
		}),
	),
);
write(
	"plans",
	"body{display:grid;grid-template-columns:repeat(3,1fr);gap:20px}h2{font-size:16px}figure{margin:0;font-size:11px}ol,ul{columns:2;padding-left:1.5em}.plan-drawing svg{width:100%;height:auto;max-height:360px}.plan-legend svg{width:20px;height:20px}",
	plans,
);
