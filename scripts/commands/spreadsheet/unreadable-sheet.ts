/** A file that is no spreadsheet we read. Its message says what to do. */
export class UnreadableSheet extends Error {}
