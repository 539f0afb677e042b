/**
 * The interval in which a share lies that was counted of a few: Wilson's score interval.
 *
 * E. B. Wilson, "Probable inference, the law of succession, and statistical inference", Journal of the
 * American Statistical Association 22 (1927) 209–212. It stays within 0 and 1 and holds for small numbers
 * and for none or all of them, where the usual plus and minus does not.
 */

/** The 97.5 % point of the normal distribution. */
const Z = 1.959963984540054;

export interface Share {
	readonly share: number;
	/** Ends of the 95 % interval. */
	readonly low: number;
	readonly high: number;
}

/** The share of `count` in `of`, which is at least 1. */
export function wilson(count: number, of: number): Share {
	const share = count / of;
	const zz = Z * Z;
	const middle = 2 * count + zz;
	const half = Z * Math.sqrt(zz + 4 * count * (1 - share));
	const whole = 2 * (of + zz);
	return {
		share,
		low: count === 0 ? 0 : (middle - half) / whole,
		high: count === of ? 1 : (middle + half) / whole,
	};
}
