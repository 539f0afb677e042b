/**
 * What the device remembers for the coach. A browser that keeps nothing, or has no room left, still
 * shows the page: nothing here throws.
 */

/** What was kept under a key; undefined for nothing. */
export function recall(key: string): string | undefined {
	try {
		return localStorage.getItem(key) ?? undefined;
	} catch {
		return undefined;
	}
}

/** Keeps a value, or forgets it where it is undefined. */
export function keep(key: string, value: string | undefined): void {
	try {
		if (value === undefined) localStorage.removeItem(key);
		else localStorage.setItem(key, value);
	} catch {
		// Storage is off or full: what was chosen holds for this page alone.
	}
}

/** The class whose sheet was opened last, by its id. */
export const LAST_CLASS = "handbook-class";
