/** Printing from the desk, without its page: single sheets, the binder, and the leaves that have changed since. */

import { readFileSync } from "node:fs";
import { join } from "node:path";
import { getDocument } from "pdfjs-dist/legacy/build/pdf.mjs";
import { expect, it } from "vitest";
import type { SinceEdition, TaskNews } from "../../layouts/desk/api.ts";
import { Desk } from "../../scripts/desk/desk.ts";
import { DeskApi } from "../../scripts/desk/desk-api.ts";
import { openHandbook } from "../../scripts/handbook.ts";
import { wordsFor } from "../../scripts/words/words.ts";
import { clubCopy } from "../open-fixture.ts";

/** The text of a PDF, page by page, as another program reads it. */
async function textOf(file: string): Promise<readonly string[]> {
	const pdf = await getDocument({ data: new Uint8Array(readFileSync(file)), verbosity: 0 }).promise;
	const pages = Array.from({ length: pdf.numPages }, async (_, i) => {
		const { items } = await (await pdf.getPage(i + 1)).getTextContent();
		return items.map((item) => ("str" in item ? item.str : "")).join(" ");
	});
	return Promise.all(pages);
}

it("prints a class sheet, the binder, and then only the leaves that have changed", async () => {
	const dir = clubCopy();
	const outDir = join(dir, "_site");
	const [now, words] = [() => new Date("2027-01-02T12:00:00Z"), wordsFor("en")];
	const desk = new Desk({ clubDir: dir, outDir, readOnly: false, now, words, open: openHandbook });
	let heard: (news: TaskNews) => void = () => undefined;
	const api = new DeskApi(desk, outDir, (news) => heard(news));
	const run = (wish: object): Promise<TaskNews> =>
		new Promise((resolve, reject) => {
			heard = (news) => {
				if (news.state === "done") resolve(news);
				else if (news.state !== "running") reject(new Error(news.lines.join("\n")));
			};
			api.post("run", wish).then((reply) => {
				if (reply?.status !== 200) reject(new Error(JSON.stringify(reply?.body)));
			});
		});

	await run({ task: "sheets", sheets: "class-sheets", week: 1, class: "mon" });
	const sheet = await textOf(join(outDir, "print/weeks/week-1/class-sheets/mon.pdf"));
	expect(sheet.join(" ")).toContain("Rock on the back");

	await run({ task: "print" });
	const binder = await textOf(join(outDir, "print/binder.pdf"));
	const since = async () => (await api.post("since", {}))?.body as SinceEdition;
	const [printed] = (await since()).printed;
	expect(printed).toMatchObject({ of: "binder", file: "print/binder.edition.json" });
	await api.post("plan", {
		revision: desk.revision,
		what: "A longer block",
		changes: [{ set: { block: "1/beam/1", minutes: 13 } }],
	});
	const { lines } = await run({ task: "packet", since: printed?.file ?? "" });
	expect(lines.join("\n")).toMatch(/update-packet\.pdf, \d+ pages: \d+ leaf|leaves out/);
	const packet = await textOf(join(outDir, "print/update-packet.pdf"));
	expect(packet.length).toBeLessThan(binder.length);
	expect(packet.join(" ")).toContain("13");
	// What is published is still the first edition; the leaves are of the second.
	expect((await since()).view?.since.edition).toMatch(/^1,/);
	expect((await since()).printed.map(({ of }) => of)).toEqual(["packet", "binder"]);
});
