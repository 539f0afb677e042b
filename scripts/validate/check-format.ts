/**
 * The version of the authoring format that a folder is written in, `format` in _data/club.yaml.
 *
 * A folder that does not say is read as the present one. Another one is refused as a whole, with the one
 * command that mends it: judged by these schemas, its fields would give a hundred messages that mislead.
 */

import type { SourceFile } from "../model.ts";
import { type Problem, problem } from "../problems.ts";

/** The format that this program reads. Raise it with a step in scripts/commands/upgrade.ts. */
export const FORMAT = 1;

/** How whoever has the program as a folder gets a newer one. */
export const GET_NEWEST =
	"Get the newest version of this program as you got this one (download it again, or `git pull`), then run `npm ci` in its folder";

/** What is wrong with the folder's format; undefined where it is the present one or none is said. */
export function formatProblem(files: readonly SourceFile[]): Problem | undefined {
	const club = files.find(({ kind }) => kind === "club");
	const data = club?.data;
	if (club === undefined || typeof data !== "object" || data === null || !("format" in data))
		return undefined;
	const { format } = data;
	// Anything but a whole number is for the schema to say.
	if (typeof format !== "number" || !Number.isInteger(format) || format < 0 || format === FORMAT)
		return undefined;
	const place = club.place(["format"]);
	return format < FORMAT
		? problem(
				"H117",
				place,
				`The folder is written in format ${format}; this program reads format ${FORMAT}.`,
			)
		: problem(
				"H117",
				place,
				`The folder is written in format ${format}; this program knows formats up to ${FORMAT}.`,
				{
					fix: `${GET_NEWEST}.`,
				},
			);
}
