/**
 * What the page may ask for, judged before anything is done with it. Each request is said once: as a JSON
 * Schema, from which its type follows.
 */

import { Ajv, type ValidateFunction } from "ajv";
import { ID_KINDS } from "../link/reference-fields.ts";
import { FILES_OF_THINGS, type PlanChange } from "../model.ts";
import { SHEET_KINDS } from "../views/sheets/sheet.ts";

declare const PASSES: unique symbol;
/** A JSON Schema, with the type of what passes it. */
interface Form<T> {
	readonly [PASSES]?: T;
}
type Forms = Readonly<Record<string, Form<unknown>>>;
type Passing<F> = F extends Form<infer T> ? T : never;

function form<T>(schema: object): Form<T> {
	return schema as Form<T>;
}

function text(limits: object): Form<string> {
	return form({ type: "string", ...limits });
}

function whole(minimum: number, maximum: number): Form<number> {
	return form({ type: "integer", minimum, maximum });
}

function list<T>(items: Form<T>, minItems: number, maxItems: number): Form<readonly T[]> {
	return form({ type: "array", items, minItems, maxItems });
}

function pair<T>(items: Form<T>): Form<readonly [T, T]> {
	return form({ type: "array", items, minItems: 2, maxItems: 2 });
}

function oneOf<const T extends readonly string[]>(...names: T): Form<T[number]> {
	return form({ enum: names });
}

function either<F extends readonly Form<unknown>[]>(...forms: F): Form<Passing<F[number]>> {
	return form({ anyOf: forms });
}

/** An object with all of these fields, some of those, and no others. */
function fields<R extends Forms, O extends Forms = Record<never, never>>(required: R, optional?: O) {
	return form<
		{ readonly [Name in keyof R]: Passing<R[Name]> } & { readonly [Name in keyof O]?: Passing<O[Name]> }
	>({
		type: "object",
		additionalProperties: false,
		required: Object.keys(required),
		properties: { ...required, ...optional },
	});
}

const none = form<null>({ type: "null" });
const yesOrNo = form<boolean>({ type: "boolean" });
const revision = text({ pattern: "^[0-9a-f]{64}$" });
const what = text({ minLength: 1, maxLength: 300 });
const key = text({ minLength: 1, maxLength: 2000 });
const id = text({ pattern: "^[a-z0-9]+(-[a-z0-9]+)*$", maxLength: 100 });
/** week/area/number */
const place = text({ pattern: "^[0-9]{1,3}/[a-z0-9-]+/[0-9]{1,4}$", maxLength: 120 });
const path = text({
	pattern: "^(_data/[a-z]+\\.ya?ml|content/(drills(/[^/\\\\]+)?|weeks|guides)/[^/\\\\]+\\.md)$",
	not: { pattern: "(^|/)\\.\\.?(/|$)" },
	maxLength: 300,
});
/** Of a file as it was opened; null where there was none. */
const base = form<string | null>({ type: ["string", "null"], pattern: "^[0-9a-f]{64}$" });
const fileText = text({ maxLength: 1_000_000 });
const note = { maxLength: 2000 };
const week = whole(1, 60);
const station = whole(1, 100);
const number = form<number>({ type: "number", minimum: 0, maximum: 1_000_000 });

const dose = fields({}, { sets: number, reps: number, hold: number });
const stations = either(
	list(
		fields(
			{ drill: id },
			{
				note: text(note),
				at: either(pair(form({ type: "number" })), text({ maxLength: 200 })),
			},
		),
		0,
		100,
	),
	none,
);
const minutes = form({ type: "number", minimum: 0, maximum: 1440 });
/** What a block says besides its minutes; null takes it away. */
const ofBlock = {
	drill: either(id, none),
	stations,
	options: stations,
	choose: form({ type: ["integer", "null"], minimum: 1, maximum: 100 }),
	show: form({ type: ["number", "null"], minimum: 0, maximum: 1440 }),
	change: form({ type: ["number", "null"], minimum: 0, maximum: 60 }),
	levels: either(id, list(id, 0, 100), none),
	session: either(form({ type: "integer" }), list(form({ type: "integer" }), 0, 14), none),
	dose: either(dose, form({ type: "object", additionalProperties: dose }), none),
	keep: form({ type: ["boolean", "null"] }),
	note: form({ type: ["string", "null"], ...note }),
};
/** One entry of a change list. */
const change = form<PlanChange>({
	...fields(
		{},
		{
			add: fields({ week, apparatus: id, block: fields({ minutes }, ofBlock) }, { at: whole(1, 10_000) }),
			remove: place,
			move: fields({ from: place, to: place }),
			set: fields({ block: place }, { minutes, ...ofBlock }),
			swap: fields({ block: place, drill: id }, { station }),
			exchange: either(pair(place), pair(week)),
			split: fields({ block: place, after: station, minutes: pair(number) }),
		},
	),
	minProperties: 1,
	maxProperties: 1,
});
const changes = list(change, 1, 500);
const texts = list(fileText, 1, 1000);

/** An edition that was printed, as a file of the output. */
const since = oneOf("print/binder.edition.json", "print/update-packet.edition.json");

/** What each route is sent. */
const REQUESTS = {
	none: fields({}),
	plan: fields({ revision, what, changes }),
	try: fields({ changes }),
	weeks: fields({ revision, what, from: week, to: week, swap: yesOrNo }),
	// `like`: the week whose plan is copied.
	"new-week": fields({ revision, what, week, theme: what }, { areas: list(id, 0, 100), like: week }),
	mends: fields({ key }),
	accept: fields(
		{ revision, what, key, reason: text({ minLength: 1, maxLength: 1000, pattern: "\\S" }) },
		{ until: text({ pattern: "^\\d{4}-\\d\\d-\\d\\d$" }) },
	),
	solve: fields({ week }),
	// `before`: the text in which the data stands.
	check: fields({ path }, { before: fileText, text: fileText, data: form({}), body: fileText }),
	save: fields({ path, base, text: fileText, what }),
	name: fields(
		{
			kind: oneOf(...FILES_OF_THINGS),
			name: what,
		},
		{ area: id },
	),
	draft: fields({ path, base, text: fileText }),
	"drop-draft": fields({ path }),
	rename: fields({ kind: oneOf(...ID_KINDS), from: id, to: id, what }),
	replace: fields({ revision, drill: id, by: id, what }),
	"try-merge": fields({ drill: id, into: id }),
	merge: fields({ revision, drill: id, into: id, what }),
	"try-taught": fields({ texts }),
	taught: fields({ revision, texts, what }),
	retire: fields({ path, what }, { index: whole(0, 100_000) }),
	run: either(
		fields({ task: oneOf("build", "print") }),
		fields({ task: oneOf("packet"), since }),
		fields({ task: oneOf("sheets"), sheets: oneOf(...SHEET_KINDS) }, { week, class: id }),
	),
	stop: fields({ task: oneOf("build", "print", "packet", "sheets", "solve") }),
};

export type Requests = { readonly [Name in keyof typeof REQUESTS]: Passing<(typeof REQUESTS)[Name]> };

const validators = new Map<string, ValidateFunction>();
let ajv: Ajv | undefined;

/** The request, or what is wrong with it. */
export function judged<Name extends keyof Requests>(
	name: Name,
	sent: unknown,
): { readonly request: Requests[Name] } | { readonly fault: string } {
	ajv ??= new Ajv({ strict: false });
	const validate = validators.get(name) ?? ajv.compile(REQUESTS[name]);
	validators.set(name, validate);
	if (validate(sent)) return { request: sent as Requests[Name] };
	const [error] = validate.errors ?? [];
	return { fault: `${error?.instancePath ?? ""} ${error?.message ?? "is not what was asked for"}`.trim() };
}
