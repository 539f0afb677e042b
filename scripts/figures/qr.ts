/**
 * A QR code (ISO/IEC 18004) as a drawing: one path of black modules, in the quiet zone of four modules
 * that readers need.
 */

import { correction, generate } from "lean-qr";
import { toSvgPath } from "lean-qr/extras/svg";
import { type PictureWords, picture } from "./markup.ts";

/** Modules that stay white around the code. */
const QUIET = 4;

/** The code without its quiet zone, in CSS pixels: 18 mm, which a phone reads at arm's length. */
const LEAST_SIZE = (18 * 96) / 25.4;

/** A module is at least this wide, in CSS pixels: 0.4 mm, which an office printer keeps apart. */
const LEAST_MODULE = 1.52;

/**
 * Draws the code of an address, at least 18 mm wide, with its quiet zone around it.
 *
 * A seventh of it may be hidden by dirt or a crease (correction level M). Throws where the address is
 * longer than a code can hold, about 2,300 letters.
 */
export function drawQr(address: string, words: PictureWords): string {
	const code = generate(address, { minCorrectionLevel: correction.M });
	const modules = code.size + 2 * QUIET;
	const size = Math.ceil(Math.max(LEAST_SIZE / code.size, LEAST_MODULE) * modules * 100) / 100;
	return picture(
		words,
		"qr",
		[-QUIET, -QUIET, modules, modules],
		{ width: size, height: size },
		`<path fill="#000" shape-rendering="crispEdges" d="${toSvgPath(code)}"/>`,
	);
}
