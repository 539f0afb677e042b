/**
 * The desk: the plan as a board, what the measures find, everything a club writes as forms, and publishing.
 * Started on the page that scripts/desk/desk-server.ts gives; it talks with that server alone.
 */

import { render } from "preact";
import { useEffect, useState } from "preact/hooks";
import { desk as say } from "../../scripts/words/en.ts";
import type { Offer, Outcome } from "./api.ts";
import { BlockPanel } from "./block.tsx";
import { BoardView, type Whose } from "./board.tsx";
import { DrillSearch } from "./drills.tsx";
import { FilesView, type Opened } from "./files.tsx";
import { FindingsView, withoutCode } from "./findings.tsx";
import { Button, Options, useShown } from "./parts.tsx";
import { blockAt, type Carried, type Spot, spotOf, weekAt } from "./plan.ts";
import { PublishView } from "./publish.tsx";
import { boardNow, change, current, desk, load, NotDone, show } from "./talk.ts";
import { ComeAndGone } from "./tried.tsx";
import { WeekPanel } from "./week.tsx";

const VIEWS = ["board", "findings", "files", "publish"] as const;
type View = (typeof VIEWS)[number];

function viewNow(): View {
	const name = location.hash.slice(1).split("/")[0];
	return VIEWS.find((one) => one === name) ?? "board";
}

function App() {
	const shown = useShown();
	const [view, setView] = useState<View>(viewNow());
	const [opened, setOpened] = useState<Opened>();
	useEffect(() => {
		// For as long as the page is open.
		window.addEventListener("hashchange", () => setView(viewNow()));
		window.addEventListener("keydown", undoKey);
	}, []);
	if (shown.state === undefined) return <p class="loading">{shown.refusal?.words ?? say.opening}</p>;
	const edit = (path: string): void => {
		setOpened({ path });
		location.hash = "#files";
	};
	return (
		<>
			<Top view={view} />
			<Notices onEdit={edit} />
			<main id="main" class={`view-${view}`} tabIndex={-1}>
				{view === "board" && <BoardPage onEdit={edit} />}
				{view === "findings" && <FindingsView />}
				{view === "files" && <FilesView opened={opened} onOpen={setOpened} />}
				{view === "publish" && <PublishView />}
			</main>
			<p class="sr" aria-live="assertive" id="spoken">
				{shown.spoken}
			</p>
		</>
	);
}

/** Undo and redo by keys, where no field has its own. */
function undoKey(event: KeyboardEvent): void {
	if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
	const target = event.target as HTMLElement | null;
	if (target?.closest("input, textarea, select, .cm-editor") !== null && target !== null) return;
	const key = event.key.toLowerCase();
	if (key === "z" && !event.shiftKey) undo();
	else if (key === "y" || (key === "z" && event.shiftKey)) redo();
	else return;
	event.preventDefault();
}

function undo(): void {
	change("undo", say.undone, {});
}

function redo(): void {
	change("redo", say.redone, {});
}

function Top({ view }: { readonly view: View }) {
	const { busy } = current();
	const state = desk();
	const names: Readonly<Record<View, string>> = {
		board: say.viewBoard,
		findings: say.viewFindings(state.findings.length),
		files: say.viewFiles,
		publish: say.viewPublish,
	};
	return (
		<header class="top">
			<button type="button" class="skip" onClick={() => document.getElementById("main")?.focus()}>
				{say.skip}
			</button>
			<h1>
				{say.desk} <span class="soft">{state.club}</span>
			</h1>
			<nav aria-label={say.views}>
				<ul>
					{VIEWS.map((one) => (
						<li key={one}>
							<a href={`#${one}`} aria-current={one === view ? "page" : undefined}>
								{names[one]}
							</a>
						</li>
					))}
				</ul>
			</nav>
			<div class="row">
				{state.readOnly ? (
					<span class="mark">{say.readOnlyMark}</span>
				) : (
					<>
						<Button onClick={undo} disabled={state.undo === undefined} title={state.undo}>
							{say.undo}
						</Button>
						<Button onClick={redo} disabled={state.redo === undefined} title={state.redo}>
							{say.redo}
						</Button>
						<span class="saved soft" data-busy={busy}>
							{busy ? say.saving : say.allSaved}
						</span>
					</>
				)}
			</div>
		</header>
	);
}

function Notices({ onEdit }: { readonly onEdit: (path: string) => void }) {
	const { refusal, last } = current();
	const state = desk();
	const errors = state.problems.filter(({ severity }) => severity === "error");
	const files = [...new Set(errors.map(({ file }) => file))];
	return (
		<section class="notices" aria-label={say.notices}>
			{errors.length > 0 && (
				<section class="notice is-wrong" aria-label={say.problemsTitle}>
					<p>
						<b>{say.errorsIn(errors.length)}</b> {say.restGoesOn}
					</p>
					<ul>
						{errors.slice(0, 5).map(({ file, line, what, code }, i) => (
							<li key={`${file} ${line} ${i}`}>
								<span lang="en">{withoutCode(what)}</span> <span class="soft">{code}</span>
							</li>
						))}
					</ul>
					<div class="row">
						{files.slice(0, 5).map((file) =>
							/\.(md|ya?ml)$/.test(file) ? (
								<Button key={file} onClick={() => onEdit(file)}>
									{say.mendFile(file)}
								</Button>
							) : null,
						)}
					</div>
				</section>
			)}
			{state.drafts.length > 0 && (
				<p class="notice">
					{say.draftsThere}{" "}
					{state.drafts.slice(0, 5).map(({ path }) => (
						<Button key={path} kind="quiet" onClick={() => onEdit(path)}>
							{path}
						</Button>
					))}
				</p>
			)}
			{refusal !== undefined && refusal.refused !== "conflict" && (
				<section class="notice is-wrong" role="alert">
					<p>
						<b>{say.notDone}</b> {refusal.words}
					</p>
					{refusal.problems !== undefined && (
						<ul>
							{refusal.problems.slice(0, 6).map(({ code, what, fix }, i) => (
								<li key={`${code} ${i}`}>
									<span lang="en">{withoutCode(`${what} ${fix}`)}</span>
								</li>
							))}
						</ul>
					)}
					<Button
						kind="quiet"
						label={`${say.close}: ${say.notDone}`}
						onClick={() => show({ refusal: undefined })}
					>
						{say.close}
					</Button>
				</section>
			)}
			{last !== undefined && refusal === undefined && <Last what={last.what} outcome={last.outcome} />}
		</section>
	);
}

/** What the last change did to what the measures find. */
function Last({ what, outcome }: { readonly what: string; readonly outcome: Outcome }) {
	const { come, gone, kept } = outcome;
	return (
		<section class="notice last" aria-label={say.lastChange}>
			<p>
				<b>{what}.</b>
			</p>
			<ComeAndGone come={come} gone={gone} />
			{kept !== undefined && <p>{say.keptBeside(kept.join(", "))}</p>}
			<Button
				kind="quiet"
				label={`${say.close}: ${say.lastChange}`}
				onClick={() => show({ last: undefined })}
			>
				{say.close}
			</Button>
		</section>
	);
}

function BoardPage({ onEdit }: { readonly onEdit: (path: string) => void }) {
	const { offer } = current();
	const { board } = desk();
	const [chosen, setWhose] = useState<Whose>();
	const [carried, setCarried] = useState<Carried>();
	const [over, setOver] = useState<Spot>();
	const [block, setBlock] = useState<string>();
	const [week, setWeek] = useState<number>();
	const [isSearching, setSearching] = useState(false);
	if (board === undefined) return <p class="page">{say.nothingYet}</p>;
	// A class shows what is filled and free; a club that has none yet sees all.
	const [firstClass] = board.classes;
	const whose =
		chosen ?? (firstClass === undefined ? { kind: "all", id: "" } : { kind: "class", id: firstClass.id });
	const carry = (now: Carried | undefined, to?: Spot): void => {
		setCarried(now);
		setOver(now === undefined ? undefined : to);
	};
	const openBlock = (at: string | undefined): void => {
		setBlock(at);
		if (at === undefined) return;
		setWeek(undefined);
		setSearching(false);
	};
	const shownBlock = block === undefined ? undefined : blockAt(board, block);
	const shownWeek = week === undefined ? undefined : weekAt(board, week);
	const hasPanel = shownBlock !== undefined || shownWeek !== undefined || isSearching;
	return (
		<div class={`board-page ${hasPanel ? "has-panel" : ""}`}>
			<div class="tools">
				<WhoseSelect whose={whose} onChange={setWhose} />
				<Button
					pressed={isSearching}
					onClick={() => {
						setSearching(!isSearching);
						setBlock(undefined);
						setWeek(undefined);
					}}
				>
					{say.drills}
				</Button>
				<p class="soft hint">{carried === undefined ? say.keysHint : say.carryHint(carried.title)}</p>
				{carried !== undefined && <Button onClick={() => carry(undefined)}>{say.leave}</Button>}
			</div>
			{offer !== undefined && <OfferBar offer={offer} />}
			<BoardView
				whose={whose}
				carried={carried}
				over={over}
				selected={block}
				offered={offer?.outcome.weeks ?? []}
				onCarry={carry}
				onOver={setOver}
				onOpen={openBlock}
				onOpenWeek={(number) => {
					setBlock(undefined);
					setSearching(false);
					setWeek(week === number ? undefined : number);
				}}
			/>
			{hasPanel && (
				<aside class="side" aria-label={say.beside}>
					{shownBlock !== undefined && (
						<BlockPanel
							block={shownBlock}
							onCarry={(now) => carry(now, spotOf(shownBlock.at))}
							onOpen={openBlock}
						/>
					)}
					{shownWeek !== undefined && (
						<WeekPanel week={shownWeek} onClose={() => setWeek(undefined)} onEdit={onEdit} />
					)}
					{isSearching && <DrillSearch onCarry={carry} onOver={setOver} onEdit={onEdit} />}
				</aside>
			)}
		</div>
	);
}

function WhoseSelect(props: { readonly whose: Whose; readonly onChange: (whose: Whose) => void }) {
	const { whose, onChange } = props;
	const { levels, classes } = boardNow();
	return (
		<label class="text whose">
			{say.planOf}
			<select
				value={`${whose.kind}:${whose.id}`}
				onChange={(event) => {
					const [kind = "all", id = ""] = event.currentTarget.value.split(":");
					onChange({ kind: kind as Whose["kind"], id });
				}}
			>
				<option value="all:">{say.everybody}</option>
				<optgroup label={say.levels}>
					<Options among={levels} kind="level:" />
				</optgroup>
				<optgroup label={say.classes}>
					<Options among={classes} kind="class:" />
				</optgroup>
			</select>
		</label>
	);
}

/** Changes that are offered: shown on the board, to be taken or left. */
function OfferBar({ offer }: { readonly offer: Offer }) {
	const { changes, words, proof, outcome } = offer;
	return (
		<section class="notice offer" aria-label={say.offer}>
			<p>
				<b>{say.offerTitle(changes.length)}</b> {proof}
			</p>
			<ul>
				{words.map((one, i) => (
					<li key={`${i} ${one}`}>{one}</li>
				))}
			</ul>
			<ComeAndGone come={outcome.come} gone={outcome.gone} />
			<div class="row">
				{!desk().readOnly && (
					<Button
						kind="main"
						onClick={async () => {
							show({ offer: undefined });
							await change("plan", say.offerTaken, { changes });
						}}
					>
						{say.takeIt}
					</Button>
				)}
				<Button onClick={() => show({ offer: undefined })}>{say.leaveIt}</Button>
			</div>
		</section>
	);
}

// Whatever asked, and was refused or not heard: she is told.
window.addEventListener("unhandledrejection", (event) => {
	const refusal =
		event.reason instanceof NotDone
			? event.reason.refusal
			: { refused: "wrong" as const, words: say.serverGone };
	show({ refusal, busy: false });
	event.preventDefault();
});

const root = document.getElementById("desk");
if (root !== null) {
	render(<App />, root);
	load().catch(() => show({ refusal: { refused: "wrong", words: say.serverGone } }));
}
