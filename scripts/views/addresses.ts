/**
 * Addresses: where each thing's page stands on the site, as paths from its root, and the relative
 * path from one page to another, so that the site works in any folder of any host.
 */

import type { Id, LinkTarget } from "../model.ts";

/** A page's folder path from the root of the site, ending in a slash; the home page is "". */
export type Address = string;

export const HOME: Address = "";

/** What was taught: in the director's preview and build alone. */
export const TAUGHT: Address = "taught/";
/** Sums of it, where the club publishes them. */
export const TAUGHT_SUMS: Address = "taught-sums/";

/** The address of what `[[id]]` points at. A week's page is named by the week's file. */
export function addressOf(target: Pick<LinkTarget, "kind" | "id">): Address {
	return `${FOLDERS[target.kind]}/${target.id}/`;
}

export function weekApparatusAddress(weekId: Id, apparatus: Id): Address {
	return `weeks/${weekId}/${apparatus}/`;
}

export function classSheetAddress(classId: Id, weekId: Id): Address {
	return `classes/${classId}/${weekId}/`;
}

/** The way from one page to another page or file, as a relative reference. */
export function wayTo(from: Address, to: string): string {
	const up = from.split("/").length - 1;
	const way = "../".repeat(up) + to;
	return way === "" ? "./" : way;
}

const FOLDERS: Readonly<Record<LinkTarget["kind"], string>> = {
	drill: "drills",
	skill: "skills",
	shape: "shapes",
	apparatus: "apparatus",
	level: "levels",
	week: "weeks",
	equipment: "equipment",
	guide: "guides",
};

/** The file that holds the page of an address, from the root of the site. */
export function addressFile(address: Address): string {
	return address === "" || address.endsWith("/") ? `${address}index.html` : address;
}

export const LICENCES_FILE = "licences.txt";

/** Where printed sheets lie, as files from the root of the site. */
export const SHEET_FILES = {
	classSheet: (weekId: Id, classId: Id) => `print/weeks/${weekId}/class-sheets/${classId}.pdf`,
	weekPacket: (weekId: Id) => `print/weeks/${weekId}/packet.pdf`,
	stationCards: (weekId: Id, apparatus: Id, up: 2 | 4) =>
		`print/weeks/${weekId}/station-cards/${apparatus}-${up === 2 ? "two-up" : "four-up"}.pdf`,
	floorPlans: (weekId: Id, apparatus: Id) => `print/weeks/${weekId}/floor-plans/${apparatus}.pdf`,
	storeRoom: (weekId: Id) => `print/weeks/${weekId}/store-room.pdf`,
	labels: (weekId: Id) => `print/weeks/${weekId}/labels.pdf`,
	checkSheet: (level: Id) => `print/check-sheets/${level}.pdf`,
	termOverview: () => "print/term-overview.pdf",
	dividers: () => "print/dividers.pdf",
	/** Of one class, or of several that one coach has. */
	pocket: (classIds: readonly Id[]) => `print/pocket/${classIds.join("+")}.pdf`,
	binder: () => "print/binder.pdf",
	volume: (volume: string) => `print/${volume}.pdf`,
	/** The leaves that an earlier one needs. */
	updatePacket: (volume: string) => `print/update-packet${volume === "binder" ? "" : `-${volume}`}.pdf`,
} as const;
