/**
 * What `new host` writes, tried: nginx and Apache run with the very files, but for places and ports, and are
 * asked by the check that is written beside them; the scripts of workflows run in a repository of Git. What is
 * not installed here is skipped.
 */

import { type ChildProcess, execFile, spawn, spawnSync } from "node:child_process";
import { once } from "node:events";
import {
	chmodSync,
	cpSync,
	existsSync,
	mkdirSync,
	mkdtempSync,
	readFileSync,
	rmSync,
	writeFileSync,
} from "node:fs";
import { get } from "node:http";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { setTimeout as wait } from "node:timers/promises";
import { promisify } from "node:util";
import { load } from "js-yaml";
import { describe, expect, it, onTestFinished } from "vitest";
import { HEADERS } from "../../scripts/views/host-headers.ts";
import { clubCopy, FIXTURES } from "../open-fixture.ts";
import { handbook } from "../run-command.ts";
import { sharedSite } from "./build-site.ts";

const NGINX = "/usr/sbin/nginx";
const APACHE = "/usr/sbin/apache2";
const MODULES = "/usr/lib/apache2/modules";
const hasTools = ["curl", "openssl"].every((name) => spawnSync(name, ["--version"]).error === undefined);

/** A folder that a server of another user can read; gone after the test. */
function openFolder(): string {
	const dir = mkdtempSync(join(tmpdir(), "host-"));
	chmodSync(dir, 0o755);
	onTestFinished(() => rmSync(dir, { recursive: true, force: true }));
	return dir;
}

/** A club with what `new host` writes for a kind. */
async function clubWith(kind: string): Promise<string> {
	const dir = clubCopy();
	writeFileSync(join(dir, "_data/club.yaml"), "name: Club\nsite: https://localhost/\n");
	writeFileSync(join(dir, "package.json"), "{}");
	const { status, stdout } = await handbook(["new", "host", kind, "--club", dir]);
	expect(status, stdout).toBe(0);
	return dir;
}

/** A server's place: the site, a certificate, one user, and two free ports. */
async function placeFor(): Promise<{ readonly dir: string; readonly tls: number; readonly plain: number }> {
	const dir = openFolder();
	const { dir: site } = await sharedSite(join(FIXTURES, "clubs/full-pages"));
	cpSync(site, join(dir, "site"), { recursive: true, dereference: true });
	const openssl = (...words: readonly string[]) => {
		const { status, stdout, stderr } = spawnSync("openssl", words, { cwd: dir, encoding: "utf8" });
		if (status !== 0) throw new Error(stderr);
		return stdout;
	};
	openssl(
		...["req", "-x509", "-newkey", "rsa:2048", "-nodes", "-days", "2", "-subj", "/CN=localhost"],
		...["-addext", "subjectAltName=DNS:localhost", "-keyout", "privkey.pem", "-out", "fullchain.pem"],
	);
	writeFileSync(join(dir, "users"), `coach:${openssl("passwd", "-6", "a secret").trim()}\n`);
	writeFileSync(join(dir, "sign-in.txt"), 'user = "coach:a secret"\n');
	return { dir, tls: await freePort(), plain: await freePort() };
}

/** A server's file with places and ports of the test; each place has to be in it. */
function adapted(text: string, changes: readonly (readonly [string, string])[]): string {
	let now = text;
	for (const [from, to] of changes) {
		expect(now).toContain(from);
		now = now.replaceAll(from, to);
	}
	return now;
}

async function freePort(): Promise<number> {
	const server = createServer().listen(0, "127.0.0.1");
	await once(server, "listening");
	const address = server.address();
	server.close();
	return typeof address === "object" && address !== null ? address.port : 0;
}

/** Starts a server that ends with the test. */
async function started(program: string, words: readonly string[], port: number): Promise<void> {
	const server: ChildProcess = spawn(program, [...words], { stdio: ["ignore", "ignore", "pipe"] });
	let said = "";
	server.stderr?.on("data", (text) => {
		said += String(text);
	});
	onTestFinished(async () => {
		if (server.exitCode !== null) return;
		server.kill();
		await once(server, "exit");
	});
	for (let tries = 0; tries < 100; tries++) {
		const isThere = await new Promise<boolean>((done) => {
			get(`http://127.0.0.1:${port}/`, () => done(true)).once("error", () => done(false));
		});
		if (isThere) return;
		if (server.exitCode !== null) break;
		await wait(100);
	}
	throw new Error(`${program} does not answer: ${said}`);
}

/** What the written check says of a server. */
async function checked(script: string, place: { readonly dir: string; readonly tls: number }) {
	try {
		const { stdout } = await promisify(execFile)("sh", [script], {
			env: {
				...process.env,
				HANDBOOK_SITE: `https://localhost:${place.tls}`,
				HANDBOOK_SIGN_IN: join(place.dir, "sign-in.txt"),
				CURL_CA_BUNDLE: join(place.dir, "fullchain.pem"),
				no_proxy: "localhost",
			},
		});
		return { status: 0, said: stdout };
	} catch (error) {
		const { code, stdout } = error as { code: number; stdout: string };
		return { status: code, said: stdout };
	}
}

/** The plain address leads to the same place over TLS. */
async function redirected(port: number): Promise<string | undefined> {
	return new Promise((done, fail) => {
		get(`http://127.0.0.1:${port}/weeks/`, { headers: { host: "localhost" } }, (answer) =>
			done(answer.headers.location),
		).once("error", fail);
	});
}

function nginxFile(text: string, { dir, tls, plain }: Awaited<ReturnType<typeof placeFor>>): string {
	const server = adapted(text, [
		["\tlisten [::]:80;\n", ""],
		["\tlisten [::]:443 ssl http2;\n", ""],
		["listen 80;", `listen 127.0.0.1:${plain};`],
		["listen 443 ssl http2;", `listen 127.0.0.1:${tls} ssl http2;`],
		["/etc/ssl/handbook/", `${dir}/`],
		["/etc/nginx/handbook.users", join(dir, "users")],
		["root /srv/handbook;", `root ${dir}/site;`],
	]);
	return `daemon off; master_process off; pid ${dir}/nginx.pid; error_log ${dir}/error.log;
events { }
http {
access_log off; include /etc/nginx/mime.types; default_type application/octet-stream;
client_body_temp_path ${dir}/t1; proxy_temp_path ${dir}/t2; fastcgi_temp_path ${dir}/t3;
uwsgi_temp_path ${dir}/t4; scgi_temp_path ${dir}/t5;
${server}}
`;
}

describe.skipIf(!existsSync(NGINX) || !hasTools)("the file for nginx", () => {
	it("makes a server that is private, sends every header and has our page for what is not there", async () => {
		const club = await clubWith("nginx");
		const place = await placeFor();
		const conf = join(place.dir, "nginx.conf");
		writeFileSync(conf, nginxFile(readFileSync(join(club, "hosting/nginx/handbook.conf"), "utf8"), place));
		await started(NGINX, ["-c", conf, "-p", place.dir], place.plain);
		const { status, said } = await checked(join(club, "hosting/nginx/check.sh"), place);
		expect(said.split("\n").filter((line) => line.startsWith("WRONG"))).toEqual([]);
		expect(status).toBe(0);
		// Three addresses with every header, five that are refused, and five more questions.
		expect(said.match(/^ok /gm)?.length).toBe(3 * HEADERS.size + 5 + 5);
		expect(await redirected(place.plain)).toBe("https://localhost/weeks/");
	});

	it("is told from one that anybody can read", async () => {
		const club = await clubWith("nginx");
		const place = await placeFor();
		const conf = join(place.dir, "nginx.conf");
		const text = readFileSync(join(club, "hosting/nginx/handbook.conf"), "utf8");
		const open = text.replace(/^\tauth_basic.*\n/gm, "").replace(/^.*X-Robots-Tag.*\n/gm, "");
		expect(open).not.toBe(text);
		writeFileSync(conf, nginxFile(`# /etc/nginx/handbook.users\n${open}`, place));
		await started(NGINX, ["-c", conf, "-p", place.dir], place.plain);
		const { status, said } = await checked(join(club, "hosting/nginx/check.sh"), place);
		expect(status).toBe(1);
		expect(said).toContain("WRONG / without signing in: 200.");
		expect(said).toContain("WRONG / sends X-Robots-Tag: no, not yes");
	});
});

describe.skipIf(!existsSync(APACHE) || !hasTools)("the file for Apache", () => {
	it("makes a server that is private, sends every header and has our page for what is not there", async () => {
		const club = await clubWith("apache");
		const place = await placeFor();
		const { dir, tls, plain } = place;
		const text = readFileSync(join(club, "hosting/apache/handbook.conf"), "utf8");
		// The modules that the file's own comment switches on, and those that every installation has.
		const named = /a2enmod ([a-z_ ]+) &&/.exec(text)?.[1]?.split(" ") ?? [];
		expect(named.length).toBeGreaterThan(5);
		const stock = ["mpm_event", "authz_core", "authn_core", "alias", "filter", "autoindex"];
		const modules = [...stock, ...named].map((name) => `LoadModule ${name}_module ${MODULES}/mod_${name}.so`);
		const host = adapted(text, [
			["<VirtualHost *:80>", `<VirtualHost 127.0.0.1:${plain}>`],
			["<VirtualHost *:443>", `<VirtualHost 127.0.0.1:${tls}>`],
			["/etc/ssl/handbook/", `${dir}/`],
			["/etc/apache2/handbook.users", join(dir, "users")],
			["/srv/handbook", join(dir, "site")],
		]);
		const conf = join(dir, "apache.conf");
		writeFileSync(
			conf,
			`ServerRoot ${dir}
ServerName localhost
PidFile ${dir}/apache.pid
ErrorLog ${dir}/error.log
Listen 127.0.0.1:${plain}
Listen 127.0.0.1:${tls}
${modules.join("\n")}
User www-data
Group www-data
TypesConfig /etc/mime.types
${host}`,
		);
		await started(APACHE, ["-X", "-f", conf], plain);
		const { status, said } = await checked(join(club, "hosting/apache/check.sh"), place);
		expect(said.split("\n").filter((line) => line.startsWith("WRONG"))).toEqual([]);
		expect(status).toBe(0);
		expect(await redirected(plain)).toBe("https://localhost/weeks/");
	});
});

interface Workflow {
	readonly jobs: Readonly<
		Record<
			string,
			{ readonly if?: string; readonly steps: readonly { readonly id?: string; readonly run?: string }[] }
		>
	>;
}

describe("the workflows", () => {
	it("publish nothing before somebody has said that the pages are private", async () => {
		const club = await clubWith("pages");
		const { jobs } = load(readFileSync(join(club, ".github/workflows/handbook.yml"), "utf8")) as Workflow;
		expect(jobs.publish?.if).toContain("vars.HANDBOOK_PAGES == 'private'");
		expect(JSON.stringify(jobs.build)).not.toContain("deploy");
	});

	it("build the clubs that a change touches, and all of them for a change of what they share", async () => {
		const club = await clubWith("clubs");
		const { jobs } = load(readFileSync(join(club, ".github/workflows/clubs.yml"), "utf8")) as Workflow;
		const script = jobs.which?.steps.find(({ id }) => id === "which")?.run ?? "";
		const dir = openFolder();
		const git = (...words: readonly string[]) => {
			const who = ["-c", "user.name=t", "-c", "user.email=t@t.invalid", "-c", "init.defaultBranch=main"];
			const { status, stdout, stderr } = spawnSync("git", [...who, ...words], { cwd: dir, encoding: "utf8" });
			if (status !== 0) throw new Error(stderr);
			return stdout.trim();
		};
		const write = (path: string, text: string) => {
			mkdirSync(dirname(join(dir, path)), { recursive: true });
			writeFileSync(join(dir, path), text);
		};
		const commit = () => {
			git("add", "-A");
			git("commit", "-qm", "change");
			return git("rev-parse", "HEAD");
		};
		const batches = (before: string): readonly string[] => {
			const output = join(dir, ".git/output");
			rmSync(output, { force: true });
			const { status, stderr } = spawnSync("bash", ["-e", "-c", script], {
				cwd: dir,
				encoding: "utf8",
				env: { ...process.env, BEFORE: before, GITHUB_OUTPUT: output },
			});
			expect(status, stderr).toBe(0);
			return JSON.parse(readFileSync(output, "utf8").replace("batches=", "")) as readonly string[];
		};
		git("init", "-q");
		const names = Array.from({ length: 45 }, (_, i) => `club-${String(i + 1).padStart(2, "0")}`);
		for (const name of names) write(`clubs/${name}/content/drills/floor/roll.md`, name);
		write("library/drills/floor/rock.md", "rock");
		const first = commit();
		// The first push of a branch names no commit before it.
		expect(batches("0000000000000000000000000000000000000000").map((one) => one.split(" ").length)).toEqual([
			20, 20, 5,
		]);
		write("clubs/club-07/content/drills/floor/roll.md", "longer");
		write("clubs/club-31/_data/club.yaml", "name: Thirty-one");
		const second = commit();
		expect(batches(first)).toEqual(["club-07 club-31"]);
		expect(batches(second)).toEqual([]);
		write("library/drills/floor/rock.md", "rock on");
		commit();
		expect(batches(second).join(" ").split(" ")).toEqual(names);
		// A club that is gone is not built, and a name with more than a name's letters is none.
		const third = git("rev-parse", "HEAD");
		rmSync(join(dir, "clubs/club-07"), { recursive: true });
		write('clubs/$(touch x)"/content/a.md', "a");
		commit();
		expect(batches(third).join(" ").split(" ")).toEqual(names.filter((name) => name !== "club-07"));
		expect(existsSync(join(dir, "x"))).toBe(false);
	});

	it("are written where the program can be installed from, and over nothing", async () => {
		const dir = clubCopy();
		const missing = await handbook(["new", "host", "pages", "--club", dir]);
		expect([missing.status, missing.stdout]).toEqual([
			2,
			expect.stringContaining("There is no package.json"),
		]);
		const none = await handbook(["new", "host", "elsewhere", "--club", dir]);
		expect([none.status, none.stdout]).toEqual([
			2,
			expect.stringContaining("pages, storage, nginx, apache, clubs"),
		]);
		expect((await handbook(["new", "host", "nginx", "--club", dir])).status).toBe(0);
		const file = join(dir, "hosting/nginx/handbook.conf");
		writeFileSync(file, "ours");
		expect((await handbook(["new", "host", "nginx", "--club", dir])).status).toBe(2);
		expect(readFileSync(file, "utf8")).toBe("ours");
	});

	it("name the club's host, and never what a shell or a server would run", async () => {
		const dir = clubCopy();
		writeFileSync(join(dir, "_data/club.yaml"), "name: Club\nsite: 'https://a$(touch;x).example/'\n");
		await handbook(["new", "host", "storage", "--club", dir]);
		expect(readFileSync(join(dir, "hosting/storage/check.sh"), "utf8")).toContain("handbook.club.example");
		for (const script of ["check.sh", "publish.sh"]) {
			expect(spawnSync("sh", ["-n", join(dir, "hosting/storage", script)]).status).toBe(0);
		}
	});
});
