/** What is other now than in the last edition: what the page and the command of the same name tell. */

import type { ChangeLine } from "../../scripts/views/tell-changes.ts";
import type { ChangedThings, WhatChangedView } from "../../scripts/views/what-changed.ts";
import { desk, destinations, whatChanged as say } from "../../scripts/words/en.ts";

export function WhatChanged({ view }: { readonly view: WhatChangedView }) {
	const { since, club, term, classes, weeks, drills, others, findings, numbers } = view;
	return (
		<div class="what-changed">
			<p>{say.since(since.term, since.edition)}</p>
			{view.nothing && <p class="soft">{say.nothing}</p>}
			<Facts title={say.club} lines={club} />
			<Facts title={say.term} lines={term} />
			<Things title={destinations.classes} things={classes} />
			<Things title={destinations.weeks} things={weeks} />
			<Things title={destinations.drills} things={drills} />
			<Names title={say.renamed} names={drills.renamed.map(({ from, to }) => `${from} → ${to.name}`)} />
			{others.map(({ kind, names }) => (
				<Names key={kind} title={say.kinds[kind]} names={names} />
			))}
			<Names title={say.come} names={findings.come.map(({ what }) => what)} />
			<Names title={say.gone} names={findings.gone.map(({ what }) => what)} />
			<Names
				title={`${say.numbers}. ${say.largestFirst}`}
				names={numbers.map(
					({ table, column, about, before, after }) => `${table}, ${column}, ${about}: ${before} → ${after}`,
				)}
			/>
		</div>
	);
}

function Facts({ title, lines }: { readonly title: string; readonly lines: readonly ChangeLine[] }) {
	if (lines.length === 0) return null;
	return (
		<>
			<h4>{title}</h4>
			<Lines lines={lines} />
		</>
	);
}

function Lines({ lines }: { readonly lines: readonly ChangeLine[] }) {
	return (
		<ul class="differences">
			{lines.map(({ about, before, after }, i) => (
				<li key={`${i} ${about}`}>
					{about}:{" "}
					{before !== undefined && (
						<del>
							<span class="sr">{say.before}: </span>
							{before}
						</del>
					)}{" "}
					{after !== undefined && (
						<ins>
							<span class="sr">{say.after}: </span>
							{after}
						</ins>
					)}
				</li>
			))}
		</ul>
	);
}

function Things({ title, things }: { readonly title: string; readonly things: ChangedThings }) {
	const { added, removed, changed } = things;
	if (added.length + removed.length + changed.length === 0) return null;
	return (
		<>
			<h4>{title}</h4>
			<ul>
				{added.map(({ name }) => (
					<li key={name} class="come">
						{say.added}: {name}
					</li>
				))}
				{removed.map((name) => (
					<li key={name} class="gone">
						{say.removed}: {name}
					</li>
				))}
				{changed.map(({ link, lines }) => (
					<li key={link.name}>
						<details>
							<summary>
								{link.name} <span class="soft">{say.differences(lines.length)}</span>
							</summary>
							<Lines lines={lines} />
						</details>
					</li>
				))}
			</ul>
		</>
	);
}

/** A list that may be long, to be opened. */
function Names({ title, names }: { readonly title: string; readonly names: readonly string[] }) {
	if (names.length === 0) return null;
	return (
		<details>
			<summary>
				{title} <span class="soft">{desk.howMany(names.length)}</span>
			</summary>
			<ul>
				{names.map((name, i) => (
					<li key={`${i} ${name}`}>{name}</li>
				))}
			</ul>
		</details>
	);
}
