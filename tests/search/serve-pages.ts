/**
 * Serves pages of the demo club's site from memory, with the policy that a careful host sends: enough
 * of the site to try a page in a browser without building all of it.
 */

import { readFileSync } from "node:fs";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { join } from "node:path";
import { brotliCompressSync } from "node:zlib";
import { build } from "esbuild";
import { sitePages } from "../../layouts/pages/site-pages.ts";
import { documentOf } from "../../layouts/parts/frame.ts";
import type { Handbook } from "../../scripts/handbook.ts";
import { searchFiles } from "../../scripts/search/build-search.ts";
import { browserWords } from "../../scripts/site/browser-words.ts";
import { html } from "../../scripts/views/html.ts";
import { REPOSITORY } from "../open-fixture.ts";

const POLICY =
	"default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; font-src 'self'; connect-src 'self'; " +
	"manifest-src 'self'; worker-src 'self'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'; require-trusted-types-for 'script'";

const TYPES: Readonly<Record<string, string>> = {
	html: "text/html; charset=utf-8",
	js: "text/javascript; charset=utf-8",
	css: "text/css; charset=utf-8",
	json: "application/json",
	woff2: "font/woff2",
};

const PACKAGE = "node_modules/@fontsource-variable/atkinson-hyperlegible-next/files";
const FONTS = [
	["assets/text-latin.woff2", `${PACKAGE}/atkinson-hyperlegible-next-latin-wght-normal.woff2`],
	["assets/text-latin-ext.woff2", `${PACKAGE}/atkinson-hyperlegible-next-latin-ext-wght-normal.woff2`],
] as const;

export interface ServedPages {
	/** Ends in a slash. */
	readonly url: string;
	close(): Promise<void>;
}

export interface ServeOptions {
	/** Files in place of the handbook's own, by path from the root of the site. */
	readonly files?: readonly { readonly path: string; readonly text: string }[];
	/** As a host sends them: programs and styles minified, everything compressed, fonts there. */
	readonly likeHost?: boolean;
}

export async function servePages(
	handbook: Handbook,
	{ files: others = [], likeHost = false }: ServeOptions = {},
): Promise<ServedPages> {
	const pages = new Map(sitePages(handbook).map((page) => [page.address, page]));
	const files = new Map<string, string | Uint8Array>(
		[...searchFiles(handbook), ...others].map(({ path, text }) => [path, text]),
	);
	for (const [name, path] of FONTS) files.set(name, readFileSync(join(REPOSITORY, path)));
	const bundle = await build({
		entryPoints: [
			...["search", "theme"].map((name) => join(REPOSITORY, `layouts/browser/${name}.ts`)),
			...["site", "search"].map((name) => join(REPOSITORY, `layouts/styles/${name}.css`)),
		],
		outdir: "assets",
		bundle: true,
		minify: likeHost,
		format: "iife",
		external: ["*.woff2"],
		plugins: [browserWords(handbook.words)],
		write: false,
		logLevel: "silent",
	});
	for (const { path, text } of bundle.outputFiles) files.set(`assets/${path.split(/[\\/]/).at(-1)}`, text);

	const kept = new Map<string, Uint8Array>();
	const packed = (text: string) => {
		const before = kept.get(text);
		if (before !== undefined) return before;
		const bytes = brotliCompressSync(text);
		kept.set(text, bytes);
		return bytes;
	};
	// What takes long is done before anybody waits for an answer: a large index is seconds of work.
	if (likeHost) for (const text of files.values()) if (typeof text === "string") packed(text);
	const server = createServer((request, response) => {
		const address = decodeURIComponent(new URL(request.url ?? "", "http://here").pathname.slice(1));
		const page = pages.get(address);
		const text =
			page === undefined ? files.get(address) : documentOf(page, (_, code) => html`<pre>${code}</pre>`);
		const type = TYPES[page === undefined ? (address.split(".").at(-1) ?? "") : "html"] ?? "text/plain";
		const isText = typeof text === "string";
		response.writeHead(text === undefined ? 404 : 200, {
			"Content-Type": type,
			"Content-Security-Policy": POLICY,
			// What does not change is fetched once, where it is not measured.
			...(likeHost ? {} : { "Cache-Control": "max-age=3600" }),
			...(likeHost && isText ? { "Content-Encoding": "br" } : {}),
		});
		response.end(likeHost && isText ? packed(text) : (text ?? ""));
	});
	await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
	return {
		url: `http://127.0.0.1:${(server.address() as AddressInfo).port}/`,
		close: () => new Promise((resolve) => server.close(() => resolve())),
	};
}
