/** Writes a PDF's bytes. */

import { type PDFDocument, PDFStreamWriter } from "pdf-lib";

/** Objects packed together: packing each few apart takes longer and comes out larger. */
const OBJECTS_OF_A_STREAM = 500;

/** The bytes of a document, its objects packed in streams. The same document gives the same bytes. */
export async function savePdf(document: PDFDocument): Promise<Uint8Array> {
	await document.flush();
	// Nothing else is to be done meanwhile that the writer would have to pause for.
	const writer = PDFStreamWriter.forContext(
		document.context,
		Number.MAX_SAFE_INTEGER,
		true,
		OBJECTS_OF_A_STREAM,
	);
	return writer.serializeToBuffer();
}
