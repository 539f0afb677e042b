/**
 * What coaches reported, taken in: files dropped or chosen, any number of them, or pasted texts. Shown first:
 * what is wrong with some, what would be written, and where coaches differ.
 */

import { useState } from "preact/hooks";
import { desk as say } from "../../scripts/words/en.ts";
import type { Taught } from "./api.ts";
import { Button } from "./parts.tsx";
import { change, desk, post, show } from "./talk.ts";
import { Tried } from "./tried.tsx";

/** Characters of a file that reports are looked for in; the rest of the program refuses larger ones as well. */
const MOST = 400_000;

interface Sent {
	readonly name: string;
	readonly text: string;
}

export function TaughtDrop() {
	const [pasted, setPasted] = useState("");
	const [sent, setSent] = useState<readonly Sent[]>([]);
	const [found, setFound] = useState<Taught>();
	const look = async (texts: readonly Sent[]): Promise<void> => {
		if (texts.length === 0) return;
		setFound(await post<Taught>("try-taught", { texts: texts.map(({ text }) => text) }));
		setSent(texts);
		show({ refusal: undefined });
	};
	const take = async (files: FileList | null | undefined): Promise<void> =>
		look(
			await Promise.all(
				// One letter more than is read says that it is too large.
				[...(files ?? [])].map(async (file) => ({
					name: file.name,
					text: await file.slice(0, MOST + 1).text(),
				})),
			),
		);
	return (
		<section class="file" aria-labelledby="taught-title">
			<h2 id="taught-title">{say.kindNames.taught}</h2>
			<p>{say.taughtLead}</p>
			<fieldset
				class="drop is-large"
				aria-label={say.kindNames.taught}
				onDragOver={(event) => event.preventDefault()}
				onDrop={(event) => {
					event.preventDefault();
					take(event.dataTransfer?.files);
				}}
			>
				<label class="button">
					{say.taughtChoose}
					<input type="file" class="sr" multiple onChange={(event) => take(event.currentTarget.files)} />
				</label>
				<label class="text">
					{say.taughtPaste}
					<textarea rows={4} value={pasted} onInput={(event) => setPasted(event.currentTarget.value)} />
				</label>
				<Button onClick={() => look([{ name: say.pasted, text: pasted }])} disabled={pasted.trim() === ""}>
					{say.taughtLook}
				</Button>
			</fieldset>
			<div aria-live="polite">
				{found !== undefined && (
					<Found
						found={found}
						sent={sent}
						onTake={
							desk().readOnly
								? undefined
								: async () => {
										const texts = sent.map(({ text }) => text);
										if ((await change("taught", say.taughtTaken, { texts })) === undefined) return;
										setFound(undefined);
										setPasted("");
									}
						}
					/>
				)}
			</div>
		</section>
	);
}

function Found({
	found,
	sent,
	onTake,
}: {
	readonly found: Taught;
	readonly sent: readonly Sent[];
	readonly onTake: (() => void) | undefined;
}) {
	const { counts, told, faults, outcome } = found;
	const ends = (Object.keys(counts) as (keyof typeof counts)[]).filter((end) => counts[end] > 0);
	const writes = (outcome.lines ?? []).length > 0;
	return (
		<>
			<p>
				<b>{writes ? ends.map((end) => say.taughtCounts[end](counts[end])).join(", ") : say.taughtNothing}</b>
			</p>
			{faults.length + told.length > 0 && (
				<ul class="problems">
					{faults.map(({ text, fault }, i) => (
						<li key={`${text} ${i}`} class="wrong">
							{say.taughtOf(sent[text]?.name ?? "")} <span lang="en">{fault}</span>
						</li>
					))}
					{told.map((line) => (
						<li key={line} lang="en">
							{line}
						</li>
					))}
				</ul>
			)}
			{writes && (
				<Tried outcome={outcome}>
					{onTake !== undefined && (
						<Button kind="main" onClick={onTake}>
							{say.taughtTake}
						</Button>
					)}
				</Tried>
			)}
		</>
	);
}
