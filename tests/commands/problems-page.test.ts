/** The page that the preview shows while the content has errors speaks the handbook's language. */

import { join } from "node:path";
import { expect, it } from "vitest";
import { problemsPage } from "../../layouts/pages/problems.ts";
import { openHandbook } from "../../scripts/handbook.ts";
import { wordsFor } from "../../scripts/words/words.ts";
import { clubCopy, FIXTURES } from "../open-fixture.ts";

const problems = () => openHandbook(clubCopy(join(FIXTURES, "problems/H201"))).problems;

it("in English", () => {
	const page = problemsPage(problems(), wordsFor("en"));
	expect(page).toContain('<html lang="en">');
	expect(page).toContain("<title>To mend: 2 errors in 1 file</title>");
	expect(page).toContain("<b>line 7, column 10</b> <span>There is no shape `holow`.");
});

it("in French, with the messages marked as English", () => {
	const page = problemsPage(problems(), wordsFor("fr-CA"));
	expect(page).toContain('<html lang="fr">');
	expect(page).toContain("<title>À corriger : 2 erreurs dans 1 fichier</title>");
	expect(page).toContain('<b>ligne 7, colonne 10</b> <span lang="en">There is no shape `holow`.');
	const [, body = ""] = page.split("<main");
	for (const word of ["To mend", "line 7", "stays hidden"]) expect(body).not.toContain(word);
});
