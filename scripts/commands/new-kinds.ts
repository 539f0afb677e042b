/** What `new` writes: apart from the command itself, so that help does not load it. */

export const NEW_KINDS = ["drill", "week", "guide", "skill", "club", "host", "editor"] as const;
export type NewKind = (typeof NEW_KINDS)[number];

/** Kinds of hosts that `new host` writes files for; `clubs` builds many clubs beside one library. */
export const HOST_KINDS = ["pages", "storage", "nginx", "apache", "clubs"] as const;
export type HostKind = (typeof HOST_KINDS)[number];
