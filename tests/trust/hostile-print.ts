/** Prints a club whose every text asks for a server, a file or a script, and says what came of it. */

import { cpSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { drawSheets } from "../../layouts/sheets/single-sheets.ts";
import { openHandbook } from "../../scripts/handbook.ts";
import { type PrintOptions, printBinder } from "../../scripts/print/binder.ts";
import { printSheets } from "../../scripts/print/sheets.ts";
import { singleSheets } from "../../scripts/views/sheets/single-sheets.ts";
import { readPdf } from "../print/read-pdf.ts";
import { FULLEST, fullOf } from "./hostile-club.ts";

export interface HostilePrint {
	/** Addresses that a server beside it was asked for. */
	readonly asked: readonly string[];
	/** What the printer found wrong, but for words that are too long for their place. */
	readonly problems: readonly string[];
	/** Files printed. */
	readonly files: number;
	/** All words on paper. */
	readonly words: string;
	/** What a file says that every text names; on no page. */
	readonly canary: string;
}

/** What a text can be. */
export const HOSTILE_TEXTS = 8;

/** @param shift which text the first field has; with each, every field has another */
export async function printHostileClub(
	folder: string,
	shift = 0,
	tools: Pick<PrintOptions, "browser" | "threads"> = {},
): Promise<HostilePrint> {
	const asked: string[] = [];
	const server = createServer((request, response) => {
		asked.push(request.url ?? "");
		response.end();
	});
	await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
	try {
		const host = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
		const canary = "zebra-in-the-store-room";
		const secret = join(folder, "secret.txt");
		writeFileSync(secret, canary);
		const file = pathToFileURL(secret).href;
		let count = 0;
		const dir = join(folder, "club");
		for (const part of ["content", "_data"])
			cpSync(join(FULLEST, part), join(dir, part), { recursive: true });
		fullOf(() => {
			const number = ++count;
			const texts = [
				`<img src="${host}/${number}">`,
				`<iframe src="${file}"></iframe>`,
				`<script>fetch("${host}/${number}")</script>`,
				`![picture](${host}/${number}.png)`,
				`[file](${file})`,
				`<link rel="stylesheet" href="${host}/${number}">`,
				`"><object data="${file}"></object>`,
				`<style>@import url(${host}/${number})</style>`,
			];
			return texts[(number + shift) % HOSTILE_TEXTS] ?? "";
		}, dir);
		const { handbook, problems: wrong } = openHandbook(dir);
		if (handbook === undefined) throw new Error(wrong.map(({ what }) => what).join("\n"));
		const outDir = join(folder, "hostile");
		mkdirSync(outDir, { recursive: true });
		const { club } = handbook.curriculum;
		const outFile = join(outDir, "binder.pdf");
		const binder = await printBinder({ ...handbook, clubDir: dir }, { outFile, cacheDir: false, ...tools });
		const sheets = await printSheets(drawSheets(singleSheets(handbook)), { outDir, club, ...tools });
		const printed = [outFile, ...sheets.files.map((path) => join(outDir, path))];
		let words = "";
		for (const path of printed) {
			for (const { text } of (await readPdf(readFileSync(path))).pages) words += `${text}\n`;
		}
		return {
			asked,
			problems: [...binder.problems, ...sheets.problems]
				// Words of a hundred letters do not fit everywhere; that is told, and nobody's harm.
				.filter(({ code }) => !["H403", "H405", "H407", "H410"].includes(code))
				.map(({ code, what }) => `${code} ${what}`),
			files: printed.length,
			words,
			canary,
		};
	} finally {
		server.close();
	}
}
