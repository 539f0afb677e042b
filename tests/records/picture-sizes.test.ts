import { expect, test } from "vitest";
import { pictureOf, sizesForPhones } from "../../scripts/records/picture-sizes.ts";

const sizes = (name: string, ...widths: readonly number[]): readonly string[] =>
	widths.map((width) => `media/${name}-1a2b3c4d-${width}.webp`);

test.each([
	["three sizes: the one a phone uses", [480, 960, 1440], 960],
	["in any order", [1440, 480, 960], 960],
	["a small picture: its largest", [480, 700], 700],
	["only wide ones: the narrowest", [1440, 1200], 1200],
	["one size", [300], 300],
])("%s", (_, widths, kept) => {
	expect(sizesForPhones(sizes("plank", ...widths))).toEqual(sizes("plank", kept));
});

test("pictures are told apart, and keep their order", () => {
	const paths = [...sizes("bridge", 480, 960), "media/old.png", ...sizes("plank", 480, 960)];
	expect(sizesForPhones(paths)).toEqual([...sizes("bridge", 960), "media/old.png", ...sizes("plank", 960)]);
});

test("all sizes of a picture have one name, and no other picture has it", () => {
	const names = sizes("plank", 480, 960, 1440).map(pictureOf);
	expect(new Set(names)).toEqual(new Set(["media/plank-1a2b3c4d.webp"]));
	expect(pictureOf("media/plank.webp")).toBe("media/plank.webp");
});
