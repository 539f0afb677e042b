/**
 * Markup and text, told apart by type. What a browser makes of the result is asked of one: its reader of
 * HTML is the reference (HTML Living Standard, section 13.2).
 */

import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { escapeHtml, Html, type HtmlValue, html, raw } from "../../scripts/views/html.ts";
import { openBrowser } from "../see-pages.ts";

describe("a template", () => {
	it.each<[HtmlValue, string]>([
		["a < b", "a &lt; b"],
		["a > b", "a &gt; b"],
		["salt & chalk", "salt &amp; chalk"],
		["&amp;", "&amp;amp;"],
		['the "safe" side', "the &quot;safe&quot; side"],
		["the coach's", "the coach&#39;s"],
		[7, "7"],
		[0, "0"],
		["", ""],
		[undefined, ""],
		[null, ""],
		[false, ""],
		[[], ""],
		[["<", [">", [1, undefined, raw("<b>")]]], "&lt;&gt;1<b>"],
		[raw("<i>as it is</i>"), "<i>as it is</i>"],
		[html`<i>${"<"}</i>`, "<i>&lt;</i>"],
	])("writes %j as %s", (value, text) => {
		const made = html`<p>${value}</p>`;
		expect(made).toBeInstanceOf(Html);
		expect(made.text).toBe(`<p>${text}</p>`);
		expect(String(made)).toBe(made.text);
	});

	it("escapes a text that looks like its own markup, however deep", () => {
		fc.assert(
			fc.property(fc.string(), fc.nat(3), (text, depth) => {
				let value: HtmlValue = `<b>${text}</b>`;
				for (let i = 0; i < depth; i++) value = [value];
				expect(html`${value}`.text).toBe(escapeHtml(`<b>${text}</b>`));
				expect(html`${value}`.text).not.toMatch(/[<>"']/);
			}),
		);
	});
});

it("a browser reads every text back, between tags and in attributes of either quote", async () => {
	const browser = await openBrowser();
	try {
		const page = await browser.newPage();
		// A reader of HTML takes carriage returns for line feeds, and drops zero bytes.
		const texts = fc
			.sample(fc.string({ unit: fc.constantFrom(..."<>&\"'`= ;#ax/!-\n", "&lt", "</p>", "é") }), 400)
			.concat(["<script>alert(1)</script>", "' onclick='x", '" onclick="x', "&#39;", "&notin;", "-->"]);
		const markup = texts.map((text) => html`<p title="${text}" data-other='${text}'>${text}</p>`.text);
		const read = await page.evaluate((parts) => {
			return parts.map((part) => {
				const all = [...new DOMParser().parseFromString(part, "text/html").body.childNodes];
				const p = all[0] as HTMLElement;
				return [all.length, p.children.length, p.attributes.length, p.title, p.dataset.other, p.textContent];
			});
		}, markup);
		expect(read).toEqual(texts.map((text) => [1, 0, 2, text, text, text]));
	} finally {
		await browser.close();
	}
});
