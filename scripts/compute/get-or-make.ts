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
export function once<K extends WeakKey, V>(make: (of: K) => V): (of: K) => V {
	const kept = new WeakMap<K, V>();
	return (of) => getOrMake(kept, of, () => make(of));
}
