/** Where the edition of a printed file is written. */
export function editionFile(pdfFile: string): string {
	return pdfFile.replace(/(\.pdf)?$/, ".edition.json");
}
