/**
 * The club's own pictures and videos: each picture in several sizes, of which the browser takes one; a
 * video stands still, with its poster, until somebody starts it.
 */

import { PHONE_WIDTH } from "../../scripts/records/picture-sizes.ts";
import type { DrillMedium } from "../../scripts/views/drill.ts";
import { type Html, html } from "../../scripts/views/html.ts";
import type { Picture, Video } from "../../scripts/views/medium.ts";
import type { PageContext } from "./page.ts";

/** How wide a picture stands on the page, as pictures.css has it. */
const SIZES = "(min-width: 46rem) 44rem, calc(100vw - 2rem)";

/** A picture or video with its caption. */
export function mediumFigure(ctx: PageContext, { medium, alt, caption }: DrillMedium): Html {
	return html`<figure class="medium">${
		medium.kind === "picture" ? picture(ctx, medium, alt) : video(ctx, medium, alt)
	}${caption && html`<figcaption>${caption}</figcaption>`}</figure>`;
}

function picture(ctx: PageContext, { sizes }: Picture, alt: string): Html {
	const usual = sizes.findLast(({ width }) => width <= PHONE_WIDTH) ?? sizes[0];
	if (usual === undefined) throw new Error("a picture without a size");
	const choice = sizes.map(({ path, width }) => `${ctx.way(path)} ${width}w`).join(", ");
	return html`<img src="${ctx.way(usual.path)}" srcset="${choice}" sizes="${SIZES}" width="${usual.width}" height="${usual.height}" alt="${alt}" loading="lazy" decoding="async">`;
}

/** On paper its poster is printed in its place. */
function video(ctx: PageContext, { path, type, width, height, poster }: Video, alt: string): Html {
	const still = ctx.way(poster.path);
	return html`<video controls playsinline preload="none" poster="${still}" width="${width}" height="${height}" aria-label="${alt}"><source src="${ctx.way(path)}" type="${type}"></video>
<img class="on-paper" src="${still}" width="${poster.width}" height="${poster.height}" alt="${alt}">`;
}
