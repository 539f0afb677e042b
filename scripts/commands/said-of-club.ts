/** What a club's own file says, read for itself: where the folder has errors, and for commands that do not open it. */

import { basename, resolve } from "node:path";
import { parseYaml } from "../read/parse-yaml.ts";
import { textInClub } from "../read/read-club.ts";

/** A text field of `_data/club.yaml`; undefined where it is not there or the file cannot be read. */
export function saidOfClub(clubDir: string, field: "name" | "language"): string | undefined {
	const text = ["club.yaml", "club.yml"]
		.map((name) => textInClub(clubDir, `_data/${name}`))
		.find((found) => found !== undefined);
	const read = text === undefined ? undefined : parseYaml(text.replace(/\r\n?/g, "\n"));
	const data = read?.ok ? read.data : undefined;
	if (typeof data !== "object" || data === null) return undefined;
	const said = (data as Readonly<Record<string, unknown>>)[field];
	return typeof said === "string" && said.trim() !== "" ? said : undefined;
}

/** "Hilltop Gymnastics Club, in /home/kim/hilltop": which club a command worked on, and where it lies. */
export function clubAndFolder(
	clubDir: string,
	name: string | undefined = saidOfClub(clubDir, "name"),
): string {
	const folder = resolve(clubDir);
	return `${visible(name ?? basename(folder))}, in ${visible(folder)}`;
}

/** On one line, without characters that would steer the terminal. */
function visible(text: string): string {
	return text.replace(/[\p{Cc}\u202a-\u202e\u2066-\u2069]/gu, "\ufffd");
}
