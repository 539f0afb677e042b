/** The page that the preview shows while the content has errors speaks the handbook's language. */

import { join } from "node:path";
import { expect, it } from "vitest";
import { problemsPage, withNotice } from "../../layouts/pages/problems.ts";
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
	expect(page).toContain("<title>À corriger\u00a0: 2 erreurs dans 1 fichier</title>");
	expect(page).toContain('<b>ligne 7, colonne 10</b> <span lang="en">There is no shape `holow`.');
	const [, body = ""] = page.split("<main");
	for (const word of ["To mend", "line 7", "Nothing can"]) expect(body).not.toContain(word);
});

it("the notice on the other pages names the page's own mistakes first, in French as well", () => {
	const own = problems().map((one, i) => (i === 0 ? { ...one, place: { ...one.place, file: "a.md" } } : one));
	const good = { problems: own, leftOut: [] };
	const page = '<body><p>x</p><main id="main"><h1>Rock</h1></main></body>';
	const text = withNotice(page, good, wordsFor("fr"), "content/drills/floor/rock.md");
	expect(text).toMatch(/<main id="main">\s*<aside class="preview-notice".*<h1>Rock/s);
	expect(text).toContain("Cette page est écrite dans le fichier fautif");
	expect(text.indexOf("rock.md")).toBeLessThan(text.indexOf("a.md"));
	expect(withNotice(page, good, wordsFor("fr"), undefined)).toContain("Les pages sont montrées telles qu");
});
