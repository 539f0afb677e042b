/** Where something stands: both the model and the problems speak of it. */

/** A spot in a file of the club folder. Lines and columns count from 1. */
export interface Place {
	readonly file: string;
	readonly line: number;
	readonly column: number;
}
