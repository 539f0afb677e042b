/**
 * The coach's taps: what was done of each block and how it was for the group, how many can do each skill,
 * and one press that sends it. Every tap is kept on the device at once; tapped again it is taken back.
 *
 * A block is known by its apparatus and its drills, so that a report goes on in a newer edition of the
 * sheet; what that no longer has stays in the report, and is sent with it.
 */

import {
	CAUSES,
	DONE,
	FELT,
	isEmpty,
	isSmallEnough,
	LOOKS,
	MOST_GYMNASTS,
	MOST_NOTE,
	noteOf,
	type Report,
	type ReportedBlock,
	type ReportedSkill,
	reportText,
} from "../../../scripts/records/report.ts";
import { reporting as say } from "../../../scripts/words/en.ts";
import { forgetReport, isUnsent, keepReport, keptReport, tidyUp } from "./kept-reports.ts";

/** Minutes offered for what a shortened block lost. */
const LOST = [2, 5, 10] as const;

/** Brings the places of a class sheet to life. */
export function startReport(end: HTMLElement, own: string, title: string): void {
	new ClassTaps(end, own, title).start();
}

class ClassTaps {
	readonly #end: HTMLElement;
	readonly #title: string;
	readonly #places = [...document.querySelectorAll<HTMLElement>(".report[data-block]")];
	/** Shows each part again as the report has it. */
	readonly #shows: (() => void)[] = [];
	#report: Report;
	#sent: number;
	#status: HTMLElement | undefined;

	constructor(end: HTMLElement, own: string, title: string) {
		this.#end = end;
		this.#title = title;
		const week = end.dataset.week ?? "";
		const kept = keptReport(own, week);
		this.#sent = kept?.sent ?? 0;
		this.#report = kept?.report ?? {
			week,
			class: own,
			from: drawn(),
			revision: 1,
			edition: edition(),
			blocks: [],
			skills: [],
		};
	}

	start(): void {
		tidyUp();
		for (const place of this.#places) this.#blockTaps(place);
		for (const place of this.#end.querySelectorAll<HTMLElement>("[data-skill]")) this.#skillTaps(place);
		this.#classTaps();
		this.#sendKeys();
		this.#show();
		for (const one of document.querySelectorAll<HTMLElement>(".class-end, .report, .report-way"))
			one.hidden = false;
	}

	/** The report with a change, kept; refused where it would grow larger than may be sent. */
	#change(change: Partial<Report>): boolean {
		const revision = Math.max(this.#report.revision, this.#sent + 1);
		const next = { ...this.#report, ...change, revision, edition: edition() || this.#report.edition };
		if (!isSmallEnough(next)) {
			this.#tell(say.full);
			this.#show();
			return false;
		}
		this.#report = next;
		this.#tell(this.#keep() ? "" : say.notKept);
		this.#show();
		return true;
	}

	#keep(): boolean {
		return keepReport({
			report: this.#report,
			sent: this.#sent,
			at: location.pathname,
			title: this.#title,
		});
	}

	#show(): void {
		for (const show of this.#shows) show();
	}

	#tell(words: string): void {
		if (this.#status !== undefined) this.#status.textContent = words;
	}

	/** What is said of the block at a place: by its drills, its number where there are several. */
	#entryAt({ apparatus, block, mark, group }: DOMStringMap): ReportedBlock | undefined {
		const same = this.#report.blocks.filter(
			(one) => one.apparatus === apparatus && one.mark === mark && one.group === group,
		);
		const others = this.#places.filter(
			({ dataset }) => dataset.apparatus === apparatus && dataset.mark === mark && dataset.group === group,
		);
		return same.find((one) => one.block === Number(block)) ?? (others.length === 1 ? same[0] : undefined);
	}

	#setBlock(place: HTMLElement, change: Partial<Record<keyof ReportedBlock, unknown>>): void {
		const { apparatus = "", block, mark = "", group } = place.dataset;
		const before = this.#entryAt(place.dataset);
		const next = said({
			...before,
			...(group === undefined ? {} : { group }),
			apparatus,
			block: Number(block),
			mark,
			...change,
		}) as unknown as ReportedBlock;
		const others = this.#report.blocks.filter((one) => one !== before);
		const isSaid = Object.keys(next).some((key) => !["group", "apparatus", "block", "mark"].includes(key));
		this.#change({ blocks: isSaid ? [...others, next] : others });
	}

	#blockTaps(place: HTMLElement): void {
		const minutes = Number(place.dataset.minutes);
		const now = () => this.#entryAt(place.dataset);
		const row = <T extends string | number>(
			label: string,
			field: "done" | "lost" | "cause" | "felt" | "look",
			values: readonly T[],
			words: (value: T) => string,
			isAsked: (entry: ReportedBlock | undefined) => boolean = () => true,
		) => {
			const box = group(label);
			const keys = values.map((value) =>
				key(words(value), () => {
					const isOn = now()?.[field] === value;
					// What was lost of a block that was done is nothing.
					const rest =
						field === "done" ? { lost: undefined, ...(value === "done" ? { cause: undefined } : {}) } : {};
					this.#setBlock(place, { ...rest, [field]: isOn ? undefined : value });
				}),
			);
			box.append(...keys);
			this.#shows.push(() => {
				const entry = now();
				box.hidden = !isAsked(entry);
				for (const [i, one] of keys.entries()) press(one, entry?.[field] === values[i]);
			});
			return box;
		};
		place.append(
			row(say.done, "done", DONE, (value) => say.dones[value]),
			row(
				say.lost,
				"lost",
				LOST.filter((lost) => lost < minutes),
				(value) => say.minutes(value),
				(entry) => entry?.done === "shortened",
			),
			row(
				say.cause,
				"cause",
				CAUSES,
				(value) => say.causes[value],
				(entry) => entry?.done === "shortened" || entry?.done === "not-done",
			),
			row(say.felt, "felt", FELT, (value) => say.felts[value]),
			row(say.look, "look", LOOKS, (value) => say.looks[value]),
			this.#note(
				() => now()?.note,
				(note) => this.#setBlock(place, { note }),
			),
		);
	}

	/** A line of text, kept when it is left. */
	#note(now: () => string | undefined, set: (note: string | undefined) => void): HTMLElement {
		const label = document.createElement("label");
		label.className = "report-note";
		const field = document.createElement("input");
		field.type = "text";
		field.maxLength = MOST_NOTE;
		field.autocomplete = "off";
		field.addEventListener("change", () => set(noteOf(field.value)));
		label.append(element("span", say.note), field, element("small", say.noName));
		this.#shows.push(() => {
			if (document.activeElement !== field || noteOf(field.value) === now()) field.value = now() ?? "";
		});
		return label;
	}

	#skillTaps(place: HTMLElement): void {
		const { skill = "", group: part } = place.dataset;
		const now = () => this.#report.skills.find((one) => one.skill === skill && one.group === part);
		// As many are there for one skill as for another, unless it is said.
		const others = () => this.#report.skills.findLast((one) => one.group === part);
		const of = () => (now() ?? others())?.of ?? Number(place.dataset.of);
		const set = (change: Partial<ReportedSkill>) => {
			const before = now();
			const next = {
				...(part === undefined ? {} : { group: part }),
				skill,
				of: of(),
				alone: 0,
				helped: 0,
				...before,
				...change,
			};
			const alone = Math.min(next.alone, next.of);
			const helped = Math.min(next.helped, next.of - alone);
			const rest = this.#report.skills.filter((one) => one !== before);
			this.#change({ skills: [...rest, { ...next, alone, helped }] });
		};
		const counted = (label: string, field: "alone" | "helped") => {
			const box = group(label);
			box.classList.add("report-count");
			const fill = (most: number) => {
				const keys = Array.from({ length: most + 1 }, (_, number) =>
					key(String(number), () => set({ [field]: number })),
				);
				box.replaceChildren(...box.querySelectorAll("span"), ...keys);
			};
			let filled = -1;
			this.#shows.push(() => {
				const most = of();
				// Asked once it is said how many do it alone.
				box.hidden = field === "helped" && now() === undefined;
				if (filled !== most) fill(most);
				filled = most;
				for (const [number, one] of [...box.querySelectorAll("button")].entries()) {
					press(one, now()?.[field] === number);
					// With help are those who do not do it alone.
					one.hidden = field === "helped" && number > most - (now()?.alone ?? 0);
				}
			});
			return box;
		};
		const there = group(say.there);
		const count = element("b", "");
		there.append(
			key("−", () => set({ of: Math.max(1, of() - 1) }), say.fewer),
			count,
			key("+", () => set({ of: Math.min(MOST_GYMNASTS, of() + 1) }), say.more),
			key(say.takeBack, () => this.#change({ skills: this.#report.skills.filter((one) => one !== now()) })),
		);
		this.#shows.push(() => {
			there.hidden = now() === undefined;
			count.textContent = String(of());
		});
		place.append(...criteriaOf(place), counted(say.alone, "alone"), counted(say.helped, "helped"), there);
	}

	#classTaps(): void {
		const box = this.#end.querySelector(".report-all");
		const counted = element("p", "");
		const rest = element("p", "");
		const all = key(say.allDone, () => {
			const open = this.#places.filter((place) => this.#entryAt(place.dataset)?.done === undefined);
			const fresh = open.map(({ dataset: { apparatus = "", block, mark = "", group: part } }) => ({
				...(part === undefined ? {} : { group: part }),
				apparatus,
				block: Number(block),
				mark,
				done: "done" as const,
			}));
			const before = open.flatMap((place) => this.#entryAt(place.dataset) ?? []);
			const others = this.#report.blocks.filter((one) => !before.includes(one));
			const joined = fresh.map((one, i) => ({ ...this.#entryAt(open[i]?.dataset ?? {}), ...one }));
			this.#change({ blocks: [...others, ...joined] });
		});
		all.classList.add("report-main");
		box?.append(
			counted,
			all,
			rest,
			this.#note(
				() => this.#report.note,
				(note) => this.#change({ note } as Partial<Report>),
			),
		);
		this.#shows.push(() => {
			const entries = this.#places.flatMap((place) => this.#entryAt(place.dataset) ?? []);
			const isSaid = entries.filter(({ done }) => done !== undefined).length;
			counted.textContent = say.counted(isSaid, this.#places.length);
			all.hidden = isSaid === this.#places.length;
			const old = this.#report.blocks.length - entries.length;
			rest.textContent = old > 0 ? say.older(old) : "";
			rest.hidden = old <= 0;
		});
	}

	#sendKeys(): void {
		const box = this.#end.querySelector(".report-send");
		const { mail } = this.#end.dataset;
		const text = () => reportText(plain(this.#report));
		const sent = (words: string) => {
			this.#sent = this.#report.revision;
			this.#tell(this.#keep() ? words : say.notKept);
			this.#show();
		};
		const share = key(say.share, () => {
			const name = `taught-${this.#report.class}-${this.#report.week}.txt`;
			const file = new File([text()], name, { type: "text/plain" });
			const what = navigator.canShare?.({ files: [file] }) ? { files: [file] } : { text: text() };
			navigator.share(what).then(
				() => sent(say.shared),
				// Put away by the coach, or refused by the phone: it is still to be sent.
				() => this.#tell(say.notShared),
			);
		});
		share.classList.add("report-main");
		share.hidden = !("share" in navigator);
		const letter = document.createElement("a");
		letter.className = "button";
		letter.textContent = say.mail;
		letter.addEventListener("click", () => sent(say.mailed));
		const copy = key(say.copy, () => {
			navigator.clipboard.writeText(text()).then(
				() => sent(say.copied),
				() => {
					shown.hidden = false;
					shown.value = text();
					shown.select();
					this.#tell(say.copyByHand);
				},
			);
		});
		const shown = document.createElement("textarea");
		shown.readOnly = true;
		shown.hidden = true;
		shown.setAttribute("aria-label", say.copy);
		const not = key(say.notSent, () => {
			this.#sent = 0;
			this.#change({});
		});
		const forget = key(say.forget, () => {
			forgetReport(this.#report);
			this.#report = { ...plain(this.#report), from: drawn(), revision: 1, blocks: [], skills: [] };
			this.#sent = 0;
			this.#show();
			this.#tell(say.forgotten);
		});
		this.#status = element("p", "");
		this.#status.setAttribute("role", "status");
		const how = element("p", "");
		const keys = element("p", "");
		keys.className = "report-keys";
		keys.append(share, letter, copy, not, forget);
		box?.append(how, keys, shown, this.#status);
		this.#shows.push(() => {
			const unsent = isUnsent({ report: this.#report, sent: this.#sent, at: "/", title: "" });
			const nothing = isEmpty(this.#report);
			how.textContent = nothing ? say.nothing : unsent ? say.unsent : say.isSent;
			for (const one of [share, copy]) one.disabled = nothing;
			letter.hidden = mail === undefined || nothing;
			letter.href = `mailto:${mail ?? ""}?subject=${encodeURIComponent(this.#title)}&body=${encodeURIComponent(text())}`;
			not.hidden = unsent || nothing;
			forget.hidden = nothing;
		});
	}
}

/** Without fields that hold nothing. */
function said(fields: Readonly<Record<string, unknown>>): Readonly<Record<string, unknown>> {
	return Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined));
}

function plain({ note, ...report }: Report): Report {
	return note === undefined ? report : { ...report, note };
}

/** Ten letters that stand for nobody: drawn for this class and week alone. */
function drawn(): string {
	const numbers = crypto.getRandomValues(new Uint8Array(10));
	return Array.from(numbers, (number) => (number % 36).toString(36)).join("");
}

/** The number of the edition that is open, as the foot of the page names it; 0 in a preview. */
function edition(): number {
	return Number.parseInt(document.querySelector(".colophon .edition b")?.textContent ?? "", 10) || 0;
}

function element<N extends keyof HTMLElementTagNameMap>(name: N, text: string): HTMLElementTagNameMap[N] {
	const made = document.createElement(name);
	made.textContent = text;
	return made;
}

/** What must be seen of a skill, as the sheet's first drill that performs it says; nothing where it is said here. */
function criteriaOf(place: HTMLElement): readonly HTMLElement[] {
	const to = place.querySelector("h4 a")?.getAttribute("href");
	const name = document.querySelector(`.folds dt > a[href="${to}"]`);
	if (name === null || place.querySelector("ul") !== null) return [];
	const list = document.createElement("ul");
	list.className = "small";
	for (const line of name.closest("div")?.querySelectorAll("dd") ?? []) {
		const item = document.createElement("li");
		item.append(...line.cloneNode(true).childNodes);
		list.append(item);
	}
	return [list];
}

function group(label: string): HTMLElement {
	const box = document.createElement("div");
	box.className = "report-row";
	box.setAttribute("role", "group");
	box.setAttribute("aria-label", label);
	box.append(element("span", label));
	return box;
}

function key(words: string, act: () => void, label?: string): HTMLButtonElement {
	const button = element("button", words);
	button.type = "button";
	if (label !== undefined) button.setAttribute("aria-label", label);
	button.addEventListener("click", act);
	return button;
}

function press(button: HTMLButtonElement, isOn: boolean): void {
	button.setAttribute("aria-pressed", String(isOn));
}
