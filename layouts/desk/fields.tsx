/**
 * Fields made of the schemas. A field takes the value as the file has it and gives the next one; undefined
 * is a field that is not written.
 */

import type { ComponentChildren } from "preact";
import { useEffect, useId, useRef, useState } from "preact/hooks";
import { desk as say } from "../../scripts/words/en.ts";
import type { Field, FieldForm, Named } from "./api.ts";
import { asData, type Data, isData, withField } from "./data.ts";
import { Button, Options, Picker } from "./parts.tsx";
import { desk, sendPicture } from "./talk.ts";

interface ValueProps<F = FieldForm> {
	readonly form: F;
	readonly label: string;
	readonly value: unknown;
	readonly onChange: (value: unknown) => void;
	readonly describedBy?: string | undefined;
}
type Of<Is extends FieldForm["is"]> = ValueProps<Extract<FieldForm, { readonly is: Is }>>;

/** All fields of a thing; those that are written first open. */
export function Fields(props: {
	readonly fields: readonly Field[];
	readonly value: Data;
	readonly onChange: (value: Data) => void;
	/** Instead of some fields, by name. */
	readonly own?: Readonly<Record<string, (field: Field) => ComponentChildren>>;
}) {
	const { fields, value, onChange, own = {} } = props;
	return (
		<>
			{fields.map((field) => {
				const special = own[field.name];
				if (special !== undefined) return <div key={field.name}>{special(field)}</div>;
				return (
					<OneField
						key={field.name}
						field={field}
						value={value[field.name]}
						onChange={(next) => onChange(withField(value, field.name, next))}
					/>
				);
			})}
		</>
	);
}

const SMALL: ReadonlySet<FieldForm["is"]> = new Set(["text", "number", "yes", "choice", "id", "pair"]);

function OneField(props: {
	readonly field: Field;
	readonly value: unknown;
	readonly onChange: (value: unknown) => void;
}) {
	const { field, value, onChange } = props;
	const help = useId();
	const label = field.required ? `${field.label} ${say.requiredMark}` : field.label;
	const inner = (
		<>
			<Value form={field.form} label={field.label} value={value} onChange={onChange} describedBy={help} />
			<p class="help" id={help}>
				{field.help}
			</p>
		</>
	);
	if (SMALL.has(field.form.is))
		return (
			<div class="field" data-field={field.name}>
				<span class="label" aria-hidden="true">
					{label}
				</span>
				{inner}
			</div>
		);
	return (
		<fieldset class="field" data-field={field.name}>
			<legend>{label}</legend>
			{inner}
		</fieldset>
	);
}

function Value(props: ValueProps) {
	const { form } = props;
	switch (form.is) {
		case "text":
			return <TextValue {...props} form={form} />;
		case "number":
			return <NumberValue {...props} />;
		case "yes":
			return (
				<Select
					{...props}
					among={[
						{ id: "true", name: say.yes },
						{ id: "false", name: say.no },
					]}
					value={props.value === undefined ? undefined : String(props.value)}
					onChange={(next) => props.onChange(next === undefined ? undefined : next === "true")}
				/>
			);
		case "choice":
			return <Select {...props} among={form.of} />;
		case "id":
			return <IdsValue {...props} kinds={form.kinds} single />;
		case "ids":
			return <IdsValue {...props} kinds={form.kinds} oneAlone={form.oneAlone} />;
		case "pair":
			return <PairValue {...props} form={form} />;
		case "list":
			return <ListValue {...props} form={form} />;
		case "group":
			return (
				<div class="group">
					<Fields
						fields={form.fields}
						value={asData(props.value)}
						onChange={(next) => props.onChange(orNone(next))}
					/>
				</div>
			);
		case "map":
			return <MapValue {...props} form={form} />;
		default:
			return <EitherValue {...props} form={form} />;
	}
}

function TextValue({ form, label, value, onChange, describedBy }: Of<"text">) {
	const text = typeof value === "string" || typeof value === "number" ? String(value) : "";
	const common = {
		value: text,
		"aria-label": label,
		"aria-describedby": describedBy,
		onInput: (event: { currentTarget: { value: string } }) => {
			const next = event.currentTarget.value;
			onChange(next === "" ? undefined : next);
		},
	};
	if (label === say.fieldNames.file)
		return (
			<PictureValue label={label} onChange={onChange}>
				<input type="text" {...common} />
			</PictureValue>
		);
	if (form.long) return <textarea rows={2} {...common} />;
	if (form.format === "date") return <input type="date" {...common} />;
	if (form.format === "clock") return <input type="time" {...common} />;
	return <input type="text" {...common} />;
}

/** Around the name of a picture: a file can be dropped on it or chosen. */
function PictureValue(
	props: Pick<ValueProps, "label" | "onChange"> & { readonly children: ComponentChildren },
) {
	const { label, onChange, children } = props;
	const [fault, setFault] = useState("");
	const take = async (file: File | null | undefined): Promise<void> => {
		if (file === null || file === undefined) return;
		const [, stem = "picture", ending = "jpg"] = /^(.*)\.([^.]+)$/.exec(file.name) ?? [];
		const plain = stem
			.normalize("NFKD")
			.toLowerCase()
			.replace(/[^a-z0-9]+/g, "-")
			.replace(/^-|-$/g, "");
		try {
			onChange(await sendPicture(`${plain === "" ? "picture" : plain}.${ending.toLowerCase()}`, file));
			setFault("");
		} catch (error) {
			setFault(error instanceof Error ? error.message : String(error));
		}
	};
	return (
		<fieldset
			class="drop"
			aria-label={label}
			onDragOver={(event) => event.preventDefault()}
			onDrop={(event) => {
				event.preventDefault();
				take(event.dataTransfer?.files[0]);
			}}
		>
			{children}
			<label class="button">
				{say.choosePicture}
				<input
					type="file"
					class="sr"
					accept="image/*"
					onChange={(event) => take(event.currentTarget.files?.[0])}
				/>
			</label>
			{fault !== "" && <p role="alert">{fault}</p>}
		</fieldset>
	);
}

function NumberValue({ label, value, onChange, describedBy }: ValueProps) {
	const [text, setText] = useState(value === undefined ? "" : String(value));
	const sent = useRef(value);
	useEffect(() => {
		if (sent.current !== value) setText(value === undefined ? "" : String(value));
		sent.current = value;
	}, [value]);
	return (
		<input
			type="text"
			inputMode="decimal"
			class="short"
			aria-label={label}
			aria-describedby={describedBy}
			value={text}
			onInput={(event) => {
				const typed = event.currentTarget.value;
				setText(typed);
				const number = Number(typed.replace(",", "."));
				// What is no number is kept as it is typed: the problems say what is wrong.
				const next = typed.trim() === "" ? undefined : Number.isNaN(number) ? typed : number;
				sent.current = next;
				onChange(next);
			}}
		/>
	);
}

function Select(props: Omit<ValueProps, "form"> & { readonly among: readonly Named[] }) {
	const { label, among, value, onChange, describedBy } = props;
	const text = typeof value === "string" ? value : "";
	return (
		<select
			aria-label={label}
			aria-describedby={describedBy}
			value={text}
			onChange={(event) => onChange(event.currentTarget.value === "" ? undefined : event.currentTarget.value)}
		>
			<option value="">{say.notSaid}</option>
			<Options among={among} />
			{text !== "" && !among.some(({ id }) => id === text) && <option value={text}>{text}</option>}
		</select>
	);
}

function IdsValue(
	props: ValueProps & {
		readonly kinds: readonly string[];
		readonly single?: boolean;
		readonly oneAlone?: boolean;
	},
) {
	const { label, value, onChange, kinds, single = false, oneAlone = false, describedBy } = props;
	const { names } = desk();
	const all = kinds.flatMap((kind) => names[kind] ?? []);
	const chosen = (Array.isArray(value) ? value : value === undefined ? [] : [value]).map(String);
	const nameOf = (id: string) => all.find((one) => one.id === id)?.name ?? id;
	const give = (ids: readonly string[]): void =>
		onChange(ids.length === 0 ? undefined : single || (oneAlone && ids.length === 1) ? ids[0] : ids);
	return (
		<div class="ids">
			<ul class="chips">
				{chosen.map((id, i) => (
					<li key={`${id}-${i}`}>
						{nameOf(id)}
						<TakeOut name={nameOf(id)} onClick={() => give(chosen.toSpliced(i, 1))} />
					</li>
				))}
			</ul>
			{(!single || chosen.length === 0) && (
				<Picker
					label={label}
					placeholder={say.pick}
					among={all.filter(({ id }) => !chosen.includes(id))}
					onPick={(id) => give(single ? [id] : [...chosen, id])}
					{...(describedBy === undefined ? {} : { describedBy })}
				/>
			)}
		</div>
	);
}

function PairValue({ form, label, value, onChange, describedBy }: Of<"pair">) {
	const both: readonly unknown[] = Array.isArray(value) ? [value[0], value[1]] : [undefined, undefined];
	const give = ([a, b]: readonly unknown[]): void =>
		onChange(a === undefined && b === undefined ? undefined : [a ?? 0, b ?? a ?? 0]);
	return (
		<span class="row">
			{both.map((one, i) => (
				<Value
					key={`${label} ${i + 1}`}
					form={form.of}
					label={`${label} ${i + 1}`}
					value={one}
					onChange={(next) => give(both.with(i, next))}
					describedBy={describedBy}
				/>
			))}
		</span>
	);
}

function ListValue({ form, label, value, onChange, describedBy }: Of<"list">) {
	const items: readonly unknown[] = Array.isArray(value) ? value : [];
	const give = (list: readonly unknown[]): void => onChange(list.length === 0 ? undefined : list);
	const isBig = !SMALL.has(form.of.is);
	return (
		<div class="list">
			<ol>
				{items.map((item, i) => (
					// Items have no names of their own.
					<li key={`${i}-${items.length}`} class={isBig ? "big" : ""}>
						{isBig && Boolean(nameOfItem(item)) && <p class="item-name">{nameOfItem(item)}</p>}
						<Value
							form={form.of}
							label={`${label} ${i + 1}`}
							value={item}
							onChange={(next) => give(items.with(i, next ?? emptyOf(form.of)))}
							describedBy={describedBy}
						/>
						<span class="row">
							{i > 0 && (
								<Button
									kind="quiet"
									label={say.earlierItem(label, i + 1)}
									onClick={() => give(items.toSpliced(i - 1, 2, item, items[i - 1]))}
								>
									↑
								</Button>
							)}
							<TakeOut name={`${label} ${i + 1}`} quiet onClick={() => give(items.toSpliced(i, 1))} />
						</span>
					</li>
				))}
			</ol>
			<Button label={say.addTo(label)} onClick={() => give([...items, emptyOf(form.of)])}>
				<span aria-hidden="true">+</span> {say.add}
			</Button>
		</div>
	);
}

function TakeOut(props: { readonly name: string; readonly quiet?: boolean; readonly onClick: () => void }) {
	const { name, quiet = false, onClick } = props;
	return (
		<button
			type="button"
			class={quiet ? "button quiet" : ""}
			aria-label={say.takeOut(name)}
			onClick={onClick}
		>
			×
		</button>
	);
}

function nameOfItem(item: unknown): string {
	const { name, id, see, file } = asData(item);
	return String(name ?? id ?? see ?? file ?? "");
}

function MapValue({ form, label, value, onChange }: Of<"map">) {
	const { names } = desk();
	const [typed, setTyped] = useState("");
	const map = asData(value);
	const all = form.kinds.flatMap((kind) => names[kind] ?? []);
	const nameOf = (id: string) => all.find((one) => one.id === id)?.name ?? id;
	const add = (id: string): void => onChange({ ...map, [id]: emptyOf(form.of) });
	return (
		<div class="map">
			<ul>
				{Object.entries(map).map(([id, own]) => (
					<li key={id}>
						<span class="key">{nameOf(id)}</span>
						<Value
							form={form.of}
							label={`${label}: ${nameOf(id)}`}
							value={own}
							onChange={(next) => onChange({ ...map, [id]: next ?? emptyOf(form.of) })}
						/>
						<TakeOut
							name={nameOf(id)}
							quiet
							onClick={() => onChange(orNone(withField(map, id, undefined)))}
						/>
					</li>
				))}
			</ul>
			{form.kinds.length > 0 ? (
				<Picker
					label={say.addTo(label)}
					placeholder={say.pick}
					among={all.filter(({ id }) => !(id in map))}
					onPick={add}
				/>
			) : (
				<span class="row">
					<input
						type="text"
						aria-label={say.nameIn(label)}
						value={typed}
						onInput={(event) => setTyped(event.currentTarget.value)}
					/>
					<Button
						onClick={() => {
							if (typed.trim() !== "") add(typed.trim());
							setTyped("");
						}}
					>
						<span aria-hidden="true">+</span> {say.add}
					</Button>
				</span>
			)}
		</div>
	);
}

function EitherValue({ form, label, value, onChange, describedBy }: Of<"either">) {
	const found = form.forms.findIndex((one) => isOf(one, value));
	const [chosen, setChosen] = useState(0);
	const at = value === undefined ? chosen : Math.max(0, found);
	const one = form.forms[at];
	return (
		<div class="either">
			<fieldset class="row" aria-label={say.formOf(label)}>
				{form.forms.map((other, i) => (
					<Button
						key={other.is}
						kind="quiet"
						pressed={i === at}
						onClick={() => {
							setChosen(i);
							if (i !== at) onChange(converted(value, other));
						}}
					>
						{say.formNames[other.is]}
					</Button>
				))}
			</fieldset>
			{one !== undefined && (
				<Value form={one} label={label} value={value} onChange={onChange} describedBy={describedBy} />
			)}
		</div>
	);
}

/** Ids of a list stay as the keys of a map, and the other way round; anything else begins anew. */
function converted(value: unknown, form: FieldForm): unknown {
	if (form.is === "map" && Array.isArray(value))
		return Object.fromEntries(value.map((id) => [String(id), emptyOf(form.of)]));
	if (form.is === "ids" && !Array.isArray(value)) {
		const ids = Object.keys(asData(value));
		return ids.length === 0 ? undefined : ids;
	}
	if (form.is === "group" && typeof value === "number") return { count: value };
	if (form.is === "number" && typeof asData(value).count === "number") return asData(value).count;
	if (form.is === "group" && typeof value === "string") {
		const [first] = form.fields;
		return first === undefined ? {} : { [first.name]: value };
	}
	return undefined;
}

function isOf(form: FieldForm, value: unknown): boolean {
	switch (form.is) {
		case "text":
		case "choice":
			return typeof value === "string";
		case "id":
			return typeof value === "string" || typeof value === "number";
		case "number":
			return typeof value === "number";
		case "yes":
			return typeof value === "boolean";
		case "ids":
		case "list":
		case "pair":
			return Array.isArray(value) || (form.is === "ids" && form.oneAlone && typeof value === "string");
		case "group": {
			const names = Object.keys(asData(value));
			return isData(value) && names.every((name) => form.fields.some((field) => field.name === name));
		}
		case "map":
			return isData(value);
		default:
			return form.forms.some((one) => isOf(one, value));
	}
}

/** What an item begins as. */
function emptyOf(form: FieldForm): unknown {
	if (form.is === "number") return form.whole ? Math.max(1, form.least ?? 1) : (form.least ?? 0);
	if (form.is === "group" || form.is === "map") return {};
	if (form.is === "ids" || form.is === "list") return [];
	if (form.is === "yes") return true;
	if (form.is === "choice") return form.of[0]?.id ?? "";
	if (form.is === "either") return emptyOf(form.forms[0] ?? { is: "text", long: false });
	return "";
}

function orNone(data: Data): Data | undefined {
	return Object.keys(data).length === 0 ? undefined : data;
}
