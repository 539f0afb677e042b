/**
 * Clubs unlike the demo, from a seed: areas of 8 × 4 m with five stations and an item for each gymnast,
 * apparatus that nobody drew, names in other letters, long names, fields that are not there, up to twelve
 * levels. Small, so that twenty can be printed. The same seed writes the same club.
 */

import { existsSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { drawSheets } from "../../layouts/sheets/single-sheets.ts";
import { openHandbook } from "../../scripts/handbook.ts";
import { type PrintOptions, printBinder } from "../../scripts/print/binder.ts";
import { printSheets } from "../../scripts/print/sheets.ts";
import { singleSheets } from "../../scripts/views/sheets/single-sheets.ts";

/** A small generator of numbers (mulberry32), so that a seed means the same club on every machine. */
function numbersFrom(seed: number): () => number {
	let state = seed >>> 0;
	return () => {
		state = (state + 0x6d2b79f5) >>> 0;
		let t = Math.imul(state ^ (state >>> 15), 1 | state);
		t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
		return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
	};
}

const APPARATUS = [
	["trampette", "Trampette"],
	["sol", "Sol"],
	["mostik", "Гимнастический мостик"],
	["air-track", "Air track"],
	["rope", "Rope"],
	["cheval", "Cheval d'arçons à l'ancienne, côté fenêtre"],
	["beam", "Beam"],
	["floor", "Floor"],
	["vault", "Vault"],
	["parkour", "أرضية"],
	["ringe", "Schaukelringe"],
] as const;

const WORDS =
	"arms by the ears, tight middle, push the floor away, land on two feet and stay, look at the wall, épaules hautes, weit über die Hände, спина круглая, chest in, knees together, slow down".split(
		", ",
	);
const TITLES = [
	"Log roll",
	"Élévation à l'équilibre",
	"Überschlag-Vorübung",
	"Кувырок вперёд",
	"Bunny hop over the line",
	"Rebound to stick",
	"מתח קצר",
	"Схождение с возвышения",
	"Swing and stop",
	"Planche tenue",
	"Cast off the block",
	"مستقيم على البساط",
];

/** Writes a club folder. */
function writeStrangeClub(dir: string, seed: number): void {
	const random = numbersFrom(seed * 7919 + 13);
	const upTo = (most: number) => Math.floor(random() * most);
	const between = (least: number, most: number) => least + upTo(most - least + 1);
	const sometimes = (share: number) => random() < share;
	const pick = <T>(list: readonly T[]): T => {
		const one = list[upTo(list.length)];
		if (one === undefined) throw new Error("nothing to pick from");
		return one;
	};
	const sentence = (least: number, most: number) =>
		Array.from({ length: between(least, most) }, () => pick(WORDS)).join(", ");
	const text = (words: string) => JSON.stringify(words);
	const write = (path: string, content: string) => {
		const file = join(dir, path);
		mkdirSync(join(file, ".."), { recursive: true });
		writeFileSync(file, content);
	};

	const apparatus = [...APPARATUS].sort(() => random() - 0.5).slice(0, between(2, 4));
	const levelCount = seed % 5 === 0 ? 12 : between(1, 4);
	const levels = Array.from({ length: levelCount }, (_, i) => ({
		id: `l${i + 1}`,
		name: sometimes(0.3) ? `Gruppe der Fortgeschrittenen ${i + 1}` : `Level ${i + 1}`,
	}));
	const items = Array.from({ length: between(2, 7) }, (_, i) => ({
		id: `item-${i + 1}`,
		name: pick([
			"Mat",
			"Balle en mousse",
			"Keulenständer",
			"Резинка",
			"Hoop",
			"Very long foam wedge with handles",
		]),
	}));
	write(
		"_data/club.yaml",
		`format: 1\nname: ${text(pick(["Nordhafen Turnverein", "Les Lutins de Bellecombe", "Спортклуб Ольха", "Tarn Gym"]))}\n` +
			(sometimes(0.4) ? "language: fr\n" : "") +
			(sometimes(0.4) ? "paper: Letter\npunch: three-hole\n" : "") +
			(sometimes(0.7) ? `emergency: ${text(`Stop everything. ${sentence(2, 6)}.`)}\n` : ""),
	);
	write(
		"_data/apparatus.yaml",
		apparatus
			.map(([id, name]) => `- {id: ${id}, name: ${text(name)}${sometimes(0.8) ? ", plan: [8, 4]" : ""}}\n`)
			.join(""),
	);
	write("_data/levels.yaml", levels.map(({ id, name }) => `- {id: ${id}, name: ${text(name)}}\n`).join(""));
	write(
		"_data/equipment.yaml",
		items
			.map(
				({ id, name }, i) =>
					`- {id: ${id}, name: ${text(`${name} ${i + 1}`)}${sometimes(0.5) ? `, owned: ${between(1, 20)}` : ""}${sometimes(0.5) ? ", stored: Store" : ""}${sometimes(0.5) ? ", size: [2, 1]" : ""}}\n`,
			)
			.join(""),
	);
	write(
		"_data/shapes.yaml",
		"- {id: hollow, name: Hollow, angles: {shoulder: 170, hip: 160, knee: 180, ankle: 175, trunk: 20}}\n- {id: tuck, name: Groupé, angles: {shoulder: 60, hip: 55, knee: 50, ankle: 150}}\n",
	);
	const classes = Array.from({ length: between(1, 2) }, (_, i) => {
		const own = levels.filter(() => sometimes(0.6));
		const level = (own.length === 0 ? levels.slice(0, 1) : own).map(({ id }) => id);
		return `  - {id: class-${i + 1}, name: ${text(pick(["Monday", "Les petits du mercredi après-midi", "Mini 🤸", "Группа"]))}, level: [${level.join(", ")}], day: ${pick(["monday", "saturday"])}, start: "16:30", minutes: ${between(45, 120)}, warm-up: 8, cool-down: 4, gymnasts: ${between(6, 16)}${sometimes(0.6) ? ", ages: [6, 9]" : ""}, rotation: [${apparatus.map(([id]) => id).join(", ")}]}\n`;
	});
	write("_data/term.yaml", `name: Term\nstarts: 2027-01-04\nweeks: 2\nclasses:\n${classes.join("")}`);

	const drills = new Map<string, string[]>();
	for (const [id] of apparatus) {
		for (let i = 0; i < between(3, 6); i++) {
			const drill = `${id}-drill-${i + 1}`;
			drills.set(id, [...(drills.get(id) ?? []), drill]);
			const offered = levels.filter(() => sometimes(0.8));
			const named = offered.length === 0 ? levels : offered;
			write(
				`content/drills/${id}/${drill}.md`,
				`---\ntitle: ${text(`${pick(TITLES)} ${i + 1}`)}\napparatus: ${id}\n` +
					(sometimes(0.5)
						? `levels:\n${named.map((level) => `  ${level.id}: {do: ${text(sentence(1, 4))}, sets: 2, reps: 4}\n`).join("")}`
						: `levels: [${named.map((level) => level.id).join(", ")}]\n`) +
					(sometimes(0.7)
						? `equipment:\n  ${pick(items).id}: {count: ${between(1, 3)}, per: gymnast}\n`
						: "") +
					(sometimes(0.5) ? "sequence: [hollow, tuck, hollow]\n" : "") +
					(sometimes(0.8)
						? `cues:\n${Array.from({ length: between(1, 6) }, () => `  - ${text(pick(WORDS))}\n`).join("")}`
						: "") +
					(sometimes(0.4) ? `faults:\n  - {see: ${text(pick(WORDS))}, say: ${text(pick(WORDS))}}\n` : "") +
					(sometimes(0.7) ? `spotting: ${text(`${sentence(2, sometimes(0.2) ? 40 : 8)}.`)}\n` : "") +
					(sometimes(0.7) ? `caution: ${text(`${sentence(2, 8)}.`)}\n` : "") +
					`---\n\n${sentence(3, 20)}.\n`,
			);
		}
	}
	for (const week of [1, 2]) {
		write(
			`content/weeks/week-${week}.md`,
			`---\nweek: ${week}\ntheme: ${text(pick(WORDS))}\napparatus:\n${apparatus
				.map(([id]) => {
					const own = drills.get(id) ?? [];
					const stations = Array.from(
						{ length: between(2, 5) },
						() =>
							`{drill: ${pick(own)}${sometimes(0.3) ? `, at: [${between(0, 8)}, ${between(0, 4)}]` : ""}}`,
					);
					return `  ${id}:\n${sometimes(0.5) ? `    focus: ${text(sentence(1, 3))}\n` : ""}    blocks:\n      - {stations: [${stations.join(", ")}], minutes: ${between(8, 25)}}\n      - {drill: ${pick(own)}, minutes: ${between(3, 8)}}\n`;
				})
				.join("")}---\n\n${sentence(2, 10)}.\n`,
		);
	}
}

/** How a club was printed. */
export interface StrangePrint {
	/** Files that were asked for and are not there. */
	readonly lost: readonly string[];
	/** Problems that are errors: something cannot be read, or is not on paper. */
	readonly errors: readonly string[];
	/** Codes of all that was told. */
	readonly codes: ReadonlySet<string>;
}

/** Writes the club of a seed, and prints its binder and all its sheets. */
export async function printStrangeClub(
	seed: number,
	tools: Pick<PrintOptions, "browser" | "threads"> = {},
): Promise<StrangePrint> {
	const folder = mkdtempSync(join(tmpdir(), "strange-"));
	try {
		const club = join(folder, "club");
		writeStrangeClub(club, seed);
		const { handbook, problems: wrong } = openHandbook(club);
		if (handbook === undefined) throw new Error(wrong.map(({ what }) => what).join("\n"));
		const binderFile = join(folder, "binder.pdf");
		const binder = await printBinder(
			{ ...handbook, clubDir: club },
			{ outFile: binderFile, cacheDir: false, ...tools },
		);
		const files = drawSheets(singleSheets(handbook));
		const printed = await printSheets(files, {
			outDir: folder,
			club: handbook.curriculum.club,
			...tools,
		});
		const problems = [...binder.problems, ...printed.problems];
		return {
			lost: [binderFile, ...files.map(({ path }) => join(folder, path))].filter((file) => !existsSync(file)),
			errors: problems
				.filter(({ severity }) => severity === "error")
				.map(({ code, place, what }) => `${place.file}:${place.line} ${code} ${what}`),
			codes: new Set(problems.map(({ code }) => code)),
		};
	} finally {
		rmSync(folder, { recursive: true, force: true });
	}
}
