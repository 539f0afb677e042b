/** Reads a printed PDF for tests, with nothing but pdfjs-dist: the printer's own reader is not trusted here. */

import { getDocument } from "pdfjs-dist/legacy/build/pdf.mjs";

export interface Line {
	readonly text: string;
	/** Points from the left and from the bottom edge, where the text starts. */
	readonly x: number;
	readonly y: number;
	readonly width: number;
	/** Written along the page's edge. */
	readonly turned: boolean;
}

export interface PrintedPage {
	readonly label: string;
	readonly width: number;
	readonly height: number;
	readonly lines: readonly Line[];
	/** All words of the page in one line, single spaces. */
	readonly text: string;
	readonly links: readonly {
		readonly rect: readonly number[];
		readonly dest: string | undefined;
		readonly url: string | undefined;
	}[];
	/** Roles in the page's part of the structure tree. */
	readonly roles: readonly string[];
	/** Alternative texts in it. */
	readonly alternatives: readonly string[];
}

export interface PrintedPdf {
	readonly pages: readonly PrintedPage[];
	/** Page counted from 0 for each named destination. */
	readonly destinations: ReadonlyMap<string, number>;
	readonly outline: readonly {
		readonly title: string;
		readonly dest: unknown;
		readonly kids: readonly string[];
	}[];
	readonly title: unknown;
	readonly language: unknown;
	readonly created: unknown;
}

export async function readPdf(bytes: Uint8Array): Promise<PrintedPdf> {
	const task = getDocument({ data: new Uint8Array(bytes), verbosity: 0, disableFontFace: true });
	const document = await task.promise;
	const labels = (await document.getPageLabels()) ?? [];
	const pages: PrintedPage[] = [];
	for (let number = 1; number <= document.numPages; number++) {
		const page = await document.getPage(number);
		const [, , width = 0, height = 0] = page.view;
		const lines = (await page.getTextContent()).items.flatMap((item) =>
			"str" in item && item.str.trim() !== ""
				? [
						{
							text: item.str,
							x: Number(item.transform[4]),
							y: Number(item.transform[5]),
							width: item.width,
							turned: Number(item.transform[0]) === 0,
						},
					]
				: [],
		);
		const annotations: readonly unknown[] = await page.getAnnotations();
		pages.push({
			label: labels[number - 1] ?? "",
			width,
			height,
			lines,
			text: lines
				.map(({ text }) => text)
				.join(" ")
				.replace(/\s+/g, " "),
			links: annotations.filter(isLink).map(({ rect, dest, url }) => ({
				rect,
				dest: typeof dest === "string" ? dest : undefined,
				url: typeof url === "string" ? url : undefined,
			})),
			roles: rolesOf(await page.getStructTree()),
			alternatives: alternativesOf(await page.getStructTree()),
		});
	}
	const destinations = new Map<string, number>();
	for (const [name, target] of await document.getDestinations()) {
		destinations.set(name, await document.getPageIndex(target[0]));
	}
	const outline = ((await document.getOutline()) ?? []).map(({ title, dest, items }) => ({
		title,
		dest,
		kids: items.map((item: { readonly title: string }) => item.title),
	}));
	const { info } = await document.getMetadata();
	const facts: Readonly<Record<string, unknown>> = { ...info };
	await task.destroy();
	return {
		pages,
		destinations,
		outline,
		title: facts.Title,
		language: facts.Language,
		created: facts.CreationDate,
	};
}

function isLink(
	value: unknown,
): value is { readonly rect: readonly number[]; readonly dest?: unknown; readonly url?: unknown } {
	return (
		typeof value === "object" &&
		value !== null &&
		"subtype" in value &&
		value.subtype === "Link" &&
		"rect" in value
	);
}

function rolesOf(node: unknown): readonly string[] {
	if (typeof node !== "object" || node === null || !("role" in node)) return [];
	const children: unknown = "children" in node ? node.children : [];
	return [String(node.role), ...(Array.isArray(children) ? children.flatMap(rolesOf) : [])];
}

function alternativesOf(node: unknown): readonly string[] {
	if (typeof node !== "object" || node === null) return [];
	const own = "alt" in node && typeof node.alt === "string" ? [node.alt] : [];
	const children: unknown = "children" in node ? node.children : [];
	return [...own, ...(Array.isArray(children) ? children.flatMap(alternativesOf) : [])];
}

/** Letters and figures alone, in small letters. */
export function letters(text: string): string {
	return text
		.normalize("NFKC")
		.toLowerCase()
		.replace(/[^\p{L}\p{N}]/gu, "");
}
