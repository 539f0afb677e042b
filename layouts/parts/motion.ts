/**
 * The moving figure of a drill: a button, and the stage that it opens. Nothing shows without a program.
 */

import { drawStage, isPlayable, scoreText } from "../../scripts/figures/stage.ts";
import type { Movement } from "../../scripts/figures/support.ts";
import { type Html, html, raw } from "../../scripts/render/html.ts";
import type { PageContext } from "./page.ts";

/** Nothing where there are no two phases to move between. */
export function movingFigure({ words }: PageContext, movement: Movement): Html | undefined {
	if (!isPlayable(movement)) return undefined;
	return html`<div class="motion" data-motion="${scoreText(movement)}">
<button class="button" type="button" hidden><span>${words.figures.move}</span></button>
<div class="stage" hidden>${raw(keptStage(movement))}</div>
</div>`;
}

/** Drills share movements, and a stage takes long to work out; kept as long as their first shapes are. */
const kept = new WeakMap<object, Map<string, string>>();

function keptStage(movement: Movement): string {
	const first = movement.stances[0]?.shape;
	if (first === undefined) return drawStage(movement);
	const stages = kept.get(first) ?? new Map<string, string>();
	kept.set(first, stages);
	// All that a stage is drawn from: its score, and where a mat lies.
	const key =
		scoreText(movement) + movement.stances.map(({ overMat }) => (overMat === true ? 1 : 0)).join("");
	let stage = stages.get(key);
	if (stage === undefined) {
		stage = drawStage(movement);
		stages.set(key, stage);
	}
	return stage;
}
