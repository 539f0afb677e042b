/** Reads the SVG text of charts strictly, as an XML parser would, so that a test can look at what was drawn. */

export interface Element {
	readonly name: string;
	readonly attributes: ReadonlyMap<string, string>;
	readonly children: readonly (Element | string)[];
}

const ENTITIES: Readonly<Record<string, string>> = { lt: "<", gt: ">", amp: "&", quot: '"', apos: "'" };

/** The root element. Throws where the text is not well formed. */
export function readSvg(svg: string): Element {
	let at = 0;
	const fail = (what: string): never => {
		throw new Error(`${what} at ${at}: ${svg.slice(at, at + 60)}`);
	};
	const take = (pattern: RegExp): RegExpExecArray | undefined => {
		const sticky = new RegExp(pattern, "uy");
		sticky.lastIndex = at;
		const found = sticky.exec(svg);
		if (found === null) return undefined;
		at = sticky.lastIndex;
		return found;
	};
	const element = (): Element => {
		const name = take(/<([a-z][a-zA-Z]*)/)?.[1] ?? fail("an element was expected");
		const attributes = new Map<string, string>();
		for (;;) {
			const found = take(/\s+([a-zA-Z-]+)="([^"<]*)"/);
			if (found === undefined) break;
			const [, key = "", value = ""] = found;
			if (attributes.has(key)) fail(`${key} is there twice`);
			attributes.set(key, decoded(value));
		}
		if (take(/\/>/) !== undefined) return { name, attributes, children: [] };
		if (take(/>/) === undefined) fail("a tag does not end");
		const children: (Element | string)[] = [];
		for (;;) {
			if (take(new RegExp(`</${name}>`)) !== undefined) return { name, attributes, children };
			const text = take(/[^<]+/)?.[0];
			children.push(text === undefined ? element() : decoded(text));
		}
	};
	const root = element();
	if (at !== svg.length) fail("text after the end");
	return root;
}

function decoded(text: string): string {
	if (/&(?!#\d+;|#x[0-9a-f]+;|(lt|gt|amp|quot|apos);)/i.test(text)) throw new Error(`a bare & in ${text}`);
	return text.replace(/&(?:#(\d+)|([a-z]+));/g, (_, code: string | undefined, name: string) =>
		code === undefined ? (ENTITIES[name] ?? "") : String.fromCodePoint(Number(code)),
	);
}

/** All elements below and with one, in order. */
export function all(root: Element): readonly Element[] {
	return [root, ...root.children.flatMap((child) => (typeof child === "string" ? [] : all(child)))];
}

export function textOf(root: Element): string {
	return root.children.map((child) => (typeof child === "string" ? child : textOf(child))).join("");
}

export function attribute(element: Element, name: string): string {
	return element.attributes.get(name) ?? "";
}

export function number(element: Element, name: string): number {
	return Number(element.attributes.get(name) ?? 0);
}

export function withClass(root: Element, name: string): readonly Element[] {
	return all(root).filter((element) => attribute(element, "class").split(" ").includes(name));
}

const GEOMETRY = new Set(["x", "y", "width", "height", "cx", "cy", "r", "d", "viewBox", "stroke-width"]);

/** What every chart keeps to, whatever it draws. */
export function faultsOf(
	svg: string,
	measure: (words: string, size: number, bold: boolean) => number,
): string[] {
	const faults: string[] = [];
	const root = readSvg(svg);
	const elements = all(root);
	const ids = elements.flatMap((element) => element.attributes.get("id") ?? []);
	if (new Set(ids).size !== ids.length) faults.push("an id is there twice");
	for (const name of ["aria-labelledby", "aria-describedby"]) {
		if (!ids.includes(attribute(root, name))) faults.push(`${name} points nowhere`);
	}
	for (const [, id] of svg.matchAll(/url\(#([^)]+)\)/g)) {
		if (!ids.includes(decoded(id ?? ""))) faults.push(`url(#${id}) points nowhere`);
	}
	const first = root.children.slice(0, 2).map((child) => (typeof child === "string" ? child : child.name));
	if (first.join(" ") !== "title desc") faults.push("title and desc do not come first");
	const links = elements.filter(({ name }) => name === "a");
	if (attribute(root, "role") !== (links.length > 0 ? "group" : "img")) faults.push("the role does not fit");
	for (const link of links) {
		if (attribute(link, "aria-label") === "") faults.push("a link has no name");
		if (attribute(link, "href") === "") faults.push("a link leads nowhere");
	}
	for (const { name, attributes } of elements) {
		if (["script", "style", "foreignObject"].includes(name)) faults.push(`<${name}> is there`);
		for (const [key, value] of attributes) {
			if (key === "style" || key.startsWith("on")) faults.push(`${key}= is there`);
			if (GEOMETRY.has(key) && /NaN|Infinity|undefined|null/.test(value)) faults.push(`${key}="${value}"`);
		}
	}
	faults.push(...outside(root, measure));
	return faults;
}

/** Boxes, circles and lines of text that pass the edge of the picture. */
function outside(root: Element, measure: (words: string, size: number, bold: boolean) => number): string[] {
	const [, , width = 0, height = 0] = attribute(root, "viewBox").split(" ").map(Number);
	const faults: string[] = [];
	const check = (what: string, left: number, top: number, right: number, bottom: number): void => {
		if (left < -0.6 || top < -0.6 || right > width + 0.6 || bottom > height + 0.6)
			faults.push(`${what} passes the edge: ${[left, top, right, bottom].join(" ")} in ${width} ${height}`);
	};
	/** From what its parents have been moved by. */
	const visit = (element: Element, right: number, down: number): void => {
		const { name } = element;
		if (name === "defs") return;
		const moved = /^translate\((\S+) (\S+)\)$/.exec(attribute(element, "transform"));
		const dx = right + Number(moved?.[1] ?? 0);
		const dy = down + Number(moved?.[2] ?? 0);
		const [x, y] = [number(element, "x") + dx, number(element, "y") + dy];
		if (name === "rect") check("a box", x, y, x + number(element, "width"), y + number(element, "height"));
		if (name === "circle") {
			const [cx, cy, r] = [number(element, "cx") + dx, number(element, "cy") + dy, number(element, "r")];
			check("a circle", cx - r, cy - r, cx + r, cy + r);
		}
		if (name === "text") {
			const size = element.attributes.has("font-size") ? number(element, "font-size") : 12;
			const wide = measure(textOf(element), size, element.attributes.has("font-weight"));
			const anchor = attribute(element, "text-anchor");
			const left = anchor === "middle" ? x - wide / 2 : anchor === "end" ? x - wide : x;
			check(`"${textOf(element)}"`, left, y - size * 0.8, left + wide, y + size * 0.2);
		}
		for (const child of element.children) if (typeof child !== "string") visit(child, dx, dy);
	};
	visit(root, 0, 0);
	return faults;
}
