/**
 * The author guide: every field with an example, and every problem code.
 */

import {
	type AuthorGuideView,
	CHANGES_EXAMPLE,
	COMMANDS,
	type CommandUse,
	type FieldGuide,
	MAPPING_EXAMPLE,
} from "../../scripts/views/author-guide.ts";
import { type Html, html } from "../../scripts/views/html.ts";
import { inlineCode, type PageContext, section } from "../parts/page.ts";

export function authorGuidePage(ctx: PageContext, view: AuthorGuideView): Html {
	const { words } = ctx;
	const say = words.authorGuide;
	return html`<h1>${words.destinations.authorGuide}</h1>
<p class="lead">${say.lead}</p>
<p>${say.folder({
		content: html`<code>content/</code>`,
		data: html`<code>_data/</code>`,
		required: html`<b class="needed">${say.required}</b>`,
		link: html`<code>[[id]]</code>`,
		named: html`<code>[[id|${say.wordsInLink}]]</code>`,
	})}</p>
<nav aria-label="${say.parts}"><ul class="chips">${view.files.map(({ kind }) => html`<li><a class="chip" href="#${kind}">${say.kinds[kind]}</a></li>`)}<li><a class="chip" href="#commands">${say.commands.title}</a></li><li><a class="chip" href="#look">${say.look.title}</a></li><li><a class="chip" href="#online">${say.online.title}</a></li><li><a class="chip" href="#messages">${say.messages}</a></li></ul></nav>
${section("first-drill", say.firstDrill, html`<p>${say.saveAs(html`<code>content/drills/floor/log-roll.md</code>`)}</p>${ctx.highlight("yaml", say.example)}`)}
${view.files.map(({ kind, file, description, fields }) =>
	section(
		kind,
		say.kinds[kind],
		html`<p><code>${file}</code></p><p>${description}</p>
<dl class="fields">${fields.map((field) => fieldEntry(ctx, kind, field))}</dl>`,
	),
)}
${commandsPart(ctx)}
${section("look", say.look.title, html`${say.look.notes.map((note) => html`<p>${inlineCode(note)}</p>`)}`)}
${section(
	"online",
	say.online.title,
	html`<p>${inlineCode(say.online.lead)}</p>
<ul>${say.online.hosts.map(({ name, how }) => html`<li><b>${inlineCode(name)}</b> ${inlineCode(how)}</li>`)}</ul>
${say.online.notes.map((note) => html`<p>${inlineCode(note)}</p>`)}`,
)}
<h2 id="messages">${say.messages}</h2>
<p>${say.aboutMessages}</p>
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
<p><span class="weight">${say.severities[severity]}</span></p><p>${inlineCode(why)}</p><p><b>${say.whatToDo}</b> ${inlineCode(fix)}</p>`,
		),
	),
)}`;
}

/** Files that a command reads, shown under it. */
const FILES_OF: Readonly<Partial<Record<CommandUse, string>>> = {
	import: MAPPING_EXAMPLE,
	whatIf: CHANGES_EXAMPLE,
};

function commandsPart(ctx: PageContext): Html {
	const say = ctx.words.authorGuide.commands;
	const uses = Object.keys(COMMANDS) as readonly CommandUse[];
	return section(
		"commands",
		say.title,
		html`<p>${inlineCode(say.lead)}</p>
${uses.map((use) => {
	const { title, what } = say.uses[use];
	const file = FILES_OF[use];
	return html`<h3 id="command-${use.toLowerCase()}">${title}</h3>
<p>${inlineCode(what)}</p>
${ctx.highlight("bash", COMMANDS[use].join("\n"))}
${file !== undefined && ctx.highlight("yaml", file)}
${
	use === "print" &&
	html`<dl class="fields">${Object.entries(say.sheets).map(([name, sheet]) => html`<div><dt><code>${name}</code></dt><dd><p>${inlineCode(sheet)}</p></dd></div>`)}</dl>`
}`;
})}`,
	);
}

function fieldEntry(ctx: PageContext, kind: string, field: FieldGuide): Html {
	return html`<div><dt id="${kind}-${field.name.replaceAll(/[^a-z0-9-]+/g, "-").replace(/-$/, "")}"><code>${field.name}</code>${field.required && html` <b class="needed">${ctx.words.authorGuide.required}</b>`} <span class="small">${inlineCode(field.form)}</span></dt>
<dd>${field.description !== "" && html`<p>${inlineCode(field.description)}</p>`}${field.examples.map((example) => ctx.highlight("yaml", example))}</dd></div>`;
}
