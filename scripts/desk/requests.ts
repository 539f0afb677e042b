/** What the page asks for, judged by its schema before anything is done with it. */

import { Ajv, type ValidateFunction } from "ajv";
import type { TaskNews } from "../../layouts/desk/api.ts";
import type { FileKind, Id, PlanChange } from "../model.ts";
import type { SheetKind } from "../views/sheets/sheet.ts";
import schema from "./requests.schema.json" with { type: "json" };

/** What each route is sent. */
export interface Requests {
	readonly plan: {
		readonly revision: string;
		readonly what: string;
		readonly changes: readonly PlanChange[];
	};
	readonly try: { readonly changes: readonly PlanChange[] };
	readonly weeks: {
		readonly revision: string;
		readonly what: string;
		readonly from: number;
		readonly to: number;
		readonly swap: boolean;
	};
	readonly "new-week": {
		readonly revision: string;
		readonly what: string;
		readonly week: number;
		readonly theme: string;
		readonly areas?: readonly Id[];
		/** The week whose plan is copied. */
		readonly like?: number;
	};
	readonly none: Readonly<Record<string, never>>;
	readonly mends: { readonly key: string };
	readonly accept: {
		readonly revision: string;
		readonly what: string;
		readonly key: string;
		readonly reason: string;
		readonly until?: string;
	};
	readonly solve: { readonly week: number };
	readonly check: {
		readonly path: string;
		/** The text in which the data stands. */
		readonly before?: string;
		readonly text?: string;
		readonly data?: unknown;
		readonly body?: string;
	};
	readonly save: {
		readonly path: string;
		readonly base: string | null;
		readonly text: string;
		readonly what: string;
	};
	readonly name: { readonly kind: FileKind; readonly name: string; readonly area?: Id };
	readonly draft: { readonly path: string; readonly base: string | null; readonly text: string };
	readonly "drop-draft": { readonly path: string };
	readonly rename: {
		readonly kind:
			| "drill"
			| "skill"
			| "shape"
			| "apparatus"
			| "level"
			| "week"
			| "equipment"
			| "guide"
			| "class"
			| "purpose";
		readonly from: Id;
		readonly to: Id;
		readonly what: string;
	};
	readonly replace: {
		readonly revision: string;
		readonly drill: Id;
		readonly by: Id;
		readonly what: string;
	};
	readonly "try-merge": { readonly drill: Id; readonly into: Id };
	readonly merge: {
		readonly revision: string;
		readonly drill: Id;
		readonly into: Id;
		readonly what: string;
	};
	readonly "try-taught": { readonly texts: readonly string[] };
	readonly taught: { readonly revision: string; readonly texts: readonly string[]; readonly what: string };
	readonly retire: { readonly path: string; readonly index?: number; readonly what: string };
	readonly run:
		| { readonly task: "build" | "print" }
		/** `since`: an edition that was printed, as a file of the output. */
		| { readonly task: "packet"; readonly since: string }
		| {
				readonly task: "sheets";
				readonly sheets: SheetKind;
				readonly week?: number;
				readonly class?: Id;
		  };
	readonly stop: { readonly task: TaskNews["task"] };
}

const validators = new Map<string, ValidateFunction>();
let ajv: Ajv | undefined;

/** The request, or what is wrong with it. */
export function judged<Name extends keyof Requests>(
	name: Name,
	sent: unknown,
): { readonly request: Requests[Name] } | { readonly fault: string } {
	ajv ??= new Ajv({ strict: false }).addSchema(schema);
	let validate = validators.get(name);
	if (validate === undefined) {
		validate = ajv.compile({ $ref: `desk-requests.schema.json#/definitions/${name}` });
		validators.set(name, validate);
	}
	if (validate(sent)) return { request: sent as Requests[Name] };
	const [error] = validate.errors ?? [];
	return { fault: `${error?.instancePath ?? ""} ${error?.message ?? "is not what was asked for"}`.trim() };
}
