/** The single sheets, printed by a real browser and read back by a library that did not write them. */

import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { PDFDocument, StandardFonts } from "pdf-lib";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { SheetPiece } from "../../layouts/sheets/sheet-file.ts";
import { stepsFrom } from "../../layouts/sheets/side.ts";
import { drawSheets } from "../../layouts/sheets/single-sheets.ts";
import { dateOf } from "../../scripts/compute/calendar.ts";
import { equipmentFor } from "../../scripts/compute/equipment.ts";
import { getOrMake } from "../../scripts/compute/get-or-make.ts";
import { classTime } from "../../scripts/compute/time.ts";
import { makeFolder } from "../../scripts/files/folder.ts";
import { type Handbook, openHandbook } from "../../scripts/handbook.ts";
import { roundedCommands, slimPdf } from "../../scripts/pdf/slim-pdf.ts";
import { readStretch } from "../../scripts/print/read-back.ts";
import { type PrintedSheets, printSheets, steadyIds } from "../../scripts/print/sheets.ts";
import { SHEET_FILES } from "../../scripts/views/addresses.ts";
import { raw } from "../../scripts/views/html.ts";
import { type SheetChoice, singleSheets } from "../../scripts/views/sheets/single-sheets.ts";
import { clubCopy, FIXTURES, REPOSITORY } from "../open-fixture.ts";
import { openPrinter } from "./open-printer.ts";
import { letters, type PrintedPdf, readPdf } from "./read-pdf.ts";

const MM = 72 / 25.4;

const browser = await openPrinter();
const folder = mkdtempSync(join(tmpdir(), "sheets-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function opened(dir: string): Handbook {
	const { handbook, problems } = openHandbook(dir);
	if (handbook === undefined) throw new Error(JSON.stringify(problems.map(({ what }) => what)));
	return handbook;
}

async function print(handbook: Handbook, choice: SheetChoice, outDir: string): Promise<PrintedSheets> {
	return printSheets(drawSheets(singleSheets(handbook, choice)), {
		outDir,
		club: handbook.curriculum.club,
		browser,
	});
}

/** Files that were read: several tests look at the same. */
const known = new Map<string, Promise<PrintedPdf>>();

function read(outDir: string, file: string): Promise<PrintedPdf> {
	const path = join(outDir, file);
	return getOrMake(known, path, () => readPdf(readFileSync(path)));
}

/** All words of a document, without what a line's end does to them. */
const wordsOf = ({ pages }: PrintedPdf): string => letters(pages.map(({ text }) => text).join(" "));

function expectInside({ pages }: PrintedPdf, bound: boolean): void {
	pages.forEach(({ lines, width, height }, i) => {
		for (const { text, x, y, width: long, turned } of lines) {
			const left = bound && i % 2 === 0 ? 15 : 5;
			const right = bound && i % 2 === 1 ? 15 : 5;
			expect(x, text).toBeGreaterThan(left * MM);
			expect(x + (turned ? 0 : long), text).toBeLessThan(width - right * MM);
			expect(y, text).toBeGreaterThan(5 * MM);
			expect(y, text).toBeLessThan(height - 5 * MM);
		}
	});
}

describe("the demo club's sheets", () => {
	const outDir = join(folder, "demo");
	let handbook: Handbook;
	let weekId: string;
	beforeAll(() => {
		handbook = opened(REPOSITORY);
		weekId = handbook.curriculum.weeks[2]?.id ?? "";
	});
	const week = () => {
		const found = handbook.curriculum.weeks[2];
		if (found === undefined) throw new Error("The demo has a third week.");
		return found;
	};

	describe("class sheets and the week's packet", () => {
		let printed: PrintedSheets;
		beforeAll(async () => {
			printed = await print(handbook, { kinds: ["class-sheets", "week-packet"], week: weekId }, outDir);
		});

		it("have no problems", () => {
			expect(printed.problems).toEqual([]);
			expect(printed.files.length).toBe(handbook.curriculum.term.classes.length + 1);
		});

		it("are whole A4 leaves for each class, clear of the holes on both sides", async () => {
			for (const { id, groups } of handbook.curriculum.term.classes) {
				const pdf = await read(outDir, SHEET_FILES.classSheet(weekId, id));
				expect(pdf.pages.length % 2, id).toBe(0);
				// Two leaves for each group that goes its own way.
				expect(pdf.pages.length, id).toBeLessThanOrEqual(4 * Math.max(1, groups.length));
				pdf.pages.forEach(({ text }, i) => {
					expect(text, id).toContain("week 3");
					expect(text.replace(/\s/g, ""), id).toContain(`${i + 1}/${pdf.pages.length}`);
				});
				for (const { width, height } of pdf.pages) {
					expect(width).toBeCloseTo(210 * MM, 2);
					expect(height).toBeCloseTo(297 * MM, 2);
				}
				expectInside(pdf, true);
			}
		});

		it("say the times of the timetable, every cue, dose, spotting and caution, and whom to call", async () => {
			const { term, club, drills } = handbook.curriculum;
			const plain = (words: string) => letters(handbook.markdown.plain(words));
			for (const group of term.classes) {
				const words = wordsOf(await read(outDir, SHEET_FILES.classSheet(weekId, group.id)));
				const [hours = 0, minutes = 0] = (group.start ?? "").split(":").map(Number);
				const begin = hours * 60 + minutes + group.warmUp;
				let clock = begin;
				let latest = begin;
				const time = (at: number) =>
					`${String(Math.floor(Math.round(at) / 60)).padStart(2, "0")}${String(Math.round(at) % 60).padStart(2, "0")}`;
				let at = "";
				let who = "";
				for (const { apparatus, block, drills: done, group: part } of classTime(
					handbook.curriculum,
					week(),
					group,
				).blocks) {
					// Groups begin together, each on its own way.
					if (who !== part) [who, at, clock] = [part, "", begin];
					if (at !== "" && apparatus !== at) clock += group.between;
					at = apparatus;
					expect(words, group.id).toContain(
						`${time(clock)}${time(clock + block.minutes)}${block.minutes}min`,
					);
					clock += block.minutes;
					latest = Math.max(latest, clock);
					for (const { drill: id } of done) {
						const drill = drills.get(id);
						if (drill === undefined) throw new Error(id);
						for (const one of [drill.title, ...drill.cues, drill.spotting ?? "", drill.caution ?? ""]) {
							expect(words, `${group.id}: ${one}`).toContain(plain(one));
						}
						const [fault] = drill.faults;
						if (fault !== undefined) expect(words).toContain(`see${plain(fault.see)}say${plain(fault.say)}`);
						for (const level of group.levels) {
							if (block.levels.length > 0 && !block.levels.includes(level)) continue;
							const dose = drill.levels.get(level);
							if (dose?.do !== undefined) expect(words).toContain(plain(dose.do));
						}
					}
				}
				expect(words).toContain(time(latest + group.coolDown));
				expect(words).toContain(plain(club.emergency ?? "").slice(0, 40));
				const date = dateOf(term, week().week, group) ?? "";
				expect(words).toContain(`${Number(date.slice(8))}`);
			}
		});

		it("are in 8.5 pt at least, and what keeps people safe in 9", async () => {
			const { term, club, drills } = handbook.curriculum;
			for (const group of term.classes) {
				const bytes = readFileSync(join(outDir, SHEET_FILES.classSheet(weekId, group.id)));
				const read = await readStretch({ pdf: bytes, part: 0, parts: 1, extremes: [] });
				const lines = read.pages.flatMap(({ words }) => words);
				for (const { text, size } of lines) expect(size * 0.75, text).toBeGreaterThan(8.49);
				const safety = new Set([club.emergency ?? ""]);
				for (const { drills: done } of classTime(handbook.curriculum, week(), group).blocks) {
					for (const { drill } of done) {
						const { spotting = "", caution = "" } = drills.get(drill) ?? {};
						safety.add(spotting).add(caution);
					}
				}
				const wanted = letters([...safety].map((words) => handbook.markdown.plain(words)).join(" "));
				// Lines of some length that are a part of a safety text and of nothing smaller.
				const own = lines.filter(({ text }) => letters(text).length > 30 && wanted.includes(letters(text)));
				expect(own.length).toBeGreaterThan(5);
				for (const { text, size } of own) expect(size * 0.75, text).toBeGreaterThan(8.99);
			}
		});

		it("have a title, a language, tags, alternative texts and real fonts, and lead to the site", async () => {
			const file = SHEET_FILES.classSheet(weekId, "mon-beginners");
			const pdf = await read(outDir, file);
			expect(pdf.title).toBe("Monday beginners, week 3");
			expect(pdf.language).toBe("en");
			const [front] = pdf.pages;
			expect(front?.roles).toEqual(expect.arrayContaining(["H1", "H2", "H3", "Figure", "L", "LI"]));
			expect(front?.label).toBe("Monday beginners W3 1");
			const text = Buffer.from(
				await (await PDFDocument.load(readFileSync(join(outDir, file)))).save({ useObjectStreams: false }),
			).toString("latin1");
			expect(text).toContain("/FontFile2");
			expect(text).not.toMatch(/\/Subtype \/Type3/);
			expect(text).not.toMatch(/\/Subtype \/Image/);
		});

		it("are gathered in the packet, each on its own leaf, with overview, plans and store room", async () => {
			const packet = await read(outDir, SHEET_FILES.weekPacket(weekId));
			const titles = packet.outline.map(({ title }) => title);
			expect(titles[0]).toMatch(/^Week 3: /);
			expect(titles.slice(1, 9)).toEqual(
				handbook.curriculum.term.classes.map(({ name }) => `${name}, week 3`),
			);
			expect(titles).toContain("Floor plans: Beam, week 3");
			expect(titles.at(-1)).toBe("Store room, week 3");
			const starts = packet.outline.map(({ dest }) => packet.destinations.get(String(dest)) ?? -1);
			for (const start of starts) expect(start % 2).toBe(0);
			expectInside(packet, true);
			const alone = await read(outDir, SHEET_FILES.classSheet(weekId, "thu-level-3"));
			const at = starts[titles.indexOf("Thursday Level 3, week 3")] ?? -1;
			expect(packet.pages[at]?.text).toBe(alone.pages[0]?.text);
		});
	});

	describe("cards, labels, lists", () => {
		let printed: PrintedSheets;
		beforeAll(async () => {
			printed = await print(
				handbook,
				{
					kinds: ["station-cards", "labels", "store-room", "floor-plans", "check-sheets", "term-overview"],
					week: weekId,
					apparatus: "beam",
				},
				outDir,
			);
		});

		it("have no problems", () => {
			expect(printed.problems).toEqual([]);
		});

		it.each([2, 4] as const)("put %i station cards to a sheet, whole, with three cues each", async (up) => {
			const plan = week().apparatus.find(({ apparatus }) => apparatus === "beam");
			const stations =
				plan?.blocks.filter(({ kind }) => kind === "stations").flatMap(({ stations: s }) => s) ?? [];
			const pdf = await read(outDir, SHEET_FILES.stationCards(weekId, "beam", up));
			expect(pdf.pages.length).toBe(Math.ceil(stations.length / up));
			expectInside(pdf, false);
			stations.forEach(({ drill: id }, i) => {
				const drill = handbook.curriculum.drills.get(id);
				const page = pdf.pages[Math.floor(i / up)];
				if (drill === undefined || page === undefined) throw new Error(id);
				// Words of one card: those in its half or its quarter of the sheet.
				const place = i % up;
				const low = up === 2 ? place === 1 : place > 1;
				const right = up === 4 && place % 2 === 1;
				const own = page.lines.filter(
					({ x, y }) => y < page.height / 2 === low && (up === 2 || x > page.width / 2 === right),
				);
				const words = letters(own.map(({ text }) => text).join(" "));
				for (const one of [
					drill.title,
					...drill.cues.slice(0, 3),
					drill.spotting ?? "",
					drill.caution ?? "",
				]) {
					expect(words, drill.title).toContain(letters(handbook.markdown.plain(one)));
				}
				// Nothing comes near the knife: 5 mm on either side of the cut.
				for (const { y, text } of own) expect(Math.abs(y - page.height / 2), text).toBeGreaterThan(5 * MM);
			});
		});

		it("count in the store room and on labels what the measures count", async () => {
			const list = wordsOf(await read(outDir, SHEET_FILES.storeRoom(weekId)));
			const labels = wordsOf(await read(outDir, SHEET_FILES.labels(weekId)));
			const all = new Map<string, number>();
			for (const plan of week().apparatus) {
				const apparatus = handbook.curriculum.apparatus.get(plan.apparatus)?.name ?? "";
				for (const { item, needed } of equipmentFor(handbook.curriculum, plan)) {
					all.set(item, (all.get(item) ?? 0) + needed);
					const { name = "" } = handbook.curriculum.equipment.get(item) ?? {};
					expect(labels).toContain(letters(`${needed} ${name} to ${apparatus}`));
				}
			}
			expect(all.size).toBeGreaterThan(10);
			for (const [item, needed] of all) {
				const known = handbook.curriculum.equipment.get(item);
				expect(list).toContain(letters(`${known?.name} ${needed} ${known?.owned}`));
			}
		});

		it("draw the floor plans with their stations and the equipment as legend", async () => {
			const pdf = await read(outDir, SHEET_FILES.floorPlans(weekId, "beam"));
			expectInside(pdf, true);
			const words = wordsOf(pdf);
			const plan = week().apparatus.find(({ apparatus }) => apparatus === "beam");
			for (const { stations } of plan?.blocks ?? []) {
				stations.forEach(({ drill }, i) => {
					expect(words).toContain(letters(`${i + 1} ${handbook.curriculum.drills.get(drill)?.title}`));
				});
			}
			expect(pdf.pages.flatMap(({ roles }) => roles)).toContain("Figure");
		});

		it("list the skills of a level with empty rows, and ask for no health data", async () => {
			const { skills, levels } = handbook.curriculum;
			for (const level of levels.values()) {
				const pdf = await read(outDir, SHEET_FILES.checkSheet(level.id));
				expectInside(pdf, false);
				const words = wordsOf(pdf);
				for (const skill of skills.values()) {
					if (skill.levels.includes(level.id) && !level.entry.includes(skill.id)) {
						expect(words, skill.name).toContain(letters(skill.name));
					}
				}
				// On further sides stand the criteria.
				const toFill = pdf.pages.filter(({ text }) => !text.includes("What must be seen"));
				expect(toFill.length).toBeGreaterThan(0);
				for (const { text, lines, roles } of toFill) {
					expect(text).toContain("Write nothing about health");
					// Every row has its number and nothing else.
					expect(lines.filter((one) => /^\d+$/.test(one.text) && one.x < 20 * MM).length).toBe(20);
					expect(roles.filter((role) => role === "TR").length).toBe(22);
				}
			}
		});

		it("show the term on one lying page: themes, focus, the closed week", async () => {
			const pdf = await read(outDir, SHEET_FILES.termOverview());
			expect(pdf.pages.length).toBe(1);
			expect(pdf.pages[0]?.width).toBeCloseTo(297 * MM, 2);
			expect(pdf.pages[0]?.height).toBeCloseTo(210 * MM, 2);
			const words = wordsOf(pdf);
			for (const { theme, apparatus } of handbook.curriculum.weeks) {
				expect(words).toContain(letters(handbook.markdown.plain(theme)));
				for (const { focus = "" } of apparatus) {
					expect(words).toContain(letters(handbook.markdown.plain(focus)));
				}
			}
			expect(words).toContain(letters("Closed 15 Feb to 20 Feb"));
		});
	});
});

describe("sheets of other clubs", () => {
	const full = join(FIXTURES, "clubs", "full-pages");
	const letterClub = () => {
		const dir = clubCopy(undefined, full);
		const file = join(dir, "_data/club.yaml");
		writeFileSync(
			file,
			`${readFileSync(file, "utf8").replace(/^(paper|punch):.*\n/gm, "")}\npaper: Letter\npunch: three-hole\n`,
		);
		return dir;
	};

	it("print on Letter, the same bytes every time, and whatever was printed before", async () => {
		const handbook = opened(letterClub());
		const one = join(folder, "one");
		const two = join(folder, "two");
		const printed = await print(handbook, {}, one);
		expect(printed.problems).toEqual([]);
		expect(printed.files).toContain(SHEET_FILES.classSheet("week-1", "mon"));
		for (const file of printed.files) {
			const { pages } = await read(one, file);
			const sides = [8.5 * 72, 11 * 72];
			const [across, down] = file === SHEET_FILES.termOverview() ? sides.reverse() : sides;
			for (const { width, height } of pages) {
				expect(width, file).toBeCloseTo(across ?? 0, 1);
				expect(height, file).toBeCloseTo(down ?? 0, 1);
			}
		}
		const again = await print(handbook, { kinds: ["class-sheets", "labels"] }, two);
		expect(again.files.length).toBeGreaterThan(2);
		for (const file of again.files) {
			expect(readFileSync(join(two, file)).equals(readFileSync(join(one, file))), file).toBe(true);
		}
	});

	it("print with apparatus that nobody drew, and with words in other letters and from the right", async () => {
		const handbook = opened(clubCopy(join(FIXTURES, "clubs", "undrawn-apparatus")));
		const outDir = join(folder, "undrawn");
		const files = drawSheets(singleSheets(handbook));
		const printed = await print(handbook, {}, outDir);
		expect(printed.problems).toEqual([]);
		expect(printed.files.length).toBe(files.length);
		const words = wordsOf(await read(outDir, SHEET_FILES.classSheet("week-1", "mon")));
		for (const one of [
			"Trampette",
			"Sol",
			"Гимнастический мостик",
			"Наскок на мостик",
			"Élévation à l'équilibre",
		]) {
			expect(words).toContain(letters(one));
		}
	});

	it("take printed pieces from the cache, and print again only what changed", async () => {
		const dir = clubCopy(undefined, full);
		const cacheDir = makeFolder(join(folder, "cache"));
		const printAll = async (outDir: string) => {
			const handbook = opened(dir);
			const labels: string[] = [];
			const result = await printSheets(drawSheets(singleSheets(handbook)), {
				outDir,
				club: handbook.curriculum.club,
				browser,
				cacheDir,
				all: true,
				progress: (_done, _total, label) => labels.push(label),
			});
			return { ...result, labels };
		};
		const first = await printAll(join(folder, "before"));
		writeFileSync(
			join(dir, "content/weeks/week-3.md"),
			readFileSync(join(dir, "content/weeks/week-3.md"), "utf8").replace(/theme: .*/, "theme: Another theme"),
		);
		const second = await printAll(join(folder, "after"));
		expect(second.files).toEqual(first.files);
		const same = (file: string) =>
			readFileSync(join(folder, "before", file)).equals(readFileSync(join(folder, "after", file)));
		expect(same(SHEET_FILES.classSheet("week-1", "mon"))).toBe(true);
		expect(same(SHEET_FILES.classSheet("week-3", "mon"))).toBe(false);
	});

	it("reports H401 without a browser, and writes nothing", async () => {
		const handbook = opened(clubCopy(undefined, full));
		const outDir = join(folder, "no-browser");
		const result = await printSheets(drawSheets(singleSheets(handbook)), {
			outDir,
			club: handbook.curriculum.club,
			browser: { environment: { HANDBOOK_BROWSER: "/no/such/program" } },
		});
		expect(result.problems.map(({ code }) => code)).toEqual(["H401"]);
		expect(result.files).toEqual([]);
		expect(existsSync(outDir)).toBe(false);
	});
});

describe("faults of a sheet", () => {
	const place = { file: "content/weeks/week-1.md", line: 3, column: 1 };
	const piece = (markup: string, more: Partial<SheetPiece> = {}): SheetPiece => ({
		title: "A sheet",
		label: "S",
		html: raw(`<div class="piece">${markup}</div>`),
		most: 1,
		steps: stepsFrom(1, 0.8),
		words: [],
		safety: [],
		place,
		...more,
	});
	const side = (content: string) => `<section class="side"><div class="area">${content}</div></section>`;
	const pouring = (items: string) =>
		`${side(`<div class="pour">${items}</div>`)}<template>${side('<div class="pour"></div>')}</template>`;

	async function printOne(one: SheetPiece) {
		const outDir = mkdtempSync(join(folder, "fault-"));
		const { club } = opened(clubCopy()).curriculum;
		const file = { kind: "labels", path: "a.pdf", title: "A", landscape: false, leaves: false } as const;
		const result = await printSheets([{ ...file, pieces: [one] }], { outDir, club, browser, workers: 1 });
		return {
			...result,
			lines: result.problems.map(({ code, what, place: at }) => `${at.file}:${at.line} ${code} ${what}`),
		};
	}

	it("H403: words that are not on paper are told, and the sheet is printed", async () => {
		const { lines, files } = await printOne(
			piece(side("<p>Chin to chest</p>"), { words: ["Chin to chest", "Never alone"] }),
		);
		expect(lines).toEqual(['content/weeks/week-1.md:3 H403 "A sheet": "Never alone" is not on paper.']);
		expect(files).toEqual(["a.pdf"]);
	});

	it("H411: a safety text that is not on paper withholds its sheet", async () => {
		const { lines, files } = await printOne(
			piece(side("<p>Chin to chest</p>"), { words: ["Chin to chest"], safety: ["Never alone"] }),
		);
		expect(lines).toEqual(['content/weeks/week-1.md:3 H411 "A sheet": "Never alone" is not on paper.']);
		expect(files).toEqual([]);
	});

	it("H406: type that is too small, and safety text that is", async () => {
		const { lines, files } = await printOne(
			piece(side('<p style="font-size:9px">Chin to chest</p><p style="font-size:11.5px">Never alone</p>'), {
				safety: ["Never alone"],
			}),
		);
		expect(lines).toEqual([
			'content/weeks/week-1.md:3 H406 "A sheet": "Never alone" is in 8.62 pt, and is safety text.',
			'content/weeks/week-1.md:3 H406 "A sheet": "Chin to chest" is in 6.7 pt.',
		]);
		expect(files).toEqual(["a.pdf"]);
	});

	it("H407: words on words", async () => {
		const { lines } = await printOne(
			piece(side('<p>Chin to chest</p><p style="margin-top:-14px;margin-left:10px">Never alone</p>')),
		);
		expect(lines).toEqual([
			'content/weeks/week-1.md:3 H407 "A sheet": "Chin to chest" and "Never alone" lie on each other.',
		]);
	});

	it("H408: a letter that no font has", async () => {
		const { lines } = await printOne(piece(side("<p>Little ones \u{F0123}</p>")));
		expect(lines).toEqual([
			'content/weeks/week-1.md:3 H408 "A sheet": "Little ones □" has a letter that no font here has.',
		]);
	});

	it("H409: a drawing that is larger than its place, by its title, and no word of shortening", async () => {
		const { lines, problems } = await printOne(
			piece(
				side(
					'<p>Floor</p><svg width="900" height="40" viewBox="0 0 900 40"><title>Floor plan</title><path d="M0 0H880V30"/></svg>',
				),
			),
		);
		expect(lines).toEqual([
			'content/weeks/week-1.md:3 H409 "A sheet": "Floor plan" stands outside its place.',
		]);
		expect(problems[0]?.fix).not.toMatch(/shorten/i);
	});

	it("letters of a drawing are as large as others, however small it is", async () => {
		const { lines } = await printOne(
			piece(
				side(
					'<p>Floor</p><svg width="100" height="40" viewBox="0 0 1000 400"><text x="20" y="380" font-size="20">12</text></svg>',
				),
			),
		);
		expect(lines).toEqual([]);
	});

	it("H403: words that stand outside their place", async () => {
		const { lines } = await printOne(
			piece(side('<p style="margin-left:600px;white-space:nowrap">Too far to the right to be read</p>')),
		);
		expect(lines[0]).toBe(
			'content/weeks/week-1.md:3 H403 "A sheet": "Too far to the right to be read" stands outside its place.',
		);
	});

	it("H403: one thing that is taller than a side", async () => {
		const { lines } = await printOne(piece(pouring('<p style="height:5000px">Very tall</p>')));
		expect(lines[0]).toContain("H403");
	});

	it("what may take further leaves does, without a word, and fills them", async () => {
		const items = Array.from(
			{ length: 40 },
			(_, i) => `<p class="item" style="height:7em">Item ${i + 1} of many</p>`,
		);
		const { lines, sides } = await printOne(
			piece(pouring(items.join("")), { most: 2, leaves: true, words: ["Item 40 of many"] }),
		);
		expect(lines).toEqual([]);
		expect(sides).toBeGreaterThan(2);
	});

	it("a table that is longer than a side goes on overleaf under its head", async () => {
		const rows = Array.from({ length: 90 }, (_, i) => `<tr><td>Row ${i + 1}</td></tr>`);
		const table = `<table class="item"><thead><tr><th>Weeks</th></tr></thead><tbody>${rows.join("")}</tbody></table>`;
		const { lines, sides } = await printOne(piece(pouring(table), { most: 9, words: ["Row 90"] }));
		expect(lines).toEqual([]);
		expect(sides).toBeGreaterThan(1);
	});

	it("H410: a sheet that takes more sides than it should is printed whole, and said", async () => {
		const items = Array.from(
			{ length: 30 },
			(_, i) => `<p class="item" style="height:90px">Item ${i + 1} of many</p>`,
		);
		const { lines, files, sides } = await printOne(
			piece(pouring(items.join("")), { words: ["Item 1 of many", "Item 30 of many"] }),
		);
		expect(lines).toEqual([`content/weeks/week-1.md:3 H410 "A sheet" takes ${sides} sides instead of 1.`]);
		expect(sides).toBeGreaterThan(1);
		expect(files).toEqual(["a.pdf"]);
	});
});

describe("a smaller PDF", () => {
	it("rounds to what can be seen at the scale, and leaves matrices alone", () => {
		const commands =
			"q\n.23999999 0 0 -.23999999 0 224.87999 cm\n25.123456 30.987654 m\nq\n.14036643 0 0 .14036643 5 5 cm\n1340.24109 -1337.81348 1.5 2.5 3.5 4.5 c\nQ\n10.126 20.5 l\n3.14159 0 Td <01> Tj\nQ";
		expect(roundedCommands(commands)).toBe(
			"q\n.23999999 0 0 -.23999999 0 224.87999 cm\n25.1 31 m\nq\n.14036643 0 0 .14036643 5 5 cm\n1340 -1338 2 3 4 5 c\nQ\n10.1 20.5 l\n3.14 0 Td <01> Tj\nQ",
		);
	});

	it("has the same words", async () => {
		const document = await PDFDocument.create({ updateMetadata: false });
		const page = document.addPage([200, 200]);
		page.drawText("Chin to chest", {
			x: 20.123456,
			y: 100.987654,
			size: 12,
			font: await document.embedFont(StandardFonts.Helvetica),
		});
		const before = await document.save({ useObjectStreams: false });
		expect((await readPdf(await slimPdf(before))).pages[0]?.text).toBe("Chin to chest");
	});

	it("numbers structure elements anew, with names of the same length", () => {
		const named = (a: string, b: string) =>
			new TextEncoder().encode(`/ID (node${a}) /Headers [(node${b})] (node${a})`);
		expect(steadyIds(named("00000123", "00000456"))).toEqual(steadyIds(named("00900001", "00900009")));
		expect(Buffer.from(steadyIds(named("00000123", "00000456"))).toString()).toBe(
			"/ID (node00000001) /Headers [(node00000002)] (node00000001)",
		);
	});
});
