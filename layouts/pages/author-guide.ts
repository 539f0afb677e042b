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
<nav aria-label="Parts of this guide"><ul class="chips">${view.files.map(({ kind }) => html`<li><a class="chip" href="#${kind}">${capital(kind)}</a></li>`)}<li><a class="chip" href="#online">Putting it online</a></li><li><a class="chip" href="#messages">Messages</a></li></ul></nav>
${section("first-drill", "A first drill", html`<p>Save this as <code>content/drills/floor/log-roll.md</code>:</p>${ctx.highlight("yaml", FIRST_DRILL)}`)}
${view.files.map(({ kind, file, description, fields }) =>
	section(
		kind,
		capital(kind),
		html`<p><code>${file}</code></p><p>${description}</p>
<dl class="fields">${fields.map((field) => fieldEntry(ctx, kind, field))}</dl>`,
	),
)}
${section("online", "Putting it online", ONLINE)}
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

/** For a site that only the club's coaches may see. */
const ONLINE = html`<p>The site is for the club's own people. It holds no secrets and nothing about gymnasts, asks search engines to leave it out, and loads nothing from anywhere else. Who may open it is for the host to say: the pages themselves cannot keep anybody out.</p>
<ul>
<li><b>A static host.</b> Upload the output folder, and switch on the host's own access control (a password for the site, or sign-in with the club's accounts). The file <code>_headers</code> in the output is read by many of these hosts.</li>
<li><b>Object storage with a delivery network.</b> Keep the storage private, let only the network read it, put the sign-in at the network's edge, and copy the lines of <code>_headers</code> into its rule for response headers.</li>
<li><b>Apache.</b> The output holds <code>.htaccess</code> with the headers. Set <code>AuthType Basic</code>, <code>AuthUserFile</code> and <code>Require valid-user</code>, or the club's single sign-on, in the server's own configuration, so that a new build does not touch it.</li>
<li><b>nginx.</b> Put <code>include</code> with the path of <code>nginx-headers.conf</code> into the <code>server</code> block, beside <code>auth_basic</code> or <code>auth_request</code>.</li>
<li><b>Another web server.</b> Set the headers listed in <code>_headers</code> for every path, and the server's own sign-in.</li>
</ul>
<p>Always serve over HTTPS: only then can the site be kept on a phone. A file of these three names that you put into the output yourself is never overwritten.</p>
<p><b>Signing out.</b> A phone that has opened the site keeps it for use without a network. Where the host has a page for signing out, let it send <code>Clear-Site-Data: "cache", "storage"</code>: the browser then removes the kept pages and the program that kept them. When somebody leaves the club, change the password as well; what a phone has kept stays readable on that phone until it is cleared.</p>
<p>The output folder is a link to the newest edition in a folder beside it. A program that copies it should follow links, as <code>rsync -a _site/</code> with the slash does.</p>`;

function fieldEntry(ctx: PageContext, kind: string, field: FieldGuide): Html {
	return html`<div><dt id="${kind}-${field.name.replaceAll(/[^a-z0-9-]+/g, "-").replace(/-$/, "")}"><code>${field.name}</code>${field.required && html` <b class="needed">required</b>`} <span class="small">${field.form}</span></dt>
<dd>${field.description !== "" && html`<p>${inlineCode(field.description)}</p>`}${field.examples.map((example) => ctx.highlight("yaml", example))}</dd></div>`;
}

/** Words between backquotes as code: schemas and the catalogue use no other markup. */
function inlineCode(text: string): Html {
	return html`${text.split("`").map((part, i) => (i % 2 === 1 ? html`<code>${part}</code>` : part))}`;
}
