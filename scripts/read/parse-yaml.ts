/**
 * YAML to plain data, fast, in the club's dialect.
 *
 * The dialect is YAML 1.2 without what authors do not need and attackers do: no tags beyond plain
 * text, numbers, true, false and null; no dates (they stay text); no anchors, aliases or merge keys.
 * A number is a number only where its text is the number's usual form; `007`, `0x1f` and `1e3` stay
 * text, so that an id made of figures keeps its figures.
 */

import {
	boolJsonTag,
	defineScalarTag,
	FAILSAFE_SCHEMA,
	load,
	NOT_RESOLVED,
	nullCoreTag,
	YAMLException,
} from "js-yaml";
import { holdsAnchor } from "./explain-yaml.ts";

/** Mappings and sequences inside each other, at most. */
const MAX_DEPTH = 40;

const NUMBER = /^-?(?:0|[1-9][0-9]{0,14})(?:\.[0-9]{1,15})?$|^-?\.[0-9]{1,15}$/;

const numberTag = defineScalarTag<number>("tag:yaml.org,2002:float", {
	implicit: true,
	implicitFirstChars: ["-", ".", "0", "1", "2", "3", "4", "5", "6", "7", "8", "9"],
	resolve: (source) => (NUMBER.test(source) ? Number(source) : NOT_RESOLVED),
	identify: (data) => typeof data === "number",
});

/** What may be an anchor; in quotes or prose it is none. */
const ANCHOR = /(?:^|[\s,[{])&[^\s,[\]{}]/m;

const DIALECT = FAILSAFE_SCHEMA.withTags(nullCoreTag, boolJsonTag, numberTag);

/** Parsed data, or that the text wants a closer look by `explainYaml`. */
export type ParsedYaml = { readonly ok: true; readonly data: unknown } | { readonly ok: false };

/** Parses one YAML document; an empty one is null. */
export function parseYaml(text: string): ParsedYaml {
	if (isBlank(text)) return { ok: true, data: null };
	if (ANCHOR.test(text) && holdsAnchor(text)) return { ok: false };
	try {
		return { ok: true, data: load(text, { schema: DIALECT, maxAliases: 0, maxDepth: MAX_DEPTH }) };
	} catch (error) {
		if (error instanceof YAMLException || error instanceof RangeError) return { ok: false };
		throw error;
	}
}

function isBlank(text: string): boolean {
	return text.split("\n").every((line) => /^\s*(#.*)?$/.test(line));
}
