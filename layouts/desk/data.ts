/** What files hold, as the forms pass it on. */

export type Data = Readonly<Record<string, unknown>>;

/** Data with another value of a field, without it where it is undefined; fields keep their order. */
export function withField(data: Data, name: string, value: unknown): Data {
	if (value !== undefined) return { ...data, [name]: value };
	const { [name]: _, ...rest } = data;
	return rest;
}

export function isData(value: unknown): value is Data {
	return typeof value === "object" && value !== null && !Array.isArray(value);
}

export function asData(value: unknown): Data {
	return isData(value) ? value : {};
}
