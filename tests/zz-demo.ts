import { openHandbook } from "../scripts/handbook.ts";
import { Choices } from "../scripts/solve/choices.ts";
import { inComponents } from "../scripts/solve/components.ts";
import { mend } from "../scripts/solve/mend.ts";
import { Solver } from "../scripts/solve/solver.ts";
import { changesOf } from "../scripts/solve/apply.ts";
import { changeList } from "../scripts/edit/write-changes.ts";
import { withWeeks } from "../scripts/link/join-records.ts";
const k = Number(process.argv[2] ?? 0);
const t0 = performance.now();
const { handbook } = openHandbook(process.argv[3] ?? ".");
if (!handbook) throw new Error("no");
let { curriculum } = handbook;
console.log("open", performance.now() - t0);
let state = Number(process.argv[4] ?? 7);
const below = (n: number) => { state = (state * 48271) % 2147483647; return state % n; };
if (process.argv[5]) { const ch = new Choices(curriculum); const sv = new Solver(); const f = await mend(ch, { solve: inComponents((p, w) => sv.solve(p, w), () => performance.now()), isAsked: () => true, seconds: 20, now: () => performance.now() }); curriculum = f.curriculum; console.log("right term", f.after.length); await sv.end(); }
if (k > 0) {
	const choices = new Choices(curriculum);
	const seats = choices.seats.filter((s) => choices.candidates(s).length > 0);
	const swaps = new Map<string, string>();
	while (swaps.size < k) { const s = seats[below(seats.length)]!; const c = choices.candidates(s); const d = c[below(c.length)]!; swaps.set(`${s.part.plan.week}/${s.part.apparatus}/${s.part.block.number}/${s.station}`, d.id); }
	curriculum = withWeeks(curriculum, curriculum.weeks.map((w) => ({ ...w, apparatus: w.apparatus.map((p) => ({ ...p, blocks: p.blocks.map((b) => ({ ...b, stations: b.stations.map((st, i) => { const d = swaps.get(`${w.week}/${p.apparatus}/${b.number}/${i}`); return d === undefined ? st : { ...st, drill: d }; }) })) })) })));
}
const t1 = performance.now();
const choices = new Choices(curriculum);
const solver = new Solver();
let last = 0;
const found = await mend(choices, { solve: inComponents(async (p, w) => { const dump = async () => { (await import('node:fs')).writeFileSync('/tmp/lp.json', JSON.stringify(Object.fromEntries(Object.entries(p).map(([k, v]) => [k, [...v].map((x: number) => (x === Infinity ? 1e30 : x === -Infinity ? -1e30 : x))])))); process.exit(); }; const c = performance.now(); const r = await solver.solve(p, w); if (process.env.DUMP && r.status === 'stopped') await dump(); if (process.env.TALK) console.error("   part", p.price.length, p.rowLower.length, r.status, r.price, Math.round(performance.now() - c)); return r; }, () => performance.now()), isAsked: () => true, seconds: 100, now: () => performance.now(), onProgress: (p) => { if (performance.now() - last > 300) { last = performance.now(); console.log(Math.round(last - t1), JSON.stringify(p)); } } });
console.log("mended in", performance.now() - t1, found.status, found.proof, "rounds", found.rounds, "price", found.price, "bound", found.bound, "before", found.before.length, "after", found.after.length, JSON.stringify(found.size), "watched", found.watched.length);
for (const c of found.after) console.log("  left", c.key, c.weight);
console.log(changeList(changesOf(choices, found.chosen)));
await solver.end();
