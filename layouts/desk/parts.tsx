/** Small pieces that the desk's views are made of. */

import type { ComponentChildren } from "preact";
import { useEffect, useId, useMemo, useRef, useState } from "preact/hooks";
import { desk as say } from "../../scripts/words/en.ts";
import type { Named } from "./api.ts";
import { current, onChange, type Shown } from "./talk.ts";

/** What is shown now; the view is made again where it changes. */
export function useShown(): Shown {
	const [state, set] = useState(current());
	useEffect(() => onChange(() => set(current())), []);
	return state;
}

/** A button; without a press of its own it sends the form that it stands in. */
export function Button(props: {
	readonly children: ComponentChildren;
	readonly onClick?: () => void;
	readonly kind?: "main" | "quiet" | "danger";
	readonly disabled?: boolean;
	readonly label?: string;
	readonly pressed?: boolean;
	readonly title?: string | undefined;
}) {
	const { children, onClick, kind, disabled = false, label, pressed, title } = props;
	return (
		<button
			type={onClick === undefined ? "submit" : "button"}
			class={`button ${kind ?? ""}`}
			onClick={onClick}
			disabled={disabled}
			aria-label={label}
			aria-pressed={pressed}
			title={title}
		>
			{children}
		</button>
	);
}

/** A field with its label, told at every letter. */
export function Typed(props: {
	readonly label: string;
	readonly value: string;
	readonly onType: (value: string) => void;
	readonly type?: "text" | "search" | "date";
	readonly required?: boolean;
	readonly pattern?: string;
}) {
	const { label, onType, type = "text", ...rest } = props;
	return (
		<label class="text">
			{label}
			{/* What all these kinds of fields take is what a text takes. */}
			<input type={type as "text"} {...rest} onInput={(event) => onType(event.currentTarget.value)} />
		</label>
	);
}

/** One of several things, with its label; `none` is what stands for none of them. */
export function Choice(props: {
	readonly label: string;
	readonly among: readonly Named[];
	readonly value: string;
	readonly onChange: (id: string) => void;
	readonly none?: string;
}) {
	const { label, among, value, onChange, none } = props;
	return (
		<label class="text">
			{label}
			<select value={value} onChange={(event) => onChange(event.currentTarget.value)}>
				{none !== undefined && <option value="">{none}</option>}
				<Options among={among} />
			</select>
		</label>
	);
}

export function Options({ among, kind = "" }: { readonly among: readonly Named[]; readonly kind?: string }) {
	return (
		<>
			{among.map(({ id, name }) => (
				<option key={id} value={`${kind}${id}`}>
					{name}
				</option>
			))}
		</>
	);
}

export interface PickerProps {
	readonly label: string;
	readonly among: readonly Named[];
	readonly onPick: (id: string) => void;
	readonly placeholder?: string;
	readonly describedBy?: string;
}

const MOST_SHOWN = 12;

/** Things by their names: typed, and chosen from the list under it. */
export function Picker({ label, among, onPick, placeholder, describedBy }: PickerProps) {
	const [text, setText] = useState("");
	const [open, setOpen] = useState(false);
	const [at, setAt] = useState(0);
	const id = useId();
	const found = useMemo(() => search(among, text).slice(0, MOST_SHOWN), [among, text]);
	const active = found[Math.min(at, found.length - 1)];
	const pick = (one: Named | undefined): void => {
		if (one === undefined) return;
		setText("");
		setOpen(false);
		onPick(one.id);
	};
	const isOpen = open && found.length > 0;
	return (
		<div class="picker">
			<input
				type="text"
				role="combobox"
				aria-label={label}
				aria-expanded={isOpen}
				aria-controls={isOpen ? `${id}-list` : undefined}
				aria-activedescendant={isOpen && active !== undefined ? `${id}-${active.id}` : undefined}
				aria-autocomplete="list"
				aria-describedby={describedBy}
				autocomplete="off"
				placeholder={placeholder ?? label}
				value={text}
				onFocus={() => setOpen(true)}
				onBlur={() => setOpen(false)}
				onInput={(event) => {
					setText(event.currentTarget.value);
					setAt(0);
					setOpen(true);
				}}
				onKeyDown={(event) => {
					if (event.key === "ArrowDown" || event.key === "ArrowUp") {
						event.preventDefault();
						setOpen(true);
						const by = event.key === "ArrowDown" ? 1 : -1;
						setAt((at + by + found.length) % Math.max(1, found.length));
					} else if (event.key === "Enter" && isOpen) {
						event.preventDefault();
						pick(active);
					} else if (event.key === "Escape" && isOpen) {
						event.stopPropagation();
						setOpen(false);
					}
				}}
			/>
			{isOpen && (
				<div class="choices" role="listbox" id={`${id}-list`} aria-label={label}>
					{found.map((one) => (
						<div
							key={one.id}
							id={`${id}-${one.id}`}
							role="option"
							tabIndex={-1}
							aria-selected={one === active}
							// The field keeps the focus.
							onMouseDown={(event) => event.preventDefault()}
							onPointerUp={() => pick(one)}
						>
							{one.name}
							{one.name !== one.id && <span class="soft"> {one.id}</span>}
						</div>
					))}
				</div>
			)}
		</div>
	);
}

/** Things whose name or id has every word that is typed, those that begin with it first. */
export function search<T extends Named>(
	among: readonly T[],
	text: string,
	more?: (one: T) => string,
): readonly T[] {
	const words = plain(text)
		.split(/\s+/)
		.filter((word) => word !== "");
	if (words.length === 0) return among;
	const whole = words.join(" ");
	const rank = ({ name }: T): number =>
		plain(name) === whole
			? 0
			: plain(name).startsWith(whole)
				? 1
				: plain(name).startsWith(words[0] ?? "")
					? 2
					: 3;
	return among
		.filter((one) => {
			const own = plain(`${one.name} ${one.id} ${more?.(one) ?? ""}`);
			return words.every((word) => own.includes(word));
		})
		.sort((a, b) => rank(a) - rank(b));
}

function plain(text: string): string {
	return text.normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase();
}

/** A number with steps, sent when it is left or a step is made. */
export function NumberField(props: {
	readonly label: string;
	readonly value: number | undefined;
	readonly onChange: (value: number | undefined) => void;
	readonly least?: number;
	readonly step?: number;
	readonly unit?: string;
}) {
	const { label, value, onChange, least = 0, step = 1, unit } = props;
	const [text, setText] = useState(value === undefined ? "" : String(value));
	useEffect(() => setText(value === undefined ? "" : String(value)), [value]);
	const id = useId();
	const send = (typed: string): void => {
		const number = typed.trim() === "" ? undefined : Number(typed.replace(",", "."));
		if (number !== undefined && (Number.isNaN(number) || number < least))
			setText(value === undefined ? "" : String(value));
		else if (number !== value) onChange(number);
	};
	const by = (amount: number): void => {
		const next = Math.max(least, Math.round(((value ?? 0) + amount) * 100) / 100);
		if (next !== value) onChange(next);
	};
	return (
		<div class="number">
			<label for={id}>{label}</label>
			<span class="steps">
				<button type="button" onClick={() => by(-step)} aria-label={say.less(label)}>
					−
				</button>
				<input
					id={id}
					type="text"
					inputMode="decimal"
					value={text}
					onInput={(event) => setText(event.currentTarget.value)}
					onBlur={(event) => send(event.currentTarget.value)}
					onKeyDown={(event) => {
						if (event.key === "Enter") send(event.currentTarget.value);
					}}
				/>
				<button type="button" onClick={() => by(step)} aria-label={say.more(label)}>
					+
				</button>
			</span>
			{unit !== undefined && <span class="soft">{unit}</span>}
		</div>
	);
}

/** A text that is sent when it is left. */
export function TextField(props: {
	readonly label: string;
	readonly value: string;
	readonly onChange: (value: string) => void;
	readonly long?: boolean;
}) {
	const { label, value, onChange, long = false } = props;
	const [text, setText] = useState(value);
	useEffect(() => setText(value), [value]);
	const id = useId();
	const common = {
		id,
		value: text,
		onBlur: () => {
			if (text.trim() !== value) onChange(text.trim());
		},
	};
	return (
		<div class="text">
			<label for={id}>{label}</label>
			{long ? (
				<textarea rows={3} {...common} onInput={(event) => setText(event.currentTarget.value)} />
			) : (
				<input
					type="text"
					{...common}
					onInput={(event) => setText(event.currentTarget.value)}
					onKeyDown={(event) => {
						if (event.key === "Enter" && text.trim() !== value) onChange(text.trim());
					}}
				/>
			)}
		</div>
	);
}

/** Which of several are meant; none stands for all. */
export function Choices(props: {
	readonly label: string;
	readonly among: readonly Named[];
	readonly chosen: readonly string[];
	readonly onChange: (chosen: readonly string[]) => void;
}) {
	const { label, among, chosen, onChange } = props;
	return (
		<fieldset class="choose">
			<legend>{label}</legend>
			{among.map(({ id, name }) => (
				<label key={id} class="tick">
					<input
						type="checkbox"
						checked={chosen.includes(id)}
						onChange={(event) => {
							const isOn = event.currentTarget.checked;
							onChange(
								among.map((one) => one.id).filter((one) => (one === id ? isOn : chosen.includes(one))),
							);
						}}
					/>
					{name}
				</label>
			))}
		</fieldset>
	);
}

/** A text to be read, which scrolls by mouse and keys. */
export function Reading({ label, text }: { readonly label: string; readonly text: string }) {
	const rows = Math.min(16, text.split("\n").length + 1);
	return <textarea class="reading" readOnly aria-label={label} rows={rows} value={text} />;
}

/** Moves the focus to a part of the page when it comes. */
export function useFocus<T extends HTMLElement>(when: unknown) {
	const ref = useRef<T>(null);
	useEffect(() => {
		if (when !== undefined && when !== false) ref.current?.focus();
	}, [when]);
	return ref;
}
