/** The texts that `new` writes: the fields that matter, and comments that teach the next ones. */

import type { FileKind, Id } from "../model.ts";
import { FORMAT } from "../validate/check-format.ts";
import type { Choice } from "./ask.ts";
import { EDITOR_SCHEMAS } from "./editor-files.ts";

export interface NewFile {
	readonly path: string;
	readonly text: string;
}

/** A text as YAML takes it in one line. */
function quoted(text: string): string {
	return /^[\p{L}][\p{L}\p{N} ,'()-]*$/u.test(text) &&
		!/^(true|false|null|yes|no|on|off)$/i.test(text) &&
		text === text.trim()
		? text
		: JSON.stringify(text);
}

function list(ids: readonly Id[]): string {
	return ids.length === 1 ? quotedId(ids[0] ?? "") : inBrackets(ids);
}

function inBrackets(ids: readonly Id[]): string {
	return `[${ids.map(quotedId).join(", ")}]`;
}

/** An id of figures alone would be read as a number; it is still its text. */
function quotedId(id: Id): string {
	return /^(true|false|null)$/.test(id) ? JSON.stringify(id) : id;
}

function modeline(schema: string | undefined): string {
	return schema === undefined ? "" : `# yaml-language-server: $schema=${schema}\n`;
}

export function drillText(drill: {
	readonly title: string;
	readonly apparatus: readonly Id[];
	readonly levels: readonly Id[];
	readonly shapes: readonly Id[];
	readonly skills: readonly Id[];
	readonly schema: string | undefined;
}): string {
	const shapes = drill.shapes.length > 0 ? `shapes: ${inBrackets(drill.shapes)}` : "# shapes: [hollow, arch]";
	const skills = drill.skills.length > 0 ? `skills: ${inBrackets(drill.skills)}` : "# skills: [forward-roll]";
	const level = drill.levels[0] ?? "level-1";
	return `---
${modeline(drill.schema)}title: ${quoted(drill.title)}
apparatus: ${list(drill.apparatus)}
levels: ${inBrackets(drill.levels)}
# How each level does it: put a map in place of the list above.
# levels:
#   ${level}: {do: "Two steps and hold.", sets: 2, reps: 3, hold: 5}
# Equipment, spotting, heights, figures and so on may stand there as well: they replace those below.

# One sentence for lists and cards:
# summary: What the gymnast does, in one sentence.

# What it trains. Coverage, spacing and balance are counted from these:
${shapes}
${skills}
# performs: [forward-roll]       # skills that are done here, helped or not; those above it prepares
# after: [id-of-a-drill]         # taught before this one
# ready:                         # done before the first try, or seen by the coach
#   - {drill: id-of-a-drill, reps: 10}
#   - Holds a dish for ten seconds
# direction: forward            # forward, backward, sideways or none
# sides: each                   # both, each or lead

# What one station needs, and how long one turn takes:
# equipment: {panel-mat: 1}
# turn: {seconds: 20, at-once: 2, reps: 3}   # without reps a turn is a set
# hold-of: set                  # what hold is counted for: rep, set or last
# run: 8                        # metres to run up, and free behind: for floor plans
# run-out: 3
# contacts: {landings: 1, hands: 0}   # of one repetition

# What to say, and what to look for:
# cues: [Arms by the ears, Squeeze tight]
# faults:
#   - {see: "Low back sags", say: "Close your ribs."}
# easier: [From one knee]
# harder: [With eyes closed]

# Where somebody could get hurt, say how to keep them safe:
# spotting: Stand at the side, one hand under the shoulder.
# spotters: 1                   # coaches whose hands are needed
# watch: true                   # a coach has to be looking
# caution: One gymnast on the mat at a time.
---
Describe the drill here. A link to a shape, a skill or another drill is its id in double brackets.
`;
}

export function weekText(week: {
	readonly week: number;
	readonly theme: string;
	readonly apparatus: readonly { readonly id: Id; readonly drill: Id | undefined }[];
	readonly schema: string | undefined;
}): string {
	const plans = week.apparatus.map(({ id, drill }) => {
		const block =
			drill === undefined
				? "    blocks: []\n    # blocks:\n    #   - {drill: id-of-a-drill, minutes: 8}"
				: `    blocks:\n      # An example: put your own drills here.\n      - drill: ${quotedId(drill)}\n        minutes: 8`;
		return `  ${quotedId(id)}:\n    # focus: What this apparatus is about this week.\n${block}`;
	});
	return `---
${modeline(week.schema)}week: ${week.week}
theme: ${quoted(week.theme)}
# Under each apparatus stand its blocks, in the order they are taught. A block is one drill,
#   - {drill: id-of-a-drill, minutes: 8, levels: level-1, note: "A word for the coach."}
# or stations side by side, among which the group rotates:
#   - minutes: 12
#     change: 0.5
#     stations:
#       - drill: id-of-a-drill
#       - drill: id-of-another
# or options of which the coach chooses:
#   - minutes: 6
#     choose: 1
#     options: [{drill: id-of-a-drill}, {drill: id-of-another, note: "With a small group."}]
# Any block may say more: \`show: 1\` (minutes for showing it), \`dose: {sets: 2, reps: 4}\` (this week's),
# \`session: 2\` (only in the second meeting of the week).
# Without \`levels\` a block is for all levels that its drill offers.
apparatus:
${plans.join("\n")}
---
Write here what coaches should know about this week.
`;
}

export function guideText({
	title,
	schema,
}: {
	readonly title: string;
	readonly schema: string | undefined;
}): string {
	return `---
${modeline(schema)}title: ${quoted(title)}
# order: 1   # where it stands among the guides; without it, by title
---
Write the guide here, in Markdown. A link to a drill or a shape is its id in double brackets.
`;
}

export function skillEntry(skill: {
	readonly id: Id;
	readonly name: string;
	readonly apparatus: readonly Id[];
	readonly levels: readonly Id[];
}): string {
	const apparatus = skill.apparatus.length === 0 ? "" : `  apparatus: ${inBrackets(skill.apparatus)}\n`;
	const levels = skill.levels.length === 0 ? "" : `  levels: ${inBrackets(skill.levels)}\n`;
	return `- id: ${quotedId(skill.id)}
  name: ${quoted(skill.name)}
${apparatus}${levels}  # needs: [id-of-a-skill]    # taught before it
  # pattern: rotation         # landing, statics, locomotion, rotation, swing, spring or handling
  # direction: forward        # forward, backward, sideways or none
  # criteria: [Hips pass over the hands, Stands up without hands]   # what must be seen; on check sheets
`;
}

/** Everything a new club folder holds. It builds at once: one drill, one week, one guide. Long by their texts. */
export function clubFolderFiles(club: {
	readonly name: string;
	readonly levels: readonly Choice[];
	readonly apparatus: readonly Choice[];
	readonly starts: string;
	readonly weeks: number;
}): readonly NewFile[] {
	const where = club.apparatus[Math.min(1, club.apparatus.length - 1)]?.id ?? "floor";
	const levels = club.levels.map(({ id }) => id);
	const data = (kind: FileKind) => modeline(`../${EDITOR_SCHEMAS}/${kind}.schema.json`);
	const entries = (things: readonly Choice[]) =>
		things.map(({ id, name }) => `- id: ${quotedId(id)}\n  name: ${quoted(name)}\n`).join("");
	return [
		{
			path: "_data/club.yaml",
			text: `${data("club")}# The club: what the cover and the foot of every page need.
format: ${FORMAT}
name: ${quoted(club.name)}
language: en
timezone: Europe/London    # by its IANA name
paper: A4                  # A4 or Letter
punch: two-hole            # two-hole, four-hole or three-hole
# site: https://handbook.example/             # where the staff site will stand
# contact: curriculum@club.example            # where corrections go
# emergency: What to do first when somebody is hurt.
# emergency-guide: if-something-goes-wrong    # the guide that says more
# colour: "#7a1f3d"                           # the club's own, in quotes
# logo: crest.png                             # a picture in content/media
# leave-out: [findings, measures]             # what the coaches' site does without
`,
		},
		{
			path: "_data/term.yaml",
			text: `${data("term")}# The term, and the classes of a week.
name: ${quoted("This term")}
starts: ${club.starts}     # a Monday
weeks: ${club.weeks}
# Days without classes; a week that is closed is skipped:
# closed: [2027-02-15/2027-02-19]
# Classes switch on class sheets, the calendar, time and equipment:
# classes:
#   - {id: mon-${levels[0] ?? "beginners"}, level: ${levels[0] ?? "beginners"}, day: monday, start: "16:30", minutes: 60, gymnasts: 12, coaches: 2, rotation: [${club.apparatus.map(({ id }) => id).join(", ")}]}
# A class may say more: \`between: 2\` (minutes from one apparatus to the next), \`same-as: id-of-a-class\` (the same
# gymnasts on another day), and \`groups\` that work at the same time:
#     groups:
#       - {id: younger, level: ${levels[0] ?? "beginners"}, gymnasts: 6, coaches: 1, rotation: [${club.apparatus.map(({ id }) => id).join(", ")}]}
#       - {id: older, level: ${levels.at(-1) ?? "beginners"}, gymnasts: 6, coaches: 1, rotation: [${club.apparatus
				.map(({ id }) => id)
				.toReversed()
				.join(", ")}]}
`,
		},
		{
			path: "_data/levels.yaml",
			text: `${data("levels")}# Levels, lowest first. \`entry\` lists the skills and drills a gymnast arrives with.\n${entries(club.levels)}`,
		},
		{
			path: "_data/apparatus.yaml",
			text: `${data("apparatus")}# Where work is done. \`plan: [12, 12]\` gives it a floor plan, length and width in metres,
# \`walls: [end, left]\` the sides that are walls, \`landmarks: [{name: Blue line, at: [6, 3]}]\` spots to name, \`groups: 2\` how
# many groups fit at a time.\n${entries(club.apparatus)}`,
		},
		{
			path: `content/drills/${where}/log-roll.md`,
			text: `---
${modeline(`../../../${EDITOR_SCHEMAS}/drill.schema.json`)}# Three fields are enough: title, apparatus, levels. Each further one switches something on.
title: Log roll
apparatus: ${quotedId(where)}
levels: ${inBrackets(levels)}
summary: Roll sideways along the mat, long and tight.
shapes: [straight]
direction: sideways
sides: each
cues: [Long and tight, Hips and shoulders together]
faults:
  - {see: "Legs come apart", say: "Squeeze a sheet of paper between your ankles."}
caution: One gymnast on the mat at a time.
---
Lie long with the arms overhead, and roll sideways like a log. Roll back the other way.
`,
		},
		{
			path: "content/weeks/week-01.md",
			text: weekText({
				week: 1,
				theme: "A first week",
				apparatus: [{ id: where, drill: "log-roll" }],
				schema: `../../${EDITOR_SCHEMAS}/week.schema.json`,
			}),
		},
		{
			path: "content/guides/house-rules.md",
			text: guideText({ title: "House rules", schema: `../../${EDITOR_SCHEMAS}/guide.schema.json` }),
		},
		{ path: ".gitignore", text: "node_modules/\n_site/\n._site.editions/\n.handbook/\n.handbook-cache/\n" },
	];
}
