/**
 * The libraries of a club: folders or packages that hold drills, guides, shapes, skills and equipment for
 * many clubs. Each is written like a club's folder, and may itself stand on libraries.
 *
 * What is found is a list of layers, the club's own first: where two have a thing of one id, the one that
 * comes earlier speaks last.
 */

import { basename, isAbsolute, relative, resolve } from "node:path";
import { realPlace } from "../files/folder.ts";
import { givenKind } from "../files/given.ts";
import { packageFor } from "../files/program.ts";
import type { DataKind, Id, PageKind, SourceFile } from "../model.ts";
import { type Problem, problem } from "../problems.ts";
import { ClubReader, type ReadCache } from "../read/read-club.ts";
import { formatProblem } from "../validate/check-format.ts";

/** Federation, region, club, and room for two more: deeper ones are a circle or a mistake. */
const DEEPEST = 5;

/** A library, its pages listed and not read. */
export interface Layer {
	readonly name: string;
	readonly licence?: string;
	readonly dir: string;
	/** All of it is wanted, or these things beside what the club names; as `drill:id`, or an id. */
	readonly take: "all" | readonly string[];
	page(kind: PageKind, id: Id): SourceFile | undefined;
	/** The ids of its pages. */
	pages(kind: PageKind): Iterable<Id>;
	data(kind: DataKind): SourceFile | undefined;
	faults(): readonly Problem[];
}

/** Files of libraries that were read before, by the library's folder. */
export type LayerCaches = Map<string, ReadCache>;

export interface Layers {
	readonly layers: readonly Layer[];
	readonly problems: readonly Problem[];
}

/** What a club file says of a library. */
interface Named {
	readonly from: string;
	readonly take: "all" | readonly string[];
}

/** The libraries that a club stands on, nearest first. */
export function layersOf(clubDir: string, clubFile: SourceFile | undefined, caches: LayerCaches): Layers {
	const layers: Layer[] = [];
	const problems: Problem[] = [];
	const seen = new Set([realPlace(clubDir)]);
	const visit = (dir: string, file: SourceFile | undefined, depth: number): void => {
		for (const [i, { from, take }] of namedIn(file).entries()) {
			const place = file?.place(["libraries", i]) ?? { file: "_data/club.yaml", line: 1, column: 1 };
			const folder = folderOf(dir, from);
			if (folder === undefined) {
				problems.push(problem("H119", place, `There is no library \`${from}\`.`, { fix: adviceFor(from) }));
				continue;
			}
			const real = realPlace(folder);
			// The same library by two ways is there once; one that leads back to itself ends here.
			if (seen.has(real)) continue;
			seen.add(real);
			if (depth > DEEPEST) {
				problems.push(
					problem("H119", place, `\`${from}\` is more than ${DEEPEST} libraries away from this club.`),
				);
				continue;
			}
			const layer = openLayer(real, shownAs(clubDir, real, from), take, caches);
			layers.push(layer);
			const own = layer.data("club");
			const other = own === undefined ? undefined : formatProblem([own]);
			if (other !== undefined) problems.push(other);
			else visit(real, own, depth + 1);
		}
	};
	visit(clubDir, clubFile, 1);
	return { layers, problems };
}

function namedIn(file: SourceFile | undefined): readonly Named[] {
	const data = file?.data;
	if (typeof data !== "object" || data === null || !("libraries" in data)) return [];
	const { libraries } = data;
	if (!Array.isArray(libraries)) return [];
	return libraries.flatMap((one: unknown): readonly Named[] => {
		if (typeof one === "string") return [{ from: one, take: [] }];
		if (typeof one !== "object" || one === null || !("from" in one) || typeof one.from !== "string")
			return [];
		const take = "take" in one ? one.take : [];
		return [{ from: one.from, take: take === "all" ? take : Array.isArray(take) ? take.map(String) : [] }];
	});
}

/** A path starts with a dot or is absolute; everything else is the name of an installed package. */
function isPath(from: string): boolean {
	return from.startsWith(".") || isAbsolute(from);
}

function folderOf(dir: string, from: string): string | undefined {
	if (isPath(from)) {
		const folder = resolve(dir, from);
		return givenKind(folder) === "folder" ? folder : undefined;
	}
	return packageFor(dir, from);
}

function adviceFor(from: string): string {
	return isPath(from)
		? "A folder is named from the club's own folder, such as `../federation`."
		: `A package is installed in the club's folder: \`npm install ${from}\`. A folder is named with a dot at its start, such as \`../federation\`.`;
}

/** The folder as messages name its files: from the club where it lies near it, else by its own name. */
function shownAs(clubDir: string, real: string, from: string): string {
	const way = isPath(from) ? relative(realPlace(clubDir), real).replaceAll("\\", "/") : from;
	return `${way === "" ? basename(real) : way}/`;
}

function openLayer(dir: string, shown: string, take: Named["take"], caches: LayerCaches): Layer {
	const cache = caches.get(dir) ?? new Map();
	caches.set(dir, cache);
	const reader = new ClubReader(dir, cache, undefined, shown);
	const listed = new Map<PageKind, ReadonlyMap<Id, string>>();
	const pagesOf = (kind: PageKind): ReadonlyMap<Id, string> => {
		const known = listed.get(kind) ?? reader.pages(kind);
		listed.set(kind, known);
		return known;
	};
	const read = new Map<string, SourceFile | undefined>();
	const once = (key: string, make: () => void): SourceFile | undefined => {
		if (read.has(key)) return read.get(key);
		const before = reader.files.length;
		make();
		const file = reader.files[before];
		read.set(key, file);
		return file;
	};
	const data = (kind: DataKind): SourceFile | undefined =>
		once(kind, () => {
			const file = [`_data/${kind}.yaml`, `_data/${kind}.yml`].find((one) => reader.has(one));
			if (file !== undefined) reader.readDataFile(kind, file);
		});
	const about = data("club")?.data;
	const said = (field: string): string | undefined => {
		const value: unknown =
			typeof about === "object" && about !== null ? Reflect.get(about, field) : undefined;
		return typeof value === "string" ? value : undefined;
	};
	const licence = said("licence");
	return {
		name: said("name") ?? basename(dir),
		...(licence === undefined ? {} : { licence }),
		dir,
		take,
		page: (kind, id) =>
			once(`${kind}:${id}`, () => {
				const path = pagesOf(kind).get(id);
				if (path !== undefined) reader.readPage(kind, path);
			}),
		pages: (kind) => pagesOf(kind).keys(),
		data,
		faults: () => reader.faults(),
	};
}
