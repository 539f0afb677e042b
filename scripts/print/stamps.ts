/** Places for the edition of a sheet: in its foot, under each card or on each label of a sheet, or nowhere. */
export const STAMPS = ["foot", "up-2", "up-4", "alone", "labels", "none"] as const;
export type Stamp = (typeof STAMPS)[number];
