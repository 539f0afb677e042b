/** The program as a process: what the command line does stands in `command-line.ts`. */

import { enableCompileCache } from "node:module";
import { fileURLToPath } from "node:url";
import { givenKind } from "../files/given.ts";
import { isRunByNpm } from "./npm-options.ts";

// What commands load is compiled once, not at every start. It lies beside the packages, where nobody
// writes who may not change the program itself; where it cannot be written, every start compiles.
enableCompileCache(fileURLToPath(new URL("../../node_modules/.cache/compiled/", import.meta.url)));

// npm runs a script in the package's folder. Paths are meant from where the command was typed, and so
// they are told; without `--club` the package itself is the club folder all the same.
const home = process.cwd();
const typed = isRunByNpm(process.env) ? process.env.INIT_CWD : undefined;
if (typed !== undefined && typed !== home && givenKind(typed) === "folder") process.chdir(typed);

// Whoever reads the lines may stop reading, as `head` does; that is no fault.
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
	if (error.code !== "EPIPE") throw error;
	process.exit();
});

const { runCommand } = await import("./command-line.ts");
const { stdout, stderr, env } = process;
process.exitCode = await runCommand(process.argv.slice(2), { stdout, stderr, env, home });
