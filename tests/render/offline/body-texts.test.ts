/** The search's last file, made of a site's pages as a device makes it, against the one of the build. */

import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";
import { BodiesMaker } from "../../../scripts/render/offline/bodies-maker.ts";
import { FIXTURES, REPOSITORY } from "../../open-fixture.ts";
import { buildSite } from "../../site/build-site.ts";

it.each([
	["the demo club", REPOSITORY],
	["a small club with a full plan", `${FIXTURES}clubs/full-pages`],
])("is the same for %s, and so is not sent", async (_, club) => {
	const site = await buildSite(club);
	const maker = new BodiesMaker();
	for (const path of site.files)
		if (/\.(html|json|txt)$/.test(path)) maker.read(path, readFileSync(join(site.dir, path), "utf8"));
	expect(maker.write()).toBe(readFileSync(join(site.dir, "search/bodies.json"), "utf8"));
	expect(readdirSync(join(site.dir, "offline")).filter((name) => name.endsWith(".js"))).toHaveLength(1);
});
