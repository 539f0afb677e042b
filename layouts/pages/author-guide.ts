/**
 * The author guide: every field with an example, and every problem code.
 */

import { type Html, html } from "../../scripts/render/html.ts";
import type { AuthorGuideView, FieldGuide } from "../../scripts/render/views/author-guide.ts";
import { capital } from "../../scripts/render/views/words.ts";
import { type PageContext, section } from "../parts/page.ts";

const SEVERITIES = {
	error: "Stops the build",
	warning: "A warning; the build goes on",
	finding: "A finding; the build goes on",
} as const;

/** The page of the author guide. */
export function authorGuidePage(ctx: PageContext, view: AuthorGuideView): Html {
	return html`<h1>Author guide</h1>
<p class="lead">How to write for this handbook: every file, every field, every message.</p>
<p>A club folder holds <code>content/</code> and <code>_data/</code>. Only the fields marked <b class="needed">required</b> are needed: ten drills with a title, an apparatus and levels make a handbook, and each further field switches on what it feeds. Ids are lower-case words joined by hyphens, and a file's name is its id. Text may hold inline Markdown, and <code>[[id]]</code> or <code>[[id|words]]</code> links to anything that has an id.</p>
<nav aria-label="Parts of this guide"><ul class="chips">${view.files.map(({ kind }) => html`<li><a class="chip" href="#${kind}">${capital(kind)}</a></li>`)}<li><a class="chip" href="#messages">Messages</a></li></ul></nav>
${section("first-drill", "A first drill", html`<p>Save this as <code>content/drills/floor/log-roll.md</code>:</p>${ctx.highlight("yaml", FIRST_DRILL)}`)}
${view.files.map(({ kind, file, description, fields }) =>
	section(
		kind,
		capital(kind),
		html`<p><code>${file}</code></p><p>${description}</p>
<dl class="fields">${fields.map((field) => fieldEntry(ctx, kind, field))}</dl>`,
	),
)}
<h2 id="messages">Messages</h2>
<p>Each message has a code that never changes its meaning. It names the file, the line and the column, what is wrong, why it matters and what to do.</p>
${view.stages.map(({ title, codes }, i) =>
	section(
		`stage-${i + 1}`,
		title,
		codes.map(
			({
				code,
				title: name,
				severity,
				why,
				fix,
			}) => html`<h3 id="${code}"><span class="code">${code}</span> ${name}</h3>
<p><span class="weight">${SEVERITIES[severity]}</span></p><p>${inlineCode(why)}</p><p><b>What to do.</b> ${inlineCode(fix)}</p>`,
		),
	),
)}`;
}

const FIRST_DRILL = `---
title: Log roll
apparatus: floor
levels: [beginners]
shapes: [straight]
cues: [Long and tight, "Roll hips and shoulders together"]
caution: One gymnast on the mat at a time.
---
Lie long with the arms overhead, and roll sideways like a log.`;

function fieldEntry(ctx: PageContext, kind: string, field: FieldGuide): Html {
	return html`<div><dt id="${kind}-${field.name.replaceAll(/[^a-z0-9-]+/g, "-").replace(/-$/, "")}"><code>${field.name}</code>${field.required && html` <b class="needed">required</b>`} <span class="small">${field.form}</span></dt>
<dd>${field.description !== "" && html`<p>${inlineCode(field.description)}</p>`}${field.examples.map((example) => ctx.highlight("yaml", example))}</dd></div>`;
}

/** Words between backquotes as code: schemas and the catalogue use no other markup. */
function inlineCode(text: string): Html {
	return html`${text.split("`").map((part, i) => (i % 2 === 1 ? html`<code>${part}</code>` : part))}`;
}
