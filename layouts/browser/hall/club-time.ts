/**
 * The date and the time of day at the club, whatever the device's own time zone.
 */

export interface ClubTime {
	/** ISO 8601. */
	readonly date: string;
	/** "HH:MM", 24 hours. */
	readonly clock: string;
}

/** Now, in an IANA time zone; in the device's own where none is given. */
export function clubTime(timeZone: string | undefined): ClubTime {
	const parts = new Intl.DateTimeFormat("en", {
		...(timeZone === undefined ? {} : { timeZone }),
		year: "numeric",
		month: "2-digit",
		day: "2-digit",
		hour: "2-digit",
		minute: "2-digit",
		hourCycle: "h23",
	}).formatToParts(new Date());
	const part = (type: string) => parts.find((p) => p.type === type)?.value ?? "";
	return {
		date: `${part("year")}-${part("month")}-${part("day")}`,
		clock: `${part("hour")}:${part("minute")}`,
	};
}
