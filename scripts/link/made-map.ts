import type { Id } from "../model.ts";

/** Things by id, each made when it is first asked for: a page that a device makes asks for few of a thousand. */
export class MadeMap<T extends { readonly id: Id }, V> implements ReadonlyMap<Id, V> {
	readonly #things: ReadonlyMap<Id, T>;
	readonly #make: (thing: T) => V;
	readonly #made = new Map<Id, V>();
	#all: ReadonlyMap<Id, V> | undefined;

	constructor(things: readonly T[], make: (thing: T) => V) {
		this.#things = new Map(things.map((thing) => [thing.id, thing]));
		this.#make = make;
	}

	get size() {
		return this.#things.size;
	}

	has(id: Id) {
		return this.#things.has(id);
	}

	get(id: Id) {
		const thing = this.#things.get(id);
		if (thing !== undefined && !this.#made.has(id)) this.#made.set(id, this.#make(thing));
		return this.#made.get(id);
	}

	keys() {
		return this.#things.keys() as MapIterator<Id>;
	}

	values() {
		return this.#whole().values();
	}

	entries() {
		return this.#whole().entries();
	}

	[Symbol.iterator]() {
		return this.entries();
	}

	forEach(each: (value: V, id: Id, map: ReadonlyMap<Id, V>) => void) {
		this.#whole().forEach(each);
	}

	#whole() {
		this.#all ??= new Map(Array.from(this.keys(), (id) => [id, this.get(id) as V]));
		return this.#all;
	}
}
