/**
 * What a host should say with every page: the policy, and that the handbook is nobody else's business.
 *
 * The pages say what a `meta` element can say. The rest is written out ready for common kinds of host:
 * `_headers` is read by many static hosts, `.htaccess` by Apache; `new host` writes what a server of
 * one's own is told. Whoever has such a file in the output already keeps it.
 */

/** What a `meta` element can say of the policy. */
export const POLICY =
	"default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; media-src 'self'; font-src 'self'; " +
	"connect-src 'self'; manifest-src 'self'; worker-src 'self'; base-uri 'none'; form-action 'self'; " +
	"require-trusted-types-for 'script'";

/** Powers of the browser that no page uses. The class sheet keeps the screen awake and may fill it. */
const NOT_USED = [
	"accelerometer",
	"browsing-topics",
	"camera",
	"display-capture",
	"geolocation",
	"gyroscope",
	"hid",
	"magnetometer",
	"microphone",
	"midi",
	"payment",
	"serial",
	"usb",
];

/** Every header with its value. */
export const HEADERS: ReadonlyMap<string, string> = new Map([
	["Content-Security-Policy", `${POLICY}; frame-ancestors 'none'`],
	["Cross-Origin-Opener-Policy", "same-origin"],
	["Cross-Origin-Resource-Policy", "same-origin"],
	["Permissions-Policy", NOT_USED.map((power) => `${power}=()`).join(", ")],
	["Referrer-Policy", "same-origin"],
	["X-Content-Type-Options", "nosniff"],
	["X-Frame-Options", "DENY"],
	["X-Robots-Tag", "noindex, nofollow"],
]);

/** What a host says of how long a file may be kept: for ever where its name has its content's hash, else asked for again each time. */
const FOR_EVER = "public, max-age=31536000, immutable";
const ASK_AGAIN = "no-cache";

/** Folders whose files have hashes in their names. */
const HASHED = ["offline", "media"] as const;

/** Everything else that lies at the root of a site, for hosts that cannot be told "all but these". */
const ASKED_AGAIN = [
	"/",
	"/index.html",
	"/404.html",
	"/licences.txt",
	"/manifest.webmanifest",
	"/worker.js",
	...[
		"about",
		"apparatus",
		"assets",
		"author-guide",
		"classes",
		"coverage",
		"data",
		"drills",
		"equipment",
		"findings",
		"guides",
		"levels",
		"measures",
		"previews",
		"print",
		"schemas",
		"search",
		"shapes",
		"skills",
		"taught-sums",
		"term",
		"weeks",
		"what-changed",
	].map((folder) => `/${folder}/*`),
] as const;

/** Types that stock servers do not know, or know otherwise. */
export const TYPES: ReadonlyMap<string, string> = new Map([
	["csv", "text/csv; charset=utf-8"],
	["ics", "text/calendar; charset=utf-8"],
	["webmanifest", "application/manifest+json"],
]);

/** Files of ours that are not for readers: what hosts are told. */
const NOT_FOR_READERS = ["_headers", ".htaccess"] as const;

/** The page for what is not there. */
const NOT_FOUND = "/404.html";

/**
 * The files for hosts that lie in the site, by path from its root: both kinds of host read them from there
 * alone. What an nginx is told is no file of the site, since whoever uploads the site would configure the
 * server with it: see `nginxServer`.
 */
export function hostFiles(): ReadonlyMap<string, string> {
	const lines = (line: (name: string, value: string) => string) =>
		[...HEADERS].map(([name, value]) => `${line(name, value)}\n`).join("");
	return new Map([
		[
			"_headers",
			[
				`/*\n${lines((name, value) => `  ${name}: ${value}`)}`,
				// Values of rules that meet are joined, so no path has two rules for its time. Types these hosts know.
				...HASHED.map((folder) => `/${folder}/*\n  Cache-Control: ${FOR_EVER}\n`),
				...ASKED_AGAIN.map((path) => `${path}\n  Cache-Control: ${ASK_AGAIN}\n`),
			].join("\n"),
		],
		[
			".htaccess",
			[
				"Options -Indexes",
				`ErrorDocument 404 ${NOT_FOUND}`,
				"<IfModule mod_mime.c>",
				...Array.from(TYPES, ([ending, type]) => `AddType "${type}" .${ending}`),
				"</IfModule>",
				"<IfModule mod_headers.c>",
				lines((name, value) => `Header always set ${name} "${value}"`).trimEnd(),
				`Header set Cache-Control "${ASK_AGAIN}"`,
				`Header set Cache-Control "${FOR_EVER}" "expr=%{REQUEST_URI} =~ m#/(${HASHED.join("|")})/#"`,
				"</IfModule>",
				...NOT_FOR_READERS.map((file) => `<Files "${file}">\nRequire all denied\n</Files>`),
				"",
			].join("\n"),
		],
	]);
}

/**
 * What stands in the `server` block of an nginx: the headers in every place where one of its own is set,
 * since a `location` with headers drops those around it.
 */
export function nginxServer(): string {
	const headers = (cache: string) =>
		[...HEADERS, ["Cache-Control", cache] as const]
			.map(([name, value]) => `\tadd_header ${name} "${value}" always;\n`)
			.join("");
	const location = (match: string, cache: string, more = "") =>
		`location ${match} {\n${more}${headers(cache)}}\n`;
	const types = Array.from(TYPES, ([ending, type]) =>
		location(`~ \\.${ending}$`, ASK_AGAIN, `\ttypes { }\n\tdefault_type "${type}";\n`),
	);
	return [
		"autoindex off;\n",
		`error_page 404 ${NOT_FOUND};\n`,
		...NOT_FOR_READERS.map((file) => `location = /${file} { return 404; }\n`),
		...types,
		location(`~ ^/(${HASHED.join("|")})/`, FOR_EVER),
		location("/", ASK_AGAIN),
	].join("");
}
