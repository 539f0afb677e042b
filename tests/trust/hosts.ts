/**
 * The files for hosts, tried on real servers: nginx and Apache where they are installed, each started on
 * this computer alone with a configuration of its own. Says so where one is not there.
 *
 * What is asked of each: the headers of the policy, how long a file may be kept, the site's own page for
 * what is not there, no listing of a folder, the types of calendar, tables and manifest, and that what
 * hosts are told is no page for readers.
 */

import { spawn, spawnSync } from "node:child_process";
import { once } from "node:events";
import { chmodSync, cpSync, existsSync, mkdtempSync, readdirSync, writeFileSync } from "node:fs";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout as wait } from "node:timers/promises";
import { fileURLToPath } from "node:url";
import { HEADERS, nginxServer } from "../../scripts/views/host-headers.ts";
import { count, newTally, type Tally } from "./tally.ts";

interface Host {
	readonly name: string;
	readonly program: string;
	readonly arguments: (folder: string, site: string, port: number) => readonly string[];
}

const HOSTS: readonly Host[] = [
	{
		name: "nginx",
		program: "/usr/sbin/nginx",
		arguments: (folder, site, port) => {
			const file = join(folder, "nginx.conf");
			writeFileSync(
				file,
				`daemon off; master_process off; pid ${folder}/nginx.pid; error_log ${folder}/error.log;
events { }
http {
	access_log off; include /etc/nginx/mime.types; default_type application/octet-stream;
	client_body_temp_path ${folder}/body; proxy_temp_path ${folder}/proxy; fastcgi_temp_path ${folder}/fastcgi;
	uwsgi_temp_path ${folder}/uwsgi; scgi_temp_path ${folder}/scgi;
	server { listen 127.0.0.1:${port}; root ${site}; index index.html;
${nginxServer()}
	}
}
`,
			);
			return ["-c", file, "-p", folder];
		},
	},
	{
		name: "Apache",
		program: "/usr/sbin/apache2",
		arguments: (folder, site, port) => {
			const file = join(folder, "apache.conf");
			const modules = "/usr/lib/apache2/modules";
			const load = ["mpm_event", "authz_core", "authz_host", "dir", "mime", "headers", "autoindex"]
				.filter((name) => existsSync(`${modules}/mod_${name}.so`))
				.map((name) => `LoadModule ${name}_module ${modules}/mod_${name}.so`);
			writeFileSync(
				file,
				`ServerRoot ${folder}
ServerName localhost
PidFile ${folder}/apache.pid
ErrorLog ${folder}/error.log
Listen 127.0.0.1:${port}
${load.join("\n")}
User www-data
Group www-data
TypesConfig /etc/mime.types
DocumentRoot ${site}
DirectoryIndex index.html
<Directory ${site}>
Options Indexes
AllowOverride All
Require all granted
</Directory>
`,
			);
			return ["-X", "-f", file];
		},
	},
];

/** Tries every host that is installed. */
export async function tryHosts(): Promise<Tally[]> {
	// A server of another user has to be able to read it.
	const built = mkdtempSync(join(tmpdir(), "handbook-site-"));
	chmodSync(built, 0o755);
	const site = join(built, "site");
	const club = join(built, "club");
	cpSync(fileURLToPath(new URL("../fixtures/clubs/full-pages", import.meta.url)), club, { recursive: true });
	const main = fileURLToPath(new URL("../../scripts/commands/main.ts", import.meta.url));
	// Whatever the builder's own habit of hiding files is, a web server must be able to read them.
	const umask = process.umask(0o077);
	const run = spawnSync(process.execPath, [main, "build", "--no-print", "--club", club, "--out", site]);
	process.umask(umask);
	if (run.status !== 0) throw new Error(`the site was not built: ${String(run.stdout)}${String(run.stderr)}`);
	const tallies: Tally[] = [];
	for (const host of HOSTS) {
		const tally = newTally(`the site on ${host.name}`);
		tallies.push(tally);
		if (!existsSync(host.program)) {
			process.stderr.write(`${host.name} is not installed: not tried\n`);
			continue;
		}
		const folder = mkdtempSync(join(tmpdir(), "handbook-host-"));
		chmodSync(folder, 0o755);
		const port = await freePort();
		const server = spawn(host.program, [...host.arguments(folder, site, port)], { stdio: "ignore" });
		try {
			const root = `http://127.0.0.1:${port}`;
			await answering(root);
			for (const fault of await faultsOf(root, site, tally)) count(tally, "leaked", fault);
		} finally {
			server.kill();
			await once(server, "exit");
		}
	}
	return tallies;
}

async function faultsOf(root: string, site: string, tally: Tally): Promise<readonly string[]> {
	const faults: string[] = [];
	const expect = (what: string, is: unknown, wanted: unknown): void => {
		tally.tried++;
		const isRight = wanted instanceof RegExp ? wanted.test(String(is)) : is === wanted;
		if (!isRight) faults.push(`${what} is ${String(is)}, not ${String(wanted)}`);
	};
	const hashed = `/offline/${readdirSync(join(site, "offline"))[0]}`;
	const paths = ["/", "/drills/", "/worker.js", "/assets/site.css", "/data/exposures.csv", hashed];
	for (const path of paths) {
		const answer = await fetch(root + path);
		expect(`${path} status`, answer.status, 200);
		for (const [name, value] of HEADERS) expect(`${path} ${name}`, answer.headers.get(name), value);
		const cache = path === hashed ? /immutable/ : "no-cache";
		expect(`${path} Cache-Control`, answer.headers.get("cache-control"), cache);
	}
	for (const [path, type] of [
		["/data/exposures.csv", /^text\/csv; ?charset=utf-8$/i],
		["/data/calendar.ics", /^text\/calendar; ?charset=utf-8$/i],
		["/manifest.webmanifest", /^application\/manifest\+json/],
		["/", /^text\/html/],
	] as const) {
		expect(`${path} type`, (await fetch(root + path)).headers.get("content-type"), type);
	}
	for (const path of ["/nothing/here/", "/_headers", "/.htaccess", "/assets/", "/nginx-headers.conf"]) {
		const answer = await fetch(root + path);
		expect(`${path} status`, String(answer.status), /^40[34]$/);
		expect(`${path} listing`, /Index of/i.test(await answer.text()), false);
	}
	const missing = await (await fetch(`${root}/nothing/here/`)).text();
	expect("the page for what is not there", missing.includes('name="robots" content="noindex"'), true);
	return faults;
}

async function freePort(): Promise<number> {
	const server = createServer().listen(0, "127.0.0.1");
	await once(server, "listening");
	const address = server.address();
	server.close();
	return typeof address === "object" && address !== null ? address.port : 0;
}

async function answering(root: string): Promise<void> {
	for (let tries = 0; tries < 50; tries++) {
		try {
			await fetch(root);
			return;
		} catch {
			await wait(100);
		}
	}
	throw new Error(`nothing answers at ${root}`);
}
