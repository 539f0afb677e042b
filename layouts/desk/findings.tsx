/** What the measures find: each can be looked at, mended by one press, or let stand with a reason. */

import { useState } from "preact/hooks";
import type { PlanChange } from "../../scripts/model.ts";
import { findingsPage, desk as say } from "../../scripts/words/en.ts";
import type { FindingLine, Outcome } from "./api.ts";
import { Button, Typed } from "./parts.tsx";
import { change, desk, NotDone, post, show } from "./talk.ts";

export function FindingsView() {
	const { findings, accepted } = desk();
	const harms = [...new Set(findings.map(({ harm }) => harm))];
	return (
		<section class="page" aria-labelledby="findings-title">
			<h2 id="findings-title" tabIndex={-1}>
				{say.findingsTitle(findings.length)}
			</h2>
			{findings.length === 0 && <p>{say.noFindings}</p>}
			{harms.map((harm) => (
				<section key={harm}>
					<h3>{findingsPage.harms[harm as keyof typeof findingsPage.harms] ?? harm}</h3>
					<ul class="findings">
						{findings
							.filter((one) => one.harm === harm)
							.map((finding) => (
								<FindingItem key={finding.key} finding={finding} />
							))}
					</ul>
				</section>
			))}
			{accepted.length > 0 && (
				<section>
					<h3>{say.accepted}</h3>
					<ul class="findings">
						{accepted.map(({ finding, reason }, i) => (
							<li key={`${finding.key}-${i}`} class="finding">
								<p>{withoutCode(finding.what)}</p>
								<p class="soft">
									{say.because} {reason}
								</p>
							</li>
						))}
					</ul>
				</section>
			)}
		</section>
	);
}

interface Mend {
	readonly changes: readonly PlanChange[];
	readonly words: readonly string[];
}

export function FindingItem({ finding }: { readonly finding: FindingLine }) {
	const { readOnly } = desk();
	const [mend, setMend] = useState<Mend>();
	const [isAsking, setAsking] = useState(false);
	const [isAccepting, setAccepting] = useState(false);
	const ask = async (): Promise<void> => {
		setAsking(true);
		try {
			setMend(await post<Mend>("mends", { key: finding.key }));
		} catch (error) {
			if (!(error instanceof NotDone)) throw error;
		}
		setAsking(false);
	};
	return (
		<li class={`finding ${finding.weight === "serious" ? "is-serious" : ""}`}>
			<p>
				<b>{finding.title}</b> <span class="soft">{finding.code}</span>
			</p>
			<p>{withoutCode(finding.what)}</p>
			<p class="soft">{withoutCode(finding.fix)}</p>
			<div class="row">
				{mend === undefined && (
					<Button onClick={ask} disabled={isAsking} label={say.mendOf(finding.title)}>
						{isAsking ? say.looking : say.whatMends}
					</Button>
				)}
				{!readOnly && (
					<Button kind="quiet" onClick={() => setAccepting(!isAccepting)} label={say.acceptOf(finding.title)}>
						{say.letStand}
					</Button>
				)}
			</div>
			<div aria-live="polite">
				{mend?.changes.length === 0 && <p class="soft">{say.nothingKnown}</p>}
				{mend !== undefined && mend.changes.length > 0 && (
					<div class="mend">
						<ul>
							{mend.words.map((words, i) => (
								<li key={`${i}-${words}`}>{words}</li>
							))}
						</ul>
						<div class="row">
							{!readOnly && (
								<Button
									kind="main"
									onClick={() => change("plan", say.mended(finding.title), { changes: mend.changes })}
								>
									{say.doIt}
								</Button>
							)}
							<Button onClick={() => offer(mend)}>{say.lookOnBoard}</Button>
						</div>
					</div>
				)}
			</div>
			{isAccepting && <Accept finding={finding} onDone={() => setAccepting(false)} />}
		</li>
	);
}

/** Shows changes on the board before they are made. */
async function offer({ changes, words }: Mend): Promise<void> {
	const { come, gone, state } = await post<Outcome>("try", { changes });
	show({ offer: { changes, words, outcome: { come, gone, weeks: state.weeks ?? [] }, proof: "" } });
	location.hash = "#board";
}

function Accept({ finding, onDone }: { readonly finding: FindingLine; readonly onDone: () => void }) {
	const [reason, setReason] = useState("");
	const [until, setUntil] = useState("");
	return (
		<form
			class="accept"
			onSubmit={async (event) => {
				event.preventDefault();
				if (reason.trim() === "") return;
				const body = { key: finding.key, reason: reason.trim(), ...(until === "" ? {} : { until }) };
				await change("accept", say.wasAccepted(finding.title), body);
				onDone();
			}}
		>
			<Typed required label={say.reason} value={reason} onType={setReason} />
			<Typed type="date" label={say.until} value={until} onType={setUntil} />
			<Button kind="main">{say.letStand}</Button>
		</form>
	);
}

/** Sentences of findings have backquotes for code and brackets for links; here they are only read. */
export function withoutCode(text: string): string {
	return text.replaceAll("`", "").replace(/\[\[(?:[^\]|]*\|)?([^\]]*)\]\]/g, "$1");
}
