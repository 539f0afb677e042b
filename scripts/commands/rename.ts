/** `rename`: another id for a thing, everywhere. */

import { EditRefused } from "../edit/move-block.ts";
import { knownIds } from "../edit/references.ts";
import { renameIds } from "../edit/rename-ids.ts";
import { ID_KINDS, type IdKind } from "../link/reference-fields.ts";
import { nearestName } from "../read/nearest-name.ts";
import { ID_PATTERN, isPortable } from "../validate/schemas.ts";
import { editClub } from "./edit-club.ts";
import type { Run } from "./run.ts";

/** @param thing an id, or `kind:id` where things of several kinds have it */
export function rename(
	run: Run,
	{ thing, to, write }: { readonly thing: string; readonly to: string; readonly write: boolean },
): number {
	return editClub(run, { what: `rename ${thing} ${to}`, write }, (texts) => {
		if (!isPortable(to)) {
			throw new EditRefused(
				`\`${to}\` cannot be an id: some systems keep that name for a device, and have no file of it.`,
			);
		}
		if (!ID_PATTERN.test(to)) {
			throw new EditRefused(
				`\`${to}\` cannot be an id: lower-case letters and digits in words joined by hyphens.`,
			);
		}
		const known = knownIds(texts);
		const [before, after] = thing.includes(":") ? thing.split(":") : [undefined, thing];
		const id = after ?? "";
		if (before !== undefined && !(ID_KINDS as readonly string[]).includes(before)) {
			const near = nearestName(before, ID_KINDS);
			throw new EditRefused(
				`\`${before}\` is no kind of thing${near === undefined ? "" : `; did you mean \`${near}\`?`} There are ${ID_KINDS.join(", ")}.`,
			);
		}
		const kinds = ID_KINDS.filter((kind) => (before ?? kind) === kind && known.get(kind)?.has(id) === true);
		const [kind] = kinds;
		if (kind === undefined) {
			const all = new Set(
				ID_KINDS.flatMap((one) => ((before ?? one) === one ? [...(known.get(one) ?? [])] : [])),
			);
			const near = nearestName(id, all);
			throw new EditRefused(
				`Nothing has the id \`${id}\`.${near === undefined ? "" : ` Did you mean \`${near}\`?`}`,
			);
		}
		if (kinds.length > 1) {
			throw new EditRefused(
				`Several things have the id \`${id}\`. Say which: ${kinds.map((one: IdKind) => `${one}:${id}`).join(", ")}.`,
			);
		}
		if (known.get(kind)?.has(to) === true) throw new EditRefused(`There is a ${kind} \`${to}\` already.`);
		return renameIds(texts, [{ kind, from: id, to }]);
	});
}
