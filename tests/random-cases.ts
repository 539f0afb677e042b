/**
 * How many random cases a test tries: all of them, and a tenth where somebody waits (`npm run test:fast`). What a test
 * wants to have met among them is a share of its cases too.
 */
export function cases(all: number): number {
	return process.env.HANDBOOK_FAST === undefined ? all : Math.ceil(all / 10);
}
