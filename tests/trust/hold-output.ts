/** Claims an output, says so, and keeps it until it is killed: `node hold-output.ts OUT`. */

import { Staging } from "../../scripts/commands/publish.ts";

const staging = new Staging(process.argv[2] ?? "");
staging.write("index.html", "half");
process.stdout.write("holding\n");
setInterval(() => undefined, 1000);
