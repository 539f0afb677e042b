/**
 * What a host should say with every page: the policy, and that the handbook is nobody else's business.
 *
 * The pages say what a `meta` element can say. The rest is written out ready for three common kinds of
 * host: `_headers` is read by many static hosts, `.htaccess` by Apache, and `nginx-headers.conf` is
 * included by nginx. Whoever has such a file in the output already keeps it.
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

/** The files for hosts, by path from the root of the site. */
export function hostFiles(): ReadonlyMap<string, string> {
	const lines = (line: (name: string, value: string) => string) =>
		[...HEADERS].map(([name, value]) => `${line(name, value)}\n`).join("");
	return new Map([
		["_headers", `/*\n${lines((name, value) => `  ${name}: ${value}`)}`],
		[
			".htaccess",
			`<IfModule mod_headers.c>\n${lines((name, value) => `Header always set ${name} "${value}"`)}</IfModule>\n` +
				"<Files nginx-headers.conf>\nRequire all denied\n</Files>\n<Files _headers>\nRequire all denied\n</Files>\n",
		],
		["nginx-headers.conf", lines((name, value) => `add_header ${name} "${value}" always;`)],
	]);
}
