/** The parts of a service worker's world that are used here: the compiler's own list is a page's. */

export interface WorkerScope {
	readonly registration: { readonly scope: string };
	readonly clients: {
		claim(): Promise<void>;
		matchAll(options: {
			includeUncontrolled: boolean;
		}): Promise<readonly { postMessage(message: unknown): void }[]>;
	};
	skipWaiting(): Promise<void>;
	addEventListener<K extends keyof WorkerEvents>(kind: K, listener: (event: WorkerEvents[K]) => void): void;
}

export interface LongEvent extends Event {
	waitUntil(work: Promise<unknown>): void;
}

export interface WorkerEvents {
	readonly install: LongEvent;
	readonly activate: LongEvent;
	readonly message: LongEvent & { readonly data: unknown };
	readonly fetch: LongEvent & { readonly request: Request; respondWith(answer: Promise<Response>): void };
}

/** Named scripts only, where a policy asks for it; pages have the same. */
export interface TrustedTypes {
	createPolicy(
		name: string,
		rules: { createScriptURL(address: string): string },
	): { createScriptURL(address: string): string };
}
