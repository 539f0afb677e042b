/** A club whose every text is somebody else's idea. */

import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { isMap, isScalar, parseDocument, visit } from "yaml";
import { clubCopy, FIXTURES } from "../open-fixture.ts";

/** Fields that hold words; the others hold ids, numbers and dates, which schemas narrow to harmless ones. */
const WORDS = new Set(
	"title summary aliases do cues see say spotting caution alt caption theme focus note name description stored emergency contact".split(
		" ",
	),
);

/** A body of many paragraphs, so that the bodies together hold every string; never larger than a page may be. */
function bodyOf(next: () => string): string {
	let body = "";
	for (let i = 0; i < 60 && body.length < 20_000; i++) body += `${next()}\n\n`;
	return body;
}

/** A copy of the fullest club in which every text of every file is what `next` gives. */
export function fullOf(next: () => string): { readonly dir: string; readonly fields: ReadonlySet<string> } {
	const dir = clubCopy(undefined, join(FIXTURES, "clubs/full-pages"));
	const fields = new Set<string>();
	for (const entry of readdirSync(dir, { recursive: true, withFileTypes: true })) {
		if (!entry.isFile() || !/\.(md|yaml)$/.test(entry.name)) continue;
		const file = join(entry.parentPath, entry.name);
		const text = readFileSync(file, "utf8");
		const [, matter] = /^---\n([\s\S]*?)\n---\n/.exec(text) ?? [];
		const document = parseDocument(matter ?? text);
		visit(document, {
			Pair(_key, pair) {
				const field = isScalar(pair.key) ? String(pair.key.value) : "";
				if (field === "heights" && isMap(pair.value)) {
					for (const item of pair.value.items) if (isScalar(item.key)) item.key.value = next();
				}
				if (!WORDS.has(field) || pair.value === null) return;
				fields.add(`${entry.name} ${field}`);
				visit(pair.value as never, {
					Scalar: (_k, scalar) => {
						if (typeof scalar.value === "string") scalar.value = next();
					},
				});
			},
		});
		const yaml = document.toString({ lineWidth: 0 });
		writeFileSync(file, matter === undefined ? yaml : `---\n${yaml}---\n${bodyOf(next)}\n`);
	}
	return { dir, fields };
}
