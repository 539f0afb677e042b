/**
 * `generate`: writes what is made from the schemas and kept in the repository.
 *
 * Today that is scripts/validate/records.ts, the types of pages and data as they are written.
 * CI runs it and fails where the result differs from what is committed.
 */

import { join } from "node:path";
import { compile } from "json-schema-to-typescript";
import { openFolder } from "../files/folder.ts";
import { PROGRAM } from "../files/program.ts";
import { SCHEMAS } from "../validate/schemas.ts";

const RECORDS = "scripts/validate/records.ts";
const SCHEMA_FOLDER = join(PROGRAM, "scripts/validate/schemas/");

/** The text of records.ts, made from the schemas alone. */
export async function recordsText(): Promise<string> {
	const all = {
		title: "WrittenRecords",
		type: "object" as const,
		additionalProperties: false,
		required: [...SCHEMAS.keys()],
		properties: Object.fromEntries(
			[...SCHEMAS.keys()].map((kind) => [kind, { $ref: `${kind}.schema.json` }]),
		),
	};
	return compile(all, "WrittenRecords", {
		cwd: SCHEMA_FOLDER,
		bannerComment:
			"/**\n * Pages and data as a club writes them. Generated from the schemas by `npm run generate`: do not edit.\n */",
		additionalProperties: false,
		ignoreMinAndMaxItems: true,
		style: { useTabs: true, printWidth: 110 },
	});
}

/** Writes records.ts and says what it wrote. */
export async function generate(say: (line: string) => void): Promise<number> {
	openFolder(PROGRAM).write(RECORDS, await recordsText());
	say(`wrote ${RECORDS}`);
	return 0;
}
