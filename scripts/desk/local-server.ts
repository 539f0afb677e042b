/**
 * The preview's server: for this computer alone, unless somebody says otherwise.
 *
 * A plan that is not published is nobody else's business, so it listens on the loopback address; and as
 * any page in a browser may ask this computer too, it answers only under its own names (another name that
 * leads here is how a stranger's page would read the answers) and only to its own pages. The preview gives,
 * and takes nothing: GET and HEAD alone. The desk is written to, from its own page: a request that writes
 * must name that page as its origin.
 */

import type { IncomingMessage, Server, ServerResponse } from "node:http";
import { isIP } from "node:net";
import { hostname } from "node:os";
import type { Duplex } from "node:stream";
import DevServer, { type DevServerOptions } from "@11ty/eleventy-dev-server";

const LOOPBACK = "127.0.0.1";
/** Ports tried one after the other where somebody has the one that was asked for. */
const MOST_PORTS = 10;

/** What answers for the desk. */
export interface DeskDoor {
	readonly isMeant: (url: string) => boolean;
	readonly answer: (request: IncomingMessage, response: ServerResponse) => void;
}

/** Nobody can be asked at the address that was wanted. Its message says why. */
export class CannotListen extends Error {}

/** Starts it. Throws CannotListen. */
export async function startServer(
	folder: string,
	{
		host,
		port,
		desk,
		...options
	}: DevServerOptions & {
		readonly host: string;
		readonly port: number;
		readonly desk?: DeskDoor | undefined;
	},
): Promise<DevServer> {
	const own = DevServer.getServer("handbook", folder, { ...options, port });
	const http = own.server;
	// The package would try the next port on every address of this computer.
	http.removeAllListeners("error");
	guard(http, host, desk);
	await listen(http, host, port);
	http.on("error", (error) => options.logger?.error(`The server failed: ${error.message}`));
	return own;
}

async function listen(http: Server, host: string, port: number): Promise<void> {
	for (let next = port; ; next++) {
		const error = await new Promise<NodeJS.ErrnoException | undefined>((resolve) => {
			http.once("error", resolve);
			http.listen({ port: next, host }, () => {
				http.off("error", resolve);
				resolve(undefined);
			});
		});
		if (error === undefined) return;
		if (error.code === "EADDRINUSE" && port !== 0 && next < port + MOST_PORTS && next < 65_535) continue;
		const tried = next === port ? `port ${port}` : `ports ${port} to ${next}`;
		throw new CannotListen(
			error.code === "EADDRINUSE"
				? `Something else answers on ${tried} already. Name another with --port.`
				: `${host}, ${tried}: this computer does not allow to listen there (${error.code ?? error.message}). Name another with --host or --port.`,
		);
	}
}

/** Turns away whoever asks under another name, from another page, or to write, before anything else hears of it. */
function guard(http: Server, host: string, desk: DeskDoor | undefined): void {
	const emit = http.emit.bind(http);
	http.emit = (event: string, ...args: unknown[]): boolean => {
		if (event === "request") {
			const [request, response] = args as [IncomingMessage, ServerResponse];
			const status = refusal(request, host, desk);
			if (status === undefined) {
				if (desk?.isMeant(request.url ?? "") !== true) return emit(event, ...args);
				// Past the package, which would have every page load itself again after a change.
				desk.answer(request, response);
				return true;
			}
			response.writeHead(status, {
				"Content-Type": "text/plain; charset=utf-8",
				"X-Content-Type-Options": "nosniff",
				...(status === 405 ? { Allow: "GET, HEAD" } : {}),
			});
			response.end(REASONS[status]);
			return true;
		}
		if (event === "upgrade") {
			const [request, socket] = args as [IncomingMessage, Duplex];
			if (refusal(request, host, desk) === undefined) return emit(event, ...args);
			socket.end("HTTP/1.1 403 Forbidden\r\nConnection: close\r\n\r\n");
			return true;
		}
		return emit(event, ...args);
	};
}

const REASONS: Readonly<Record<403 | 405, string>> = {
	403: "This preview answers on this computer, under its own address, alone.",
	405: "This preview is only read.",
};

function refusal(request: IncomingMessage, host: string, desk: DeskDoor | undefined): 403 | 405 | undefined {
	const port = request.socket.localPort;
	if (!isOwnName(request.headers.host, host, port)) return 403;
	const { origin } = request.headers;
	if (origin !== undefined && !isOwnName(/^http:\/\/(.+)$/.exec(origin)?.[1], host, port)) return 403;
	if (request.method === "GET" || request.method === "HEAD") return undefined;
	if (request.method !== "POST" || desk?.isMeant(request.url ?? "") !== true) return 405;
	return origin === undefined ? 403 : undefined;
}

/** Whether only this computer can ask at an address. */
export function isLoopback(host: string): boolean {
	return host === LOOPBACK || host === "::1" || host === "localhost";
}

/** @param said a name with its port, as a browser sends it */
function isOwnName(said: string | undefined, host: string, port: number | undefined): boolean {
	const [, name = "", bracketed, number = "80"] =
		/^((?:\[([0-9a-f:.]+)\])|[^:[\]]+)(?::(\d+))?$/i.exec(said ?? "") ?? [];
	if (Number(number) !== port) return false;
	const plain = (bracketed ?? name).toLowerCase();
	if (["localhost", LOOPBACK, "::1", host.toLowerCase()].includes(plain)) return true;
	// Open to the network by wish: by number, which no name can be made to lead to, or by this computer's name.
	return !isLoopback(host) && (isIP(plain) !== 0 || plain === hostname().toLowerCase());
}
