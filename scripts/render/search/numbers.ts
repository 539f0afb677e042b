/**
 * Whole numbers as text: small ones take one character, and the text needs no escaping in JSON. Under
 * a host's compression it is as small as bytes would be, and every host compresses text.
 *
 * The alphabet is that of printable ASCII from `#` on without the backslash: 91 characters, of which
 * the first 59 end a number and the others each hold five bits more of it.
 */

const FIRST = 35;
const BACKSLASH = 92;
const ENDS = 59;
const BITS = 5;

/** Writes numbers from 0 up to below 2^30. */
export function packNumbers(numbers: Iterable<number>): string {
	let text = "";
	for (const number of numbers) {
		let rest = number;
		while (rest >= ENDS) {
			rest -= ENDS;
			text += character(ENDS + (rest & 31));
			rest >>>= BITS;
		}
		text += character(rest);
	}
	return text;
}

/** Reads them back. */
export function unpackNumbers(text: string): number[] {
	const numbers: number[] = [];
	let number = 0;
	let bits = 0;
	for (let i = 0; i < text.length; i++) {
		const code = text.charCodeAt(i);
		const digit = code - FIRST - (code > BACKSLASH ? 1 : 0);
		if (digit < ENDS) {
			numbers.push(number + (digit << bits));
			number = 0;
			bits = 0;
		} else {
			// Five bits, and the 59 that were taken off before they were split off.
			number += digit << bits;
			bits += BITS;
		}
	}
	return numbers;
}

function character(digit: number): string {
	const code = FIRST + digit;
	return String.fromCharCode(code >= BACKSLASH ? code + 1 : code);
}
