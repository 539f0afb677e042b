/** A week's plan as the text of its file. */

import { stringify } from "yaml";
import type { Block, WeekPlan } from "../model.ts";

export function weekText({ week, theme, apparatus }: WeekPlan, body: string): string {
	const data = {
		week,
		theme,
		apparatus: Object.fromEntries(
			apparatus.map((plan) => [plan.apparatus, { blocks: plan.blocks.map(written) }]),
		),
	};
	return `---\n${stringify(data, { lineWidth: 0 })}---\n${body}\n`;
}

/** A block's fields, without those that are what they are where nobody says so. */
function written({ kind, stations, choose, minutes, show, change, levels, sessions }: Block) {
	const list = stations.map(({ drill }) => ({ drill }));
	return {
		...(kind === "drill" ? { drill: list[0]?.drill } : {}),
		minutes,
		...(show > 0 ? { show } : {}),
		...(levels.length === 0 ? {} : { levels: levels.length === 1 ? levels[0] : levels }),
		...(sessions.length === 0 ? {} : { session: sessions.length === 1 ? sessions[0] : sessions }),
		...(kind === "stations" ? { change, stations: list } : {}),
		...(kind === "options" ? { choose, options: list } : {}),
	};
}
