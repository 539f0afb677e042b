/**
 * Everything that a club writes, by kind: found, opened as a form or as the text it is, saved, renamed, or
 * taken away. What is typed is kept as a draft at every pause, and saved when she says so.
 */

import { useCallback, useEffect, useMemo, useRef, useState } from "preact/hooks";
import { FILES_OF_THINGS, type FileKind, isPageKind, LIST_FILES } from "../../scripts/model.ts";
import { desk as say } from "../../scripts/words/en.ts";
import type { Field, FileText, Named, Outcome, ProblemLine, Refusal, Thing } from "./api.ts";
import { asData, type Data } from "./data.ts";
import { type Editor, openEditor } from "./editor.ts";
import { Fields } from "./fields.tsx";
import { withoutCode } from "./findings.tsx";
import { Button, Choice, Reading, search, Typed, useFocus } from "./parts.tsx";
import { ShapeFields } from "./shape.tsx";
import { change, current, desk, get, NotDone, post, speak } from "./talk.ts";
import { TaughtDrop } from "./taught.tsx";
import { Tried } from "./tried.tsx";

const SINGLE: readonly FileKind[] = ["term", "targets", "club"];
const KINDS: readonly FileKind[] = [...FILES_OF_THINGS, ...SINGLE, "taught"];
/** The kind of the things that a file has, for renaming. */
const ID_KIND: Readonly<Record<string, string>> = {
	drill: "drill",
	guide: "guide",
	...Object.fromEntries(Object.entries(LIST_FILES).map(([kind, file]) => [file, kind])),
};

/** What is opened: a file, and in a list the place of an entry. */
export interface Opened {
	readonly path: string;
	readonly index?: number;
	/** What something new begins with. */
	readonly begin?: Data;
}

function kindOfPath(path: string): FileKind {
	const data = /^_data\/([a-z]+)\.ya?ml$/.exec(path)?.[1];
	if (data !== undefined) return data as FileKind;
	return path.startsWith("content/weeks/") ? "week" : path.startsWith("content/guides/") ? "guide" : "drill";
}

export function FilesView(props: {
	readonly opened: Opened | undefined;
	readonly onOpen: (opened: Opened | undefined) => void;
}) {
	const { opened, onOpen } = props;
	const state = desk();
	const [kind, setKind] = useState<FileKind>(opened === undefined ? "drill" : kindOfPath(opened.path));
	const [things, setThings] = useState<readonly Thing[]>([]);
	const [text, setText] = useState("");
	useEffect(() => {
		if (opened !== undefined) setKind(kindOfPath(opened.path));
	}, [opened?.path]);
	useEffect(() => {
		get<Thing[]>(`things?kind=${kind}`).then(setThings, () => setThings([]));
	}, [kind, state.revision, state.drafts.length]);
	const shown = search(things, text);
	const choose = (next: FileKind): void => {
		setKind(next);
		setText("");
		onOpen(SINGLE.includes(next) ? { path: `_data/${next}.yaml` } : undefined);
	};
	return (
		<section class="files" aria-label={say.files}>
			<nav class="kinds" aria-label={say.kindsOfFiles}>
				<ul>
					{KINDS.map((one) => (
						<li key={one}>
							<button
								type="button"
								aria-current={one === kind ? "true" : undefined}
								onClick={() => choose(one)}
							>
								{say.kindNames[one]}
							</button>
						</li>
					))}
				</ul>
			</nav>
			{!SINGLE.includes(kind) && kind !== "taught" && (
				<section class="things" aria-label={say.kindNames[kind]}>
					<Typed type="search" label={say.search} value={text} onType={setText} />
					{!state.readOnly && kind !== "week" && <NewThing kind={kind} things={things} onOpen={onOpen} />}
					<ul>
						{shown.map((thing) => (
							<li key={`${thing.path} ${thing.index ?? ""}`}>
								<button
									type="button"
									aria-current={
										opened?.path === thing.path && opened.index === thing.index ? "true" : undefined
									}
									onClick={() =>
										onOpen({ path: thing.path, ...(thing.index === undefined ? {} : { index: thing.index }) })
									}
								>
									{thing.name}
									{thing.problems > 0 && <span class="mark wrong"> {say.problemsHere(thing.problems)}</span>}
									{thing.isDraft && thing.index === undefined && <span class="mark"> {say.draft}</span>}
								</button>
							</li>
						))}
					</ul>
				</section>
			)}
			{kind === "taught" ? (
				<TaughtDrop />
			) : opened === undefined ? (
				<p class="nothing-open soft">{say.nothingOpen}</p>
			) : (
				<FileForm
					key={`${opened.path} ${opened.index ?? ""} ${opened.begin === undefined ? "" : "new"}`}
					opened={opened}
					onOpen={onOpen}
				/>
			)}
		</section>
	);
}

/** Something new of a kind: its name first, the rest in its form. */
function NewThing(props: {
	readonly kind: FileKind;
	readonly things: readonly Thing[];
	readonly onOpen: (opened: Opened) => void;
}) {
	const { kind, things, onOpen } = props;
	const { names } = desk();
	const [name, setName] = useState("");
	const areas: readonly Named[] = names.apparatus ?? [];
	const [chosen, setArea] = useState<string>();
	const area = chosen ?? areas[0]?.id;
	const isDrill = kind === "drill";
	return (
		<form
			class="new-thing"
			onSubmit={async (event) => {
				event.preventDefault();
				if (name.trim() === "") return;
				const { id, path } = await post<{ id: string; path: string }>("name", {
					kind,
					name: name.trim(),
					...(isDrill && area !== undefined ? { area } : {}),
				});
				setName("");
				if (isPageKind(kind)) {
					const levels = (names.level ?? []).map((level) => level.id);
					const begin = isDrill
						? { title: name.trim(), apparatus: area ?? "floor", levels: levels.slice(0, 1) }
						: { title: name.trim() };
					onOpen({ path, begin });
				} else onOpen({ path, index: things.length, begin: { id, name: name.trim() } });
			}}
		>
			<Typed
				required
				label={say.newName[kind as keyof typeof say.newName] ?? say.name}
				value={name}
				onType={setName}
			/>
			{isDrill && area !== undefined && (
				<Choice label={say.area} among={areas} value={area} onChange={setArea} />
			)}
			<Button>{say.begin}</Button>
		</form>
	);
}

/** Milliseconds of rest after which what is typed is checked and kept. */
const PAUSE = 350;

/** A file as it is being changed. */
interface Work {
	readonly file: FileText;
	/** The text as it would be saved. */
	readonly text: string;
	readonly data: unknown;
	readonly body: string;
	readonly problems: readonly ProblemLine[];
	/** Something was typed that is not checked yet. */
	readonly isTyped?: boolean;
	/** Why the data cannot be written into the text. */
	readonly fault?: string;
}

type Checked = Pick<FileText, "text" | "data" | "body" | "problems">;

/** What is typed into a file: opened with its draft, checked at every pause, and kept as a draft. */
function useWork({ path, index, begin }: Opened, isReadOnly: boolean, onMissing: () => void) {
	const [fields, setFields] = useState<readonly Field[]>([]);
	const [work, setWork] = useState<Work>();
	const timer = useRef(0);
	const latest = useRef<Work | undefined>(undefined);
	/** Which of the two was typed in last. */
	const isOfText = useRef(false);
	const put = (next: Work): void => {
		latest.current = next;
		setWork(next);
	};
	useEffect(() => {
		let isOpen = true;
		Promise.all([
			get<FileText>(`file?path=${encodeURIComponent(path)}`),
			get<Field[]>(`form?kind=${kindOfPath(path)}`),
		]).then(async ([file, form]) => {
			if (!isOpen) return;
			setFields(form);
			const draft = file.draft;
			if (draft !== undefined) {
				const checked = await post<Checked>("check", { path, text: draft.text });
				put(workOn({ ...file, hash: draft.base }, checked));
			} else if (begin !== undefined) {
				const data = index === undefined ? begin : [...asList(file.data), begin];
				put({ ...workOn(file), data, problems: [] });
				settle({ data });
			} else put(workOn(file));
		}, onMissing);
		return () => {
			isOpen = false;
		};
	}, [path]);
	const settle = useCallback(
		(next: { readonly data?: unknown; readonly body?: string; readonly text?: string }): void => {
			const before = latest.current;
			if (before === undefined) return;
			isOfText.current = next.text !== undefined;
			put({ ...before, ...next, isTyped: true });
			window.clearTimeout(timer.current);
			timer.current = window.setTimeout(() => checkNow(), PAUSE);
		},
		[],
	);
	const checkNow = async (): Promise<Work | undefined> => {
		const isText = isOfText.current;
		window.clearTimeout(timer.current);
		const now = latest.current;
		if (now === undefined) return undefined;
		try {
			const wish = isText
				? { path, text: now.text }
				: { path, before: now.file.text, data: now.data, body: now.body };
			const checked = await post<Checked>("check", wish);
			const { fault: _, ...rest } = { ...(latest.current ?? now), isTyped: latest.current !== now };
			const next: Work = isText
				? { ...rest, data: checked.data, body: checked.body, problems: checked.problems }
				: { ...rest, text: checked.text, problems: checked.problems };
			put(next);
			if (!isReadOnly && next.text !== next.file.text)
				await post("draft", { path, base: next.file.hash, text: next.text });
			return next;
		} catch (error) {
			if (!(error instanceof NotDone)) throw error;
			put({ ...(latest.current ?? now), fault: error.message });
			return undefined;
		}
	};
	const stop = (): void => window.clearTimeout(timer.current);
	return { fields, work, put, settle, checkNow, stop };
}

/** Long: it is the form from top to bottom. */
function FileForm(props: { readonly opened: Opened; readonly onOpen: (opened: Opened | undefined) => void }) {
	const { opened, onOpen } = props;
	const { path, index, begin } = opened;
	const state = desk();
	const kind = kindOfPath(path);
	const close = (): void => onOpen(undefined);
	const { fields, work, put, settle, checkNow, stop } = useWork(opened, state.readOnly, close);
	const [conflict, setConflict] = useState<Refusal>();
	const [showText, setShowText] = useState(false);
	const heading = useFocus<HTMLHeadingElement>(work !== undefined);
	if (work === undefined) return <p class="nothing-open soft">{say.opening}</p>;
	const isData = work.data !== undefined && work.data !== null;
	const value = entryOf(work.data, index);
	const name = String(value.title ?? value.name ?? value.theme ?? path);
	const isForm = isData || work.file.hash === null;
	const isText = showText || !isForm;
	const save = async (base: string | null = work.file.hash): Promise<void> => {
		const now = await checkNow();
		if (now === undefined) return;
		const outcome = await change("save", say.wasSaved(name), { path, base, text: now.text });
		// A conflict is shown here, beside what was typed.
		const { refusal } = current();
		setConflict(outcome === undefined && refusal?.refused === "conflict" ? refusal : undefined);
		if (outcome !== undefined) put(workOn(await get<FileText>(`file?path=${encodeURIComponent(path)}`)));
	};
	const isChanged = work.isTyped === true || work.text !== work.file.text;
	return (
		<section class="file" aria-labelledby="file-title">
			<div class="panel-head">
				<h2 id="file-title" tabIndex={-1} ref={heading}>
					{name}
				</h2>
				<div class="row">
					{!state.readOnly && (
						<Button kind="main" onClick={() => save()} disabled={!isChanged && begin === undefined}>
							{say.save}
						</Button>
					)}
					{isChanged && !state.readOnly && (
						<Button
							onClick={async () => {
								stop();
								await post("drop-draft", { path });
								close();
								speak(say.draftGone);
							}}
						>
							{say.dropDraft}
						</Button>
					)}
					<Button pressed={isText} onClick={() => setShowText(!showText)}>
						{say.asText}
					</Button>
					<Button kind="quiet" onClick={close}>
						{say.close}
					</Button>
				</div>
			</div>
			<p class="soft">
				<code>{path}</code> {isChanged && <span class="mark">{say.notSaved}</span>}
			</p>
			{conflict !== undefined && (
				<Conflict
					refusal={conflict}
					path={path}
					onMine={(hash) => save(hash)}
					onTheirs={async () => {
						await post("drop-draft", { path });
						close();
					}}
				/>
			)}
			<Problems problems={work.problems} {...(work.fault === undefined ? {} : { fault: work.fault })} />
			<div class={isText && isForm ? "beside" : ""}>
				{isForm && (
					<fieldset class="plain" disabled={state.readOnly}>
						{kind === "shapes" && (
							<ShapeFields
								value={value}
								field={fields.find((field) => field.name === "angles")}
								readOnly={state.readOnly}
								onChange={(next) => settle({ data: withValue(work.data, index, next) })}
							/>
						)}
						<Fields
							fields={fields}
							value={value}
							own={kind === "shapes" ? { angles: () => null } : {}}
							onChange={(next) => settle({ data: withValue(work.data, index, next) })}
						/>
						{isPageKind(kind) && (
							<div class="field">
								<span class="label" aria-hidden="true">
									{say.body}
								</span>
								<TextOf
									work={{ ...work, text: work.body, problems: [] }}
									label={say.body}
									onChange={(body) => settle({ body })}
								/>
								<p class="help">{say.bodyHelp}</p>
							</div>
						)}
					</fieldset>
				)}
				{isText && (
					<TextOf work={work} numbered label={say.textOf(path)} onChange={(text) => settle({ text })} />
				)}
			</div>
			{!state.readOnly && begin === undefined && work.file.hash !== null && !SINGLE.includes(kind) && (
				<Elsewhere
					kind={kind}
					path={path}
					{...(index === undefined ? {} : { index })}
					value={value}
					name={name}
					onOpen={onOpen}
				/>
			)}
		</section>
	);
}

/** A file as it is opened: as it is there, or as its draft has it. */
function workOn(file: FileText, { text, data, body, problems }: Checked = file): Work {
	return { file, text, data, body: body ?? file.body, problems };
}

function entryOf(data: unknown, index: number | undefined): Data {
	return asData(index === undefined ? data : asList(data)[index]);
}

function withValue(data: unknown, index: number | undefined, value: Data): unknown {
	return index === undefined ? value : asList(data).with(index, value);
}

function asList(data: unknown): readonly unknown[] {
	return Array.isArray(data) ? data : [];
}

function Problems({
	problems,
	fault,
}: {
	readonly problems: readonly ProblemLine[];
	readonly fault?: string;
}) {
	return (
		<div role="status">
			{(fault !== undefined || problems.length > 0) && (
				<ul class="problems">
					{fault !== undefined && <li class="wrong">{fault}</li>}
					{problems.map(({ code, line, what, fix, severity }, i) => (
						<li key={`${code} ${line} ${i}`} class={severity === "error" ? "wrong" : ""}>
							<b>{say.line(line)}</b> <span lang="en">{withoutCode(`${what} ${fix}`)}</span>{" "}
							<span class="soft">{code}</span>
						</li>
					))}
				</ul>
			)}
		</div>
	);
}

/** Both states of a file that two have written; she chooses. */
function Conflict({
	refusal,
	path,
	onMine,
	onTheirs,
}: {
	readonly refusal: Refusal;
	readonly path: string;
	readonly onMine: (hash: string | null) => void;
	readonly onTheirs: () => void;
}) {
	return (
		<section class="conflict" role="alert">
			<h3>{say.conflictTitle}</h3>
			<p>{say.conflictLead(path)}</p>
			<div class="both">
				<div>
					<h4>{say.theirs}</h4>
					<Reading label={say.theirs} text={refusal.theirs ?? ""} />
					<Button onClick={onTheirs}>{say.takeTheirs}</Button>
				</div>
				<div>
					<h4>{say.mine}</h4>
					<Reading label={say.mine} text={refusal.mine ?? ""} />
					<Button onClick={() => onMine(refusal.hash ?? null)}>{say.takeMine}</Button>
				</div>
			</div>
		</section>
	);
}

function TextOf({
	work,
	label,
	onChange,
	numbered = false,
}: {
	readonly work: Pick<Work, "text" | "problems">;
	readonly label: string;
	readonly onChange: (text: string) => void;
	readonly numbered?: boolean;
}) {
	const parent = useRef<HTMLDivElement>(null);
	const editor = useRef<Editor | undefined>(undefined);
	const typed = useRef(work.text);
	/** What was typed and comes back as work: while more is typed, it may come late. */
	const told = useRef(new Set<string>());
	const tell = useRef(onChange);
	tell.current = onChange;
	const { readOnly, names } = useMemo(desk, []);
	useEffect(() => {
		if (parent.current === null) return undefined;
		editor.current = openEditor({
			parent: parent.current,
			label,
			text: work.text,
			names,
			numbered,
			readOnly,
			onChange: (text) => {
				if (text === typed.current) return;
				typed.current = text;
				told.current.add(text);
				tell.current(text);
			},
		});
		return () => editor.current?.end();
	}, []);
	useEffect(() => {
		if (work.text === typed.current) told.current.clear();
		if (work.text === typed.current || told.current.has(work.text)) return;
		typed.current = work.text;
		editor.current?.take(work.text);
	}, [work.text]);
	useEffect(() => editor.current?.mark(work.problems), [work.problems]);
	return <div class={`editor ${numbered ? "is-numbered" : ""}`} ref={parent} />;
}

/** What is done of a thing beyond its file: its id everywhere, another drill in its place, gone. */
function Elsewhere(props: {
	readonly kind: FileKind;
	readonly path: string;
	readonly index?: number;
	readonly value: Data;
	readonly name: string;
	readonly onOpen: (opened: Opened | undefined) => void;
}) {
	const { kind, path, index, value, name, onOpen } = props;
	const id = isPageKind(kind) ? (path.split("/").at(-1) ?? "").replace(/\.md$/, "") : String(value.id ?? "");
	const [to, setTo] = useState(id);
	const drills = (desk().names.drill ?? []).filter((one) => one.id !== id);
	const idKind = ID_KIND[kind];
	return (
		<details class="elsewhere">
			<summary>{say.moreToDo}</summary>
			{idKind !== undefined && (
				<form
					class="row"
					onSubmit={async (event) => {
						event.preventDefault();
						if (to === id) return;
						const outcome = await change("rename", say.wasRenamed(id, to), { kind: idKind, from: id, to });
						if (outcome !== undefined) onOpen(undefined);
					}}
				>
					<Typed required pattern="[a-z0-9]+(-[a-z0-9]+)*" label={say.newId} value={to} onType={setTo} />
					<Button>{say.renameEverywhere}</Button>
				</form>
			)}
			{kind === "drill" && drills.length > 0 && (
				<>
					<DrillChoice
						label={say.inItsPlace}
						action={say.replaceEverywhere}
						drills={drills}
						onChoose={(other) =>
							change("replace", say.wasReplaced(name, other.name), { drill: id, by: other.id })
						}
					/>
					<Merge drill={{ id, name }} drills={drills} onDone={() => onOpen(undefined)} />
				</>
			)}
			<Button
				kind="danger"
				onClick={async () => {
					const outcome = await change("retire", say.wasRetired(name), {
						path,
						...(index === undefined ? {} : { index }),
					});
					if (outcome !== undefined) onOpen(undefined);
				}}
			>
				{say.retire}
			</Button>
			<p class="help">{say.retireHelp}</p>
		</details>
	);
}

/** A drill chosen by its name, and what is done with it. */
function DrillChoice(props: {
	readonly label: string;
	readonly action: string;
	readonly drills: readonly Named[];
	readonly onChoose: (drill: Named) => void;
}) {
	const { label, action, drills, onChoose } = props;
	const [chosen, setChosen] = useState("");
	return (
		<form
			class="row"
			onSubmit={(event) => {
				event.preventDefault();
				const drill = drills.find(({ id }) => id === chosen);
				if (drill !== undefined) onChoose(drill);
			}}
		>
			<Choice label={label} among={drills} value={chosen} onChange={setChosen} none={say.pick} />
			<Button>{action}</Button>
		</form>
	);
}

/** A drill into another: looked at first, then made in one change. */
function Merge(props: {
	readonly drill: Named;
	readonly drills: readonly Named[];
	readonly onDone: () => void;
}) {
	const { drill, drills, onDone } = props;
	const [tried, setTried] = useState<{ readonly into: Named; readonly outcome: Outcome }>();
	return (
		<>
			<DrillChoice
				label={say.mergeInto}
				action={say.seeFirst}
				drills={drills}
				onChoose={async (into) => {
					setTried(undefined);
					setTried({ into, outcome: await post<Outcome>("try-merge", { drill: drill.id, into: into.id }) });
				}}
			/>
			<p class="help">{say.mergeHelp}</p>
			{tried !== undefined && (
				<Tried outcome={tried.outcome}>
					<Button
						kind="main"
						onClick={async () => {
							const { into } = tried;
							const wish = { drill: drill.id, into: into.id };
							if ((await change("merge", say.wasMerged(drill.name, into.name), wish)) !== undefined) onDone();
						}}
					>
						{say.merge(drill.name, tried.into.name)}
					</Button>
				</Tried>
			)}
		</>
	);
}
