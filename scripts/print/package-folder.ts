/** Where an installed package lies, for its files that are no modules. */

import { findPackageJSON } from "node:module";
import { dirname } from "node:path";

/** The package's folder. Throws where it is not installed. */
export function packageFolder(name: string): string {
	const described = findPackageJSON(name, import.meta.url);
	if (described === undefined) throw new Error(`The package ${name} is not installed.`);
	return dirname(described);
}
