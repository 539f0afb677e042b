/**
 * The value kept for a key, made the first time it is asked for. What is kept for a curriculum hangs on
 * it alone: one with a change in it is another, and is counted anew.
 */
export function getOrMake<K, V>(
	kept: { get(key: K): V | undefined; set(key: K, value: V): unknown },
	key: K,
	make: () => V,
): V {
	const found = kept.get(key);
	if (found !== undefined) return found;
	const made = make();
	kept.set(key, made);
	return made;
}

/** A function of one thing that is worked out once for each, and kept as long as the thing is. */
export function onceEach<K extends WeakKey, V>(make: (of: K) => V): (of: K) => V {
	const kept = new WeakMap<K, V>();
	return (of) => getOrMake(kept, of, () => make(of));
}

/**
 * The same of all exposures of a curriculum, and kept as long as they are: a handbook, its measures and its pages
 * have the same ones.
 */
export function onceForExposures<C extends { readonly exposures: WeakKey }, V>(
	make: (counted: C) => V,
): (counted: C) => V {
	const kept = new WeakMap<WeakKey, V>();
	return (counted) => getOrMake(kept, counted.exposures, () => make(counted));
}

/** What is made when it is first asked for, and kept. */
export function once<T>(make: () => T): () => T {
	let made: { readonly value: T } | undefined;
	return () => {
		made ??= { value: make() };
		return made.value;
	};
}

/** An object whose fields are worked out when they are first read. */
export function lazy<T extends object>(fields: { readonly [K in keyof T]: () => T[K] }): T {
	const made = {} as T;
	for (const name of Object.keys(fields) as (keyof T)[]) {
		Object.defineProperty(made, name, { get: once(fields[name]), enumerable: true });
	}
	return made;
}
