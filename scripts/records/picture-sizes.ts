/**
 * Which size of a picture a device keeps. Every size is served, and the browser takes the one it wants
 * while there is a network; one of them is kept, and stands in for the others without one.
 */

/** The widest that is kept, in pixels: what a phone with a fine screen asks for. */
export const PHONE_WIDTH = 960;

/** `media/wall-plank-1a2b3c4d-960.webp` → its name without the size, and the size. */
const SIZED = /^(.+)-(\d+)(\.[a-z0-9]+)$/i;

/** A name that all sizes of a picture share. */
export function pictureOf(path: string): string {
	return path.replace(SIZED, "$1$3");
}

/** One size of each picture, in the order of the paths: the widest for a phone, else the narrowest. */
export function sizesForPhones(paths: readonly string[]): readonly string[] {
	const kept = new Map<string, { readonly path: string; readonly width: number }>();
	for (const path of paths) {
		const picture = pictureOf(path);
		const width = Number(SIZED.exec(path)?.[2] ?? 0);
		const other = kept.get(picture);
		if (other === undefined || isBetter(width, other.width)) kept.set(picture, { path, width });
	}
	return paths.filter((path) => kept.get(pictureOf(path))?.path === path);
}

function isBetter(width: number, than: number): boolean {
	if (width <= PHONE_WIDTH) return width > than || than > PHONE_WIDTH;
	return width < than;
}
