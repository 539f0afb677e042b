/**
 * `serve`: the site on this computer, built again at every change of the club folder.
 *
 * While the content has errors, every page shows them, with file and line, in place of itself; the
 * moment they are mended the page is back. A build that fails never ends the command.
 */

import { join } from "node:path";
import DevServer from "@11ty/eleventy-dev-server";
import { watch } from "chokidar";
import { problemsPage } from "../../layouts/pages/problems.ts";
import type { Problem } from "../problems.ts";
import { highlightCode } from "../render/highlight-code.ts";
import { writeHandbook } from "./build.ts";
import { openClub } from "./open-club.ts";
import { Staging } from "./publish.ts";
import { count, reportProblems, summary } from "./report.ts";
import { Progress, type Run } from "./run.ts";

/** Milliseconds without a further change before a build starts: editors write in several steps. */
const SETTLE = 40;

export async function serve(run: Run, { port }: { readonly port: number }): Promise<number> {
	const { clubDir, out } = run;
	const preview = join(clubDir, ".handbook-cache", "preview");
	let problems: readonly Problem[] = [];

	const rebuild = async (): Promise<void> => {
		const started = performance.now();
		const club = await openClub(clubDir, { highlight: highlightCode, keep: true });
		problems = club.problems.filter((p) => p.severity === "error");
		reportProblems(club.problems, clubDir, out);
		if (club.opened === undefined) return;
		const { handbook, media } = club.opened;
		const staging = new Staging(preview);
		try {
			const progress = new Progress({ ...run.progress, live: false, stream: { write: () => undefined } });
			const { pages } = await writeHandbook(handbook, staging, progress, { media });
			staging.publish();
			out.line(`${count(pages, "page")} in ${Math.round(performance.now() - started)} ms`);
		} finally {
			staging.discard();
		}
	};

	await rebuild();
	const server = DevServer.getServer("handbook", preview, {
		port,
		domDiff: false,
		logger: { info: out.line, log: out.line, error: out.line },
		middleware: [
			(request, response, next) => {
				const wantsPage = request.headers.accept?.includes("text/html") ?? false;
				if (problems.length === 0 || !wantsPage) return next();
				response.setHeader("Content-Type", "text/html; charset=utf-8");
				response.end(server.augmentContentWithNotifier(problemsPage(problems, summary(problems))));
			},
		],
	});
	server.serve(port);

	let timer: NodeJS.Timeout | undefined;
	let building: Promise<void> = Promise.resolve();
	const changed = (): void => {
		clearTimeout(timer);
		timer = setTimeout(() => {
			// One build after the other: a change during a build starts the next.
			building = building
				.then(rebuild)
				.catch((error: unknown) =>
					out.line(`The build failed: ${error instanceof Error ? error.message : String(error)}`),
				)
				.then(() => server.reload({}));
		}, SETTLE);
	};
	const watcher = watch(
		["content", "_data"].map((folder) => join(clubDir, folder)),
		{ ignoreInitial: true },
	).on("all", changed);

	await new Promise<void>((resolve) => {
		process.once("SIGINT", resolve);
		process.once("SIGTERM", resolve);
	});
	clearTimeout(timer);
	await watcher.close();
	await server.close();
	return 0;
}
