/** Problems as the desk lists them. */

import type { ProblemLine } from "../../layouts/desk/api.ts";
import type { Problem } from "../problems.ts";

export function problemLine({ code, severity, place, what, fix }: Problem): ProblemLine {
	return { code, severity, file: place.file, line: place.line, column: place.column, what, fix };
}
