/** Data as YAML and JSON give it, apart from what reads it: devices tell it too, and carry no reader. */

/** Fields by their names. */
export type Data = Readonly<Record<string, unknown>>;

export function isData(value: unknown): value is Data {
	return typeof value === "object" && value !== null && !Array.isArray(value);
}
