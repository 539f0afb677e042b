/** The same texts in memory of their own: pieces that were cut from a page would keep the whole page. */
export function apart<T extends object>(texts: T): T {
	return JSON.parse(JSON.stringify(texts));
}
