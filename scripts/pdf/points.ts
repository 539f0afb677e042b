/** Points in a pixel: PDF counts in 72 to the inch, CSS in 96. */
export const POINTS = 72 / 96;

/** Points of a millimetre. */
export const MM_POINTS = 72 / 25.4;
