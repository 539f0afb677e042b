/**
 * Files by which a club puts its handbook online, for the usual kinds of hosts: complete, with what to do
 * written in them, and private from the start. What a host says with each page is what the build's own files
 * for hosts say (views/host-headers.ts), so that there is one place for it. Each function here is one file's
 * text, whole, so that it can be read as the club gets it; that is why some are long.
 */

import { HEADERS, hostFiles, nginxServer, TYPES } from "../views/host-headers.ts";
import type { HostKind } from "./new-kinds.ts";
import type { NewFile } from "./new-texts.ts";

/** @param site the address that the club names, where it names one */
export function hostKindFiles(kind: HostKind, site: unknown): readonly NewFile[] {
	const name = hostOf(site) ?? "handbook.club.example";
	switch (kind) {
		case "pages":
			return [{ path: ".github/workflows/handbook.yml", text: pagesWorkflow() }];
		case "clubs":
			return [{ path: ".github/workflows/clubs.yml", text: clubsWorkflow() }];
		case "storage":
			return [
				{ path: "hosting/storage/publish.sh", text: publishScript() },
				...checkFiles("hosting/storage", name),
			];
		case "nginx":
			return [
				{ path: "hosting/nginx/handbook.conf", text: nginxConf(name) },
				...checkFiles("hosting/nginx", name),
			];
		case "apache":
			return [
				{ path: "hosting/apache/handbook.conf", text: apacheConf(name) },
				...checkFiles("hosting/apache", name),
			];
	}
}

/** The host of an address; undefined for what could mean more than a name in a script or a server's file. */
function hostOf(site: unknown): string | undefined {
	if (typeof site !== "string" || !URL.canParse(site)) return undefined;
	const { hostname } = new URL(site);
	return /^[a-z0-9]([a-z0-9.-]*[a-z0-9])?$/.test(hostname) ? hostname : undefined;
}

/** What to do next, in a line or two. */
export function hostNext(kind: HostKind): readonly string[] {
	switch (kind) {
		case "pages":
		case "clubs":
			return [
				"Read the first lines of the file: they say what is private, and what to set before it publishes.",
			];
		case "storage":
			return ["Next: the first lines of hosting/storage/publish.sh, then sh hosting/storage/publish.sh."];
		default:
			return [
				`Next: the first lines of hosting/${kind}/handbook.conf; when it runs, sh hosting/${kind}/check.sh.`,
			];
	}
}

/** Steps that all workflows begin with. */
const SETUP = `      - uses: actions/checkout@v6
      - uses: actions/setup-node@v6
        with:
          node-version: 24
          cache: npm
      - run: npm ci`;

/** Puts the number of the edition back into the repository: the next build, wherever it is, counts on from it. */
const NOTE_EDITION = `          git config user.name "handbook"
          git config user.email "handbook@users.noreply.invalid"
          git add -- $files
          git diff --cached --quiet || { git commit -m "edition" && git pull --rebase && git push; }`;

function pagesWorkflow(): string {
	return `# Builds the handbook at every change, and publishes it as the pages of the repository.
#
# What is private, and what is not:
# - The repository with content/ and _data/ is for whom you share it with. Make it private.
# - Pages of a forge are open to everybody on the web, unless the forge lets you limit them to the
#   repository's members. The handbook asks search engines to leave it out; that keeps nobody out.
# - So nothing is published until you have looked that up and said so: in the repository's settings switch
#   on pages "from a workflow", limit who may see them, then set the variable HANDBOOK_PAGES to private.
#   Until then each build is kept with its run for seven days, for members only.
# - Pages cannot be told which headers to send. The policy against foreign programs stands in every page
#   as well; what only a header can say (no framing, no index) is missing. Who needs it takes a server.
#
# package.json and package-lock.json belong into the repository: they say which version builds it.
${workflowHead("handbook")}
jobs:
  build:
    runs-on: ubuntu-latest
    timeout-minutes: 30
    permissions:
      contents: write
    steps:
${SETUP}
      - run: npm run check
      # With sheets and binder: the runner has a browser. Without one, add -- --no-print.
      - run: npm run build -- --out "$RUNNER_TEMP/site"
      - name: Keep the number of the edition
        if: github.ref == 'refs/heads/main' && github.event_name != 'pull_request'
        run: |
          files=_data/edition.json
${NOTE_EDITION}
      - uses: actions/upload-pages-artifact@v4
        with:
          path: \${{ runner.temp }}/site/
          retention-days: 7

  publish:
    needs: build
    if: vars.HANDBOOK_PAGES == 'private' && github.ref == 'refs/heads/main' && github.event_name != 'pull_request'
    runs-on: ubuntu-latest
    timeout-minutes: 10
    permissions:
      pages: write
      id-token: write
    environment:
      name: github-pages
      url: \${{ steps.pages.outputs.page_url }}
    steps:
      - id: pages
        uses: actions/deploy-pages@v4
`;
}

/** When a workflow runs, and what it may do. */
function workflowHead(name: string): string {
	return `name: ${name}

on:
  push:
    branches: [main]
  pull_request:
  workflow_dispatch:

permissions:
  contents: read

concurrency:
  group: ${name}-\${{ github.ref }}
  cancel-in-progress: false
`;
}

function clubsWorkflow(): string {
	return `# Builds those of many clubs that a change touches. The repository holds
#
#   package.json, package-lock.json   which version builds all of them
#   clubs/<name>/                     a club each: content/ and _data/; names of a-z, 0-9 and hyphens
#   library/                          what they share: each club's club.yaml names it (libraries: [../../library])
#
# A change below clubs/<name>/ builds that club; a change of anything else builds them all. Twenty clubs
# share a machine: five hundred clubs are 25 jobs, each of which installs the program once.
#
# Nothing is published here. Each job keeps the sites of its clubs with the run for seven days, for members
# of the repository only; add a step that copies "$RUNNER_TEMP/sites/<name>/" to each club's own host.
${workflowHead("clubs")}
jobs:
  which:
    runs-on: ubuntu-latest
    timeout-minutes: 5
    outputs:
      batches: \${{ steps.which.outputs.batches }}
    steps:
      - uses: actions/checkout@v6
        with:
          fetch-depth: 0
      - id: which
        env:
          BEFORE: \${{ github.event.pull_request.base.sha || github.event.before }}
        run: |
          all=$(ls clubs | grep -E '^[a-z0-9-]+$' || true)
          if [ -n "$BEFORE" ] && git cat-file -e "$BEFORE^{commit}" 2>/dev/null; then
            changed=$(git diff --name-only "$BEFORE" HEAD)
          else
            changed=everything
          fi
          if [ -n "$changed" ] && printf '%s\\n' "$changed" | grep -qvE '^clubs/[a-z0-9-]+/'; then
            clubs=$all
          else
            clubs=$(printf '%s\\n' "$changed" | cut -d/ -f2 | sort -u | while read -r club; do
              if [ -d "clubs/$club" ]; then echo "$club"; fi
            done)
          fi
          batches=$(printf '%s\\n' "$clubs" | xargs -n 20 | sed '/^$/d; s/.*/"&"/' | paste -sd, -)
          echo "batches=[$batches]" >> "$GITHUB_OUTPUT"

  build:
    needs: which
    if: needs.which.outputs.batches != '[]'
    strategy:
      fail-fast: false
      matrix:
        clubs: \${{ fromJSON(needs.which.outputs.batches) }}
    runs-on: ubuntu-latest
    timeout-minutes: 60
    steps:
${SETUP}
      # One club's mistake does not keep the others from being built.
      - env:
          CLUBS: \${{ matrix.clubs }}
        run: |
          failed=
          for club in $CLUBS; do
            npx handbook build --club "clubs/$club" --out "$RUNNER_TEMP/sites/$club" || failed="$failed $club"
          done
          if [ -n "$failed" ]; then echo "not built, or not whole:$failed"; exit 1; fi
      - if: always()
        run: |
          for club in "$RUNNER_TEMP"/sites/*/; do
            tar -cf "$RUNNER_TEMP/$(basename "$club").tar" -C "$club" .
          done
      - if: always()
        uses: actions/upload-artifact@v4
        with:
          name: sites-\${{ strategy.job-index }}
          path: \${{ runner.temp }}/*.tar
          retention-days: 7
      - if: always()
        uses: actions/upload-artifact@v4
        with:
          name: editions-\${{ strategy.job-index }}
          path: clubs/*/_data/edition.json
          retention-days: 7

  editions:
    needs: build
    if: always() && needs.build.result != 'skipped' && github.ref == 'refs/heads/main' && github.event_name != 'pull_request'
    runs-on: ubuntu-latest
    timeout-minutes: 10
    permissions:
      contents: write
    steps:
      - uses: actions/checkout@v6
      # A job has the files of all clubs, and a new one only of those that it built.
      - uses: actions/download-artifact@v5
        with:
          pattern: editions-*
          path: \${{ runner.temp }}/editions
      - name: Keep the numbers of the editions
        run: |
          for file in "$RUNNER_TEMP"/editions/*/*/_data/edition.json; do
            club=$(basename "$(dirname "$(dirname "$file")")")
            to="clubs/$club/_data/edition.json"
            number() { sed -n 's/.*"number": *\\([0-9]*\\).*/\\1/p' "$1" 2>/dev/null || true; }
            if [ "$(number "$file")" -gt "$(n=$(number "$to"); echo "\${n:-0}")" ]; then mkdir -p "$(dirname "$to")" && cp "$file" "$to"; fi
          done
          files=$(git ls-files -mo -- 'clubs/*/_data/edition.json')
${NOTE_EDITION}
`;
}

function publishScript(): string {
	const types = [...TYPES].map(
		([ending, type]) => `put "no-cache" --include "*.${ending}" --header-upload "Content-Type: ${type}"`,
	);
	return `#!/bin/sh
# Builds the handbook and copies it to object storage behind a delivery network, with rclone.
#
# Once, before the first time:
# 1. A bucket that nobody may read but the delivery network. No public website, no public list.
# 2. At the network's edge: HTTPS only; a sign-in in front of every path (the club's accounts, or one
#    password for all coaches); the headers in response-headers.txt on every answer, also on errors;
#    404.html, with status 404, for what is not there; index.html for a path that ends in a slash.
# 3. rclone config: the bucket as a remote.
#
# Each time, from the club's folder:
#   HANDBOOK_REMOTE=remote:bucket sh hosting/storage/publish.sh
set -eu
: "\${HANDBOOK_REMOTE:?Say where to, as rclone knows it: HANDBOOK_REMOTE=remote:bucket}"
out=\${HANDBOOK_OUT:-\${TMPDIR:-/tmp}/handbook-site}

npm run check
npm run build -- --out "$out"

# Usage: put <how long it may be kept> <rclone's filters and headers>
put() {
	kept=$1
	shift
	rclone copy --copy-links --checksum "$@" --header-upload "Cache-Control: $kept" "$out/" "$HANDBOOK_REMOTE"
}
# Files named by their content first, so that a new page never asks for what is not there yet.
put "public, max-age=31536000, immutable" --include "/offline/**" --include "/media/**"
${types.join("\n")}
put "no-cache" --exclude "/_headers" --exclude "/.htaccess" --exclude "/worker.js"
# A device takes the new edition when this file changes: it comes last.
put "no-cache" --include "/worker.js"
# What the new edition has no more.
rclone sync --copy-links --checksum --exclude "/_headers" --exclude "/.htaccess" "$out/" "$HANDBOOK_REMOTE"
echo "Copied. Now: sh hosting/storage/check.sh"
`;
}

function nginxConf(name: string): string {
	return `# The handbook on nginx, for coaches only: HTTPS, one password, the headers of the handbook's policy.
#
# 1. The site:      npm run build -- --out site && rsync -a --delete site/ ${name}:/srv/handbook/
# 2. The password:  printf 'coach:%s\\n' "$(openssl passwd -6)" > /etc/nginx/handbook.users
#                   then: chown root:www-data /etc/nginx/handbook.users && chmod 640 /etc/nginx/handbook.users
#                   With the club's own accounts: auth_request in the place of the two auth_basic lines.
# 3. The certificate at the two paths below.
# 4. This file into /etc/nginx/conf.d/, then: nginx -t && systemctl reload nginx
# 5. sh hosting/nginx/check.sh
#
# After an update of the program: remove this folder, write it again, and look at what differs.

server {
	listen 80;
	listen [::]:80;
	server_name ${name};
	return 301 https://$host$request_uri;
}

server {
	listen 443 ssl http2;
	listen [::]:443 ssl http2;
	server_name ${name};
	ssl_certificate /etc/ssl/handbook/fullchain.pem;
	ssl_certificate_key /etc/ssl/handbook/privkey.pem;
	ssl_protocols TLSv1.2 TLSv1.3;
	server_tokens off;

	auth_basic "Handbook";
	auth_basic_user_file /etc/nginx/handbook.users;

	root /srv/handbook;
	index index.html;
	gzip on;
	gzip_types text/css text/csv text/javascript application/javascript application/json application/manifest+json image/svg+xml;

${indented(nginxServer())}}
`;
}

function apacheConf(name: string): string {
	return `# The handbook on Apache, for coaches only: HTTPS, one password, the headers of the handbook's policy.
#
# 1. The site:      npm run build -- --out site && rsync -a --delete site/ ${name}:/srv/handbook/
# 2. The password:  htpasswd -B -c /etc/apache2/handbook.users coach
#                   then: chown root:www-data /etc/apache2/handbook.users && chmod 640 /etc/apache2/handbook.users
#                   With the club's own accounts: the module for them in the place of the Auth lines.
# 3. The certificate at the two paths below.
# 4. This file into /etc/apache2/sites-available/, then:
#    a2enmod ssl headers mime dir deflate auth_basic authn_file authz_user && a2ensite handbook
#    apache2ctl configtest && systemctl reload apache2
# 5. sh hosting/apache/check.sh
#
# The site's own .htaccess says the same and is not read here: whoever uploads the site does not
# configure the server with it. After an update of the program: remove this folder, write it again, and
# look at what differs.

<VirtualHost *:80>
	ServerName ${name}
	Redirect permanent / https://${name}/
</VirtualHost>

<VirtualHost *:443>
	ServerName ${name}
	SSLEngine on
	SSLCertificateFile /etc/ssl/handbook/fullchain.pem
	SSLCertificateKeyFile /etc/ssl/handbook/privkey.pem
	SSLProtocol -all +TLSv1.2 +TLSv1.3
	DocumentRoot /srv/handbook
	DirectoryIndex index.html

	<Directory /srv/handbook>
		AllowOverride None
		AuthType Basic
		AuthName "Handbook"
		AuthUserFile /etc/apache2/handbook.users
		Require valid-user
		<IfModule mod_deflate.c>
			AddOutputFilterByType DEFLATE text/html text/css text/csv text/javascript application/javascript application/json application/manifest+json image/svg+xml
		</IfModule>
${indented(hostFiles().get(".htaccess") ?? "", 2)}	</Directory>
</VirtualHost>
`;
}

function indented(text: string, by = 1): string {
	return text.replace(/^(?=.)/gm, "\t".repeat(by));
}

/** A check of what a host answers, and the headers that it goes by. */
function checkFiles(folder: string, name: string): readonly NewFile[] {
	const headers = [...HEADERS].map(([header, value]) => `${header}: ${value}\n`).join("");
	return [
		{ path: `${folder}/response-headers.txt`, text: headers },
		{ path: `${folder}/check.sh`, text: checkScript(folder, name) },
	];
}

function checkScript(folder: string, name: string): string {
	return `#!/bin/sh
# Asks the published handbook whether it is private, sends its headers and has its page for what is not
# there. Ends with 1 where one of these is not so. Needs curl.
#
#   HANDBOOK_SITE=https://${name} HANDBOOK_SIGN_IN=sign-in.txt sh ${folder}/check.sh
#
# sign-in.txt is a file of curl's options that signs in, for example: user = "coach:the password"
# HANDBOOK_ORIGIN may name the storage's own address, which has to refuse everybody.
set -u
site=\${HANDBOOK_SITE:-https://${name}}
here=$(dirname "$0")
wrong=0
ask() { curl --silent --show-error --max-time 20 "$@"; }
status() { ask --output /dev/null --write-out '%{http_code}' "$@"; }
signed_in() { if [ -n "\${HANDBOOK_SIGN_IN:-}" ]; then ask --config "$HANDBOOK_SIGN_IN" "$@"; else ask "$@"; fi; }
expect() { # what, is, wanted
	if [ "$2" = "$3" ]; then echo "ok    $1"; else echo "WRONG $1: $2, not $3"; wrong=1; fi
}

for path in / /index.html /data/handbook.json /assets/site.css /nothing/here/; do
	open=$(status "$site$path")
	if [ "$open" = 200 ] || [ "$open" = 404 ] || [ "$open" = 000 ]; then
		echo "WRONG $path without signing in: $open. Anybody can read the handbook, or nothing answers."
		wrong=1
	else
		echo "ok    $path is refused without signing in: $open"
	fi
done
if [ -n "\${HANDBOOK_ORIGIN:-}" ]; then
	open=$(status "$HANDBOOK_ORIGIN/index.html")
	if [ "$open" = 200 ]; then echo "WRONG the storage's own address opens to everybody"; wrong=1; fi
fi

for path in / /worker.js /nothing/here/; do
	answer=$(signed_in --dump-header - --output /dev/null "$site$path" | tr -d '\\r')
	while IFS= read -r header; do
		if printf '%s\\n' "$answer" | grep -iqxF "$header"; then has=yes; else has=no; fi
		expect "$path sends \${header%%:*}" "$has" yes
	done < "$here/response-headers.txt"
done
kept() { signed_in --dump-header - --output /dev/null "$site$1" | tr -d '\\r' | sed -n 's/^cache-control: *//Ip'; }
expect "/ is asked for again" "$(kept /)" no-cache
expect "a folder opens its page" "$(signed_in --output /dev/null --write-out '%{http_code}' "$site/drills/")" 200
expect "status of what is not there" "$(signed_in --output /dev/null --write-out '%{http_code}' "$site/nothing/here/")" 404
page=$(signed_in "$site/nothing/here/" | grep -c 'class="kind-not-found"')
expect "the handbook's own page for it" "$page" 1
expect "type of the manifest" "$(signed_in --output /dev/null --write-out '%{content_type}' "$site/manifest.webmanifest")" application/manifest+json
for path in /_headers /.htaccess; do
	told=$(signed_in --output /dev/null --write-out '%{http_code}' "$site$path")
	if [ "$told" = 200 ]; then echo "WRONG $path is shown to readers"; wrong=1; fi
done
exit $wrong
`;
}
