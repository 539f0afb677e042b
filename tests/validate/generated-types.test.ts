import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";
import { recordsText } from "../../scripts/commands/generate.ts";
import { REPOSITORY } from "../open-fixture.ts";

it("the types of pages and data are those the schemas give", async () => {
	const kept = readFileSync(join(REPOSITORY, "scripts/validate/records.ts"), "utf8");
	expect(kept).toBe(await recordsText());
});
