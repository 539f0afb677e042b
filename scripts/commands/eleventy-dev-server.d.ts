declare module "@11ty/eleventy-dev-server" {
	import type { IncomingMessage, Server, ServerResponse } from "node:http";

	export interface DevServerOptions {
		readonly port?: number;
		readonly domDiff?: boolean;
		readonly middleware?: readonly ((
			request: IncomingMessage,
			response: ServerResponse,
			next: () => void,
		) => void)[];
		readonly logger?: Readonly<Record<"info" | "log" | "error", (message: string) => void>>;
	}
	export default class DevServer {
		static getServer(name: string, dir: string, options?: DevServerOptions): DevServer;
		/** The server under it; made when it is first asked for. */
		readonly server: Server;
		ready(): Promise<void>;
		getPort(): Promise<number>;
		reload(event: object): Promise<void>;
		augmentContentWithNotifier(content: string): string;
		close(): Promise<void>;
	}
}
