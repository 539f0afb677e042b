/** What was taught: the director's own page, in her preview and her build alone; and sums that a club publishes. */

import { type Html, type HtmlValue, html } from "../../scripts/views/html.ts";
import type {
	CoachLine,
	Kept,
	SaidOfDrill,
	Share,
	TaughtSumsView,
	TaughtView,
} from "../../scripts/views/taught-view.ts";
import { findingsList } from "../parts/findings-list.ts";
import { scrollTable } from "../parts/measure-parts.ts";
import { a, type PageContext, section } from "../parts/page.ts";

/** Long: it is the page from top to bottom. */
export function taughtPage(ctx: PageContext, view: TaughtView): Html {
	const { words } = ctx;
	const say = words.taughtPage;
	const { number } = words;
	const pair = ([planned, taught]: readonly [number, number]): HtmlValue =>
		html`${number(taught)} <span class="small">${say.ofPlanned(planned)}</span>`;
	const row = (cells: readonly HtmlValue[]): Html =>
		html`<tr>${cells.map((cell, i) => (i === 0 ? html`<th scope="row">${cell}</th>` : html`<td>${cell}</td>`))}</tr>`;
	const findings = findingsList(ctx, view.findings);
	const percent = (share: number): string => words.percent(Math.round(share * 100) / 100);
	const shareCells = (share: Share | undefined): readonly string[] =>
		share === undefined
			? ["–", say.tooFew]
			: [percent(share.share), say.between(percent(share.low), percent(share.high))];
	const keptCells = ({ kept, of, share }: Kept): readonly string[] => [
		say.of(kept, of),
		...shareCells(share),
	];
	return html`<h1>${say.title}</h1>
<p class="lead">${say.lead(view.reported, view.of)}</p>
<div class="safety"><p><strong>${say.privately}</strong> ${say.howToDelete(html`<code>_data/taught</code>`)}${view.sums && html` ${say.publishes(a(ctx, view.sums))}`}</p></div>
${findings && section("findings", words.findingsPage.found, findings)}
${view.lines.length > 0 && section("lines", say.lines, coachLines(ctx, view.lines))}
${section(
	"weeks",
	say.weeks,
	scrollTable(
		words.asTable(say.weeks),
		[
			words.heads.class,
			words.heads.minutes,
			say.notDone,
			say.shortened,
			words.heads.landings,
			words.heads.hands,
		],
		view.weeks.map(({ sheet, minutes, taught, notDone, shortened, landings, hands }) =>
			row([
				a(ctx, sheet),
				pair([minutes, taught]),
				number(notDone),
				number(shortened),
				pair(landings),
				pair(hands),
			]),
		),
	),
)}
${
	view.lost.length > 0 &&
	section(
		"lost",
		say.lost,
		scrollTable(
			words.asTable(say.lost),
			[say.cause, words.heads.minutes, say.blocks],
			view.lost.map(({ cause, minutes, blocks }) =>
				row([cause === undefined ? say.noCause : say.causes[cause], number(minutes), number(blocks)]),
			),
		),
	)
}
${
	view.skills.length > 0 &&
	section(
		"skills",
		say.skills,
		html`<p>${say.interval} ${say.fewest(view.fewest)}</p>
${scrollTable(
	words.asTable(say.skills),
	[say.skill, words.heads.week, say.alone, say.helped, say.share, say.range],
	view.skills.map(({ skill, weeks }) =>
		weeks.map(({ week, of, alone, helped, share }, i) =>
			row([
				i === 0 ? a(ctx, skill) : "",
				a(ctx, week),
				say.of(alone, of),
				number(helped),
				...shareCells(share),
			]),
		),
	),
)}`,
	)
}
${
	view.kept.length > 0 &&
	section(
		"kept",
		say.kept,
		html`<p>${say.keptLead}</p>
${scrollTable(
	words.asTable(say.pause),
	[say.pause, say.atMost, say.share, say.range],
	view.keptByWeeks.map(({ weeks, ...kept }) => row([number(weeks), ...keptCells(kept)])),
)}
${scrollTable(
	words.asTable(say.kept),
	[say.skill, say.before, say.after, say.pause, say.atMost, say.share, say.range],
	view.kept.map(({ skill, name, before, after, weeks, kept }) =>
		row([
			html`${a(ctx, skill)} <span class="small">${name}</span>`,
			say.inWeek(say.of(before.alone, before.of), before.week),
			say.inWeek(say.of(after.alone, after.of), after.week),
			number(weeks),
			...(kept === undefined ? ["–", "–", say.fewerThere] : keptCells(kept)),
		]),
	),
)}`,
	)
}
${section("files", words.coverage.files, html`<p>${view.files.map((file) => html`<a class="button" href="${ctx.way(file.to)}" download>${file.name}</a> `)}</p>`)}`;
}

/** The page of sums, for all who read the site. */
export function taughtSumsPage(ctx: PageContext, { skills, lost, fewest }: TaughtSumsView): Html {
	const { number } = ctx.words;
	const say = ctx.words.taughtPage;
	const table = (title: string, heads: readonly string[], rows: readonly (readonly HtmlValue[])[]): Html =>
		scrollTable(
			ctx.words.asTable(title),
			heads,
			rows.map(
				([first, ...cells]) =>
					html`<tr><th scope="row">${first}</th>${cells.map((cell) => html`<td>${cell}</td>`)}</tr>`,
			),
		);
	return html`<h1>${ctx.words.about.sums.title}</h1>
<p class="lead">${say.sums.lead}</p>
<p>${say.sums.how(fewest)}</p>
${skills.length + lost.length === 0 && html`<p>${say.sums.nothing}</p>`}
${
	skills.length > 0 &&
	section(
		"skills",
		say.skills,
		table(
			say.skills,
			[say.skill, say.alone, say.sums.of],
			skills.map(({ skill, alone, of }) => [a(ctx, skill), number(alone), number(of)]),
		),
	)
}
${
	lost.length > 0 &&
	section(
		"lost",
		say.lost,
		table(
			say.lost,
			[say.cause, ctx.words.heads.minutes],
			lost.map(({ cause, minutes }) => [say.causes[cause], number(minutes)]),
		),
	)
}`;
}

export function saidOfDrillPart(ctx: PageContext, { felt, lines }: SaidOfDrill): Html {
	const say = ctx.words.taughtPage;
	return section(
		"said",
		say.ofDrill,
		html`<p>${say.felt(felt["too-easy"], felt.right, felt["too-hard"])}</p>${lines.length > 0 && coachLines(ctx, lines)}`,
	);
}

/** What coaches typed is shown as text. */
function coachLines(ctx: PageContext, lines: readonly CoachLine[]): Html {
	const say = ctx.words.taughtPage;
	return html`<ul class="rows">${lines.map(
		({ sheet, block, look, felt, note }) =>
			html`<li>${look && html`<strong class="short">${say.looks[look]}</strong> `}${a(ctx, sheet)}${block !== "" && html`, ${block}`}${felt && html` · ${say.felts[felt]}`}${note !== undefined && html` · <q>${note}</q>`}</li>`,
	)}</ul>`;
}
