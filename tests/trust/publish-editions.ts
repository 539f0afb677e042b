/**
 * Publishes small editions that differ in their files, one after the other, until it has made as many
 * as asked or is killed: `node publish-editions.ts OUT FIRST COUNT`.
 */

import { pathToFileURL } from "node:url";
import { Staging } from "../../scripts/commands/publish.ts";
import { reportFault } from "../../scripts/commands/report-fault.ts";

/** The files of an edition, by path: some that change, some that stay, some that come and go. */
export function filesOf(edition: number): ReadonlyMap<string, string> {
	const files = new Map<string, string>([
		["index.html", `${edition}`],
		["assets/site.css", "the same in every edition"],
		["data/all.json", `{"edition":${edition}}`],
	]);
	for (let i = 0; i <= edition % 4; i++)
		files.set(`drills/drill-${i}/index.html`, `drill ${i} of ${edition}`);
	if (edition % 2 === 0) files.set("weeks/one.html", "every other time");
	return files;
}

/** Publishes one edition. Throws what publishing throws. */
export function publishOne(out: string, edition: number, options?: { readonly plain?: boolean }): void {
	const staging = new Staging(out, options);
	try {
		for (const [path, text] of filesOf(edition)) staging.write(path, text);
		staging.publish();
	} finally {
		staging.discard();
	}
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? "").href) {
	const [out = "", first = "1", count = "1"] = process.argv.slice(2);
	try {
		for (let i = 0; i < Number(count); i++) publishOne(out, Number(first) + i);
	} catch (error) {
		reportFault(error, (text) => process.stderr.write(`${text}\n`));
		process.exitCode = 2;
	}
}
