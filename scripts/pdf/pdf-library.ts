/**
 * pdf.js, for reading text and structure. While it loads it warns that it could not draw without a canvas,
 * which nobody asks of it here, and which would stand in the middle of a build's lines.
 */

const { warn } = console;
console.warn = () => undefined;
const library = await import("pdfjs-dist/legacy/build/pdf.mjs");
console.warn = warn;

export const { getDocument } = library;
