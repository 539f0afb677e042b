/** A coach's report: what is written is read back, in whatever text it stands; what is none is refused. */

import { Ajv } from "ajv";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import schema from "../../scripts/records/report.schema.json" with { type: "json" };
import {
	CAUSES,
	DONE,
	FELT,
	isSmallEnough,
	judged,
	LOOKS,
	MOST_BYTES,
	MOST_NOTE,
	markOf,
	noteOf,
	type Report,
	readReports,
	reportText,
} from "../../scripts/records/report.ts";

const id = fc.stringMatching(/^[a-z0-9]{1,12}(-[a-z0-9]{1,8}){0,2}$/);
const note = fc.option(fc.string({ maxLength: 60, unit: "grapheme" }).map(noteOf), { nil: undefined });
const optional = <T>(arb: fc.Arbitrary<T>) => fc.option(arb, { nil: undefined });

const report: fc.Arbitrary<Report> = fc
	.record({
		week: id,
		class: id,
		from: fc.stringMatching(/^[a-z0-9]{10}$/),
		revision: fc.integer({ min: 1, max: 9999 }),
		edition: fc.nat(1000),
		note,
		blocks: fc.uniqueArray(
			fc.record({
				group: optional(id),
				apparatus: id,
				block: fc.integer({ min: 1, max: 20 }),
				mark: fc.array(id, { minLength: 1, maxLength: 4 }).map(markOf),
				done: optional(fc.constantFrom(...DONE)),
				lost: optional(fc.integer({ min: 1, max: 60 })),
				cause: optional(fc.constantFrom(...CAUSES)),
				felt: optional(fc.constantFrom(...FELT)),
				look: optional(fc.constantFrom(...LOOKS)),
				note,
			}),
			{ maxLength: 8, selector: ({ group, apparatus, block }) => `${group} ${apparatus} ${block}` },
		),
		skills: fc.uniqueArray(
			fc
				.record({
					group: optional(id),
					skill: id,
					of: fc.integer({ min: 1, max: 30 }),
					a: fc.nat(30),
					p: fc.nat(30),
				})
				.map(({ a, p, of, ...rest }) => {
					const alone = Math.min(a, of);
					return { ...rest, of, alone, helped: Math.min(p, of - alone) };
				}),
			{ maxLength: 8, selector: ({ group, skill }) => `${group} ${skill}` },
		),
	})
	.map((one) => JSON.parse(JSON.stringify(one)) as Report)
	.filter(isSmallEnough);

describe("a report", () => {
	it("is read back as it was written, within 2 kB", () => {
		fc.assert(
			fc.property(report, (one) => {
				const text = reportText(one);
				expect(new TextEncoder().encode(text).length).toBeLessThanOrEqual(MOST_BYTES);
				expect(readReports(text)).toEqual({ reports: [one], faults: [] });
			}),
		);
	});

	it("is read out of mails, quoted and broken where there was a space, and several at once", () => {
		fc.assert(
			fc.property(report, report, (one, other) => {
				const mail = (text: string) =>
					`Hello,\r\nhere it is {"not":"one"}:\r\n\r\n> ${text.replaceAll(" ", " \r\n> ")}\r\n-- \r\nSent`;
				expect(readReports(mail(reportText(one)) + mail(reportText(other))).reports).toEqual([one, other]);
			}),
		);
	});

	it("is what the schema says, and nothing else is: both judge alike whatever is changed in it", () => {
		const validate = new Ajv({ allErrors: true }).compile(schema);
		let [good, bad] = [0, 0];
		fc.assert(
			fc.property(report, fc.jsonValue({ maxDepth: 2 }), fc.nat(200), (one, junk, at) => {
				const value: unknown = JSON.parse(reportText(one));
				const changed = at < 20 ? value : spoilt(value, at, junk);
				const isGood = typeof judged(changed) !== "string";
				// That a list has nothing twice, and no more can do it than were there, no schema says.
				if (isGood) expect(validate(changed), JSON.stringify(validate.errors)).toBe(true);
				else if (!/twice|More can/.test(String(judged(changed)))) expect(validate(changed)).toBe(false);
				if (isGood) good++;
				else bad++;
			}),
			{ numRuns: 400 },
		);
		expect(Math.min(good, bad)).toBeGreaterThan(20);
	});

	it("has no field for a person", () => {
		const names = JSON.stringify(schema).match(/"([a-z]+)":\{/g) ?? [];
		expect(names.join(" ")).not.toMatch(/name|gymnast|coach|child|person|author|device/i);
	});

	it("of a large class fits where every tap was made: 18 blocks, 8 skills, a line", () => {
		const large: Report = {
			week: "week-10",
			class: "saturday-beginners-and-level-1",
			from: "k3f9a2b81c",
			revision: 12,
			edition: 140,
			note: "x".repeat(MOST_NOTE),
			blocks: Array.from({ length: 18 }, (_, i) => ({
				apparatus: "uneven-bars",
				block: i + 1,
				mark: markOf([`drill-number-${i}`]),
				done: "shortened",
				lost: 5,
				cause: "settling",
				felt: "too-hard",
			})),
			skills: Array.from({ length: 8 }, (_, i) => ({
				skill: `backward-roll-to-stand-${i}`,
				of: 12,
				alone: 5,
				helped: 3,
			})),
		};
		expect(isSmallEnough(large)).toBe(true);
	});

	it("of too much, too deep, cut off, or of none says so without a word of the text", () => {
		const fault = (text: string) => readReports(text).faults.join();
		const head = '{"handbook":"taught","v":1,"w":"week-1","c":"mon","i":"k3f9a2b81c","r":1,"e":1';
		expect(fault("")).toBe("There is no report in it.");
		expect(fault("x".repeat(500_000))).toBe("It is larger than reports are.");
		expect(fault(`${head},"b":[[[[[1]]]]],"k":[]}`)).toBe("It breaks off, or is too long.");
		expect(fault(`${head},"b":[`)).toBe("It breaks off, or is too long.");
		expect(fault(`${head},"b":[],"k":[],"t":"${"x".repeat(2100)}"}`)).toBe("It is larger than 2 kB.");
		expect(fault(`${head},"b":[],"k":[],"__proto__":{}}`)).toBe("It has a field that reports do not have.");
		expect(fault(`${head},"b":[],"k":[],"t":"a\\u202eb"}`)).toBe("Its note is not what may stand there.");
		expect(fault(`${head.replace("mon", "../mon")},"b":[],"k":[]}`)).toBe(
			"Its class is not what may stand there.",
		);
		expect(fault(`${head.replace('"v":1', '"v":2')},"b":[],"k":[]}`)).toBe(
			"It is of another version of this program.",
		);
	});
});

/** A value with one of its parts in another form. */
function spoilt(value: unknown, at: number, junk: unknown): unknown {
	const paths: (readonly string[])[] = [];
	const walk = (one: unknown, path: readonly string[]): void => {
		if (path.length > 0) paths.push(path);
		if (typeof one === "object" && one !== null)
			for (const key of Object.keys(one)) walk(Reflect.get(one, key), [...path, key]);
	};
	walk(value, []);
	const path = paths[at % paths.length] ?? [];
	const copy = structuredClone(value);
	let inner = copy as Record<string, unknown>;
	for (const step of path.slice(0, -1)) inner = inner[step] as Record<string, unknown>;
	const last = path.at(-1) ?? "";
	if (at % 3 === 0 && !Array.isArray(inner)) delete inner[last];
	else if (at % 3 === 1) inner[last] = junk;
	else if (!Array.isArray(inner)) inner[`${last}x`] = junk;
	return copy;
}
