/**
 * A hundred queries of coaches, each with a predicate that says which drills answer it.
 *
 * The rule by which they are judged:
 *   - A predicate is a function over what a drill's own file says, read a second time without the
 *     program (second-reader.ts): title, aliases, summary, shapes, skills, levels, apparatus,
 *     direction, equipment, the `see` lines of its faults, and the weeks that plan it.
 *   - A word that names a level, an apparatus, a week or a direction asks for exactly that field. A word
 *     that names a shape or a skill asks for that tag, or for the word in title, alias or summary. A
 *     fault asks for a `see` line that says so. "Without" asks that the thing is not in the equipment.
 *   - Precision at 5: of the first five places, or of as many as there are drills that answer where these
 *     are fewer, the share that holds a drill which answers. An empty place is a wrong one.
 *   - The queries and predicates were written before the search was changed for them. Every second one of
 *     a kind is kept out while it is tuned (`kept`): both halves are reported, and both must hold.
 *   - None is an entry of the judged queries (judged.json), and none is mended by a rule of its own. Two
 *     that were ("low back sags", "tap swing") have since been replaced by others of their kind.
 *
 * Abbreviations are common practice among coaches, not a published list.
 */

import type { WrittenDrill } from "./second-reader.ts";

type Predicate = (drill: WrittenDrill) => boolean;

export interface HeldQuery {
	readonly words: string;
	readonly kind: string;
	readonly fits: Predicate;
}

const all =
	(...of: readonly Predicate[]): Predicate =>
	(drill) =>
		of.every((fits) => fits(drill));
const any =
	(...of: readonly Predicate[]): Predicate =>
	(drill) =>
		of.some((fits) => fits(drill));
const on =
	(apparatus: string): Predicate =>
	(drill) =>
		drill.apparatus.includes(apparatus);
const level =
	(id: string): Predicate =>
	(drill) =>
		drill.levels.includes(id);
const shape =
	(...ids: readonly string[]): Predicate =>
	(drill) =>
		ids.some((id) => drill.shapes.includes(id));
const skill =
	(...ids: readonly string[]): Predicate =>
	(drill) =>
		ids.some((id) => drill.skills.includes(id));
const needs =
	(...ids: readonly string[]): Predicate =>
	(drill) =>
		ids.some((id) => drill.equipment.includes(id));
const without = (...ids: readonly string[]): Predicate => {
	const has = needs(...ids);
	return (drill) => !has(drill);
};
const goes =
	(direction: string): Predicate =>
	(drill) =>
		drill.direction === direction;
const week =
	(number: number): Predicate =>
	(drill) =>
		drill.weeks.includes(number);
const says =
	(words: RegExp): Predicate =>
	(drill) =>
		words.test(drill.head);
const see =
	(words: RegExp): Predicate =>
	(drill) =>
		drill.see.some((line) => words.test(line));

const MATS = ["panel-mat", "landing-mat", "soft-mat", "throw-mat", "mat-stack", "beam-step"];
const BLOCKS = ["foam-block", "tall-block", "spotting-block"];
const handstand = any(shape("handstand"), skill("handstand", "kick-to-handstand"), says(/handstand/));
const cartwheel = any(skill("cartwheel", "beam-cartwheel", "cartwheel-dismount"), says(/cartwheel/));
const bridge = any(shape("bridge"), skill("bridge"), says(/bridge/));
const landing = any(shape("landing-squat"), skill("safe-landing"), says(/\bland/));
const forwardRoll = any(
	skill("forward-roll", "beam-forward-roll", "handstand-forward-roll", "straddle-roll"),
	says(/forward roll/),
);
const backwardRoll = any(
	skill("backward-roll", "straddle-backward-roll", "back-extension-roll"),
	says(/back(ward)? roll/),
);

const BY_KIND: Readonly<Record<string, readonly (readonly [words: string, fits: Predicate])[]>> = {
	"apparatus, level, shape": [
		["tuck floor level 1", all(on("floor"), level("level-1"), any(shape("tuck"), says(/\btuck/)))],
		["pike bars level 2", all(on("bars"), level("level-2"), any(shape("pike", "pike-hang"), says(/\bpike/)))],
		["straddle vault level 3", all(on("vault"), level("level-3"), any(shape("straddle"), says(/straddle/)))],
		["arch floor beginners", all(on("floor"), level("beginners"), any(shape("arch"), says(/\barch/)))],
		["hollow bars level 2", all(on("bars"), level("level-2"), any(shape("hollow"), says(/hollow/)))],
		["l2 bars", all(on("bars"), level("level-2"))],
		["bar", on("bars")],
		["beam level 3 handstand", all(on("beam"), level("level-3"), handstand)],
		["beginners vault landing", all(on("vault"), level("beginners"), landing)],
		["split beam l3", all(on("beam"), level("level-3"), any(shape("split"), says(/\bsplit/)))],
		["bridge floor level 1", all(on("floor"), level("level-1"), bridge)],
		[
			"plank warm up beginners",
			all(
				on("warm-up"),
				level("beginners"),
				any(shape("front-plank", "back-plank", "side-plank"), says(/plank/)),
			),
		],
		["lunge beam level 1", all(on("beam"), level("level-1"), any(shape("lunge"), says(/lunge/)))],
		[
			"support bars beginners",
			all(on("bars"), level("beginners"), any(shape("bar-support"), says(/support/))),
		],
		[
			"a drill on vault that level 1 can do for the straight jump",
			all(on("vault"), level("level-1"), any(skill("straight-jump"), says(/(straight|stretch) jump/))),
		],
		["handstand level 2 floor", all(on("floor"), level("level-2"), handstand)],
	],
	faults: [
		[
			"bent arms",
			see(/(arm|elbow)s?\b.*\b(bend|bent|give|unlock|fold|sag)|bent (arm|elbow)|bend.*(arm|elbow)/),
		],
		["knees bent", see(/knees?\b.*\b(bend|bent|soft|soften)|bent knee|bends? the knee|knee bend/)],
		["legs apart", see(/(legs?|feet|knees?)\b.*\b(apart|part|open|split|drift|cross)/)],
		["head thrown back", see(/head\b.*\bback|throws? the head/)],
		["knees fall in", see(/knees?\b.*\b(fall|falls|knock|roll)\b.*\b(in|inward)/)],
		["chest drops", see(/chest\b.*\b(drop|fall|dive|down|fold|tip)/)],
		["heels drop on the beam", all(on("beam"), see(/heels?\b.*\b(drop|sink|touch)|drops? the heel/))],
		["lands with straight legs", see(/lands?\b.*\b(straight|stiff)/)],
		["leaning back", see(/leans?\b.*\bback|leans on|tips back/)],
		["hips sag", see(/(low back|belly|plank|tummy|hips?|back)\b.*\b(sag|dip|hang|hollow|pinch|lift|arch)/)],
		["hips pike", see(/hips?\b.*\b(pike|bend|fold)|pikes\b|folds? at the hip/)],
		[
			"bent elbows handstand",
			all(handstand, see(/(arm|elbow)s?\b.*\b(bend|bent|give|unlock|fold)|bent (arm|elbow)/)),
		],
	],
	abbreviations: [
		["hs", handstand],
		["bhs", any(skill("back-handspring"), says(/back handspring/))],
		["bhc", any(skill("back-hip-circle"), says(/hip circle/))],
		["RO", any(skill("round-off"), says(/round-off/))],
		["fwd roll", forwardRoll],
		["bwd roll", backwardRoll],
		["bwo", any(skill("back-walkover"), says(/back walkover/))],
		["fwo", any(skill("front-walkover"), says(/front walkover/))],
		["cw beam", all(on("beam"), cartwheel)],
		["fhs", any(skill("front-handspring", "handspring-vault"), says(/handspring/))],
		["bwd beam", all(on("beam"), goes("backward"))],
		["hs l2 floor", all(on("floor"), level("level-2"), handstand)],
		["swing HB", all(needs("high-bar"), any(skill("long-hang-swing", "tap-swing"), says(/swing/)))],
		["cast LB", all(needs("low-bar"), any(skill("cast", "cast-squat-on"), says(/cast/)))],
	],
	negation: [
		["bridge without mats", all(bridge, without(...MATS))],
		["vault without springboard", all(on("vault"), without("springboard"))],
		["handstand no wall", all(handstand, without("wall-space"))],
		["landing without blocks", all(landing, without(...BLOCKS))],
		["warm up no mats", all(on("warm-up"), without(...MATS))],
		["cartwheel not on beam", all(cartwheel, (drill) => !drill.apparatus.includes("beam"))],
		["hollow no band", all(any(shape("hollow"), says(/hollow/)), without("exercise-band"))],
		["no springboard level 1 vault", all(on("vault"), level("level-1"), without("springboard"))],
		["beam without a beam pad level 2", all(on("beam"), level("level-2"), without("beam-pad"))],
		["beginners floor no mats", all(on("floor"), level("beginners"), without(...MATS))],
	],
	aliases: [
		["somersault", forwardRoll],
		["front roll", forwardRoll],
		["circle up", any(skill("pullover"), says(/pullover|circle.up/))],
		["elastic", needs("exercise-band")],
		["cheese mat", needs("wedge")],
		["aeroplane", any(shape("scale"), skill("beam-scale", "front-scale"), says(/scale|aeroplane/))],
		["pancake", any(shape("straddle-sit"), says(/straddle.sit|pancake/))],
		["arab spring", any(skill("round-off"), says(/round-off/))],
		["stall bars", any(needs("wall-bars"), says(/(stall|wall) bar/))],
		["float", any(skill("glide-swing"), says(/glide|float/))],
		["mini bar", needs("floor-bar")],
		["crouch on vault", all(on("vault"), any(skill("squat-on"), says(/squat on/)))],
	],
	misspellings: [
		["cartwhel", cartwheel],
		["handstan level 2", all(level("level-2"), handstand)],
		["backwrd roll", backwardRoll],
		["stradle beam", all(on("beam"), any(shape("straddle", "straddle-sit"), says(/straddle/)))],
		["hollw", any(shape("hollow"), says(/hollow/))],
		["brigde level 1", all(level("level-1"), bridge)],
		["undrswing", any(skill("underswing"), says(/underswing/))],
		["pulover", any(skill("pullover"), says(/pullover/))],
		["beem walk", all(on("beam"), any(skill("beam-walk", "releve-walk"), says(/walk/)))],
		["springbord level 1", all(level("level-1"), needs("springboard"))],
		["landng beginners", all(level("beginners"), landing)],
		["arabesqe beam", all(on("beam"), any(shape("scale"), skill("beam-scale"), says(/scale|arabesque/)))],
	],
	weeks: [
		["week 4 vault", all(week(4), on("vault"))],
		["week 6 beam level 2", all(week(6), on("beam"), level("level-2"))],
		["wk 2 floor", all(week(2), on("floor"))],
		["backward week 9", all(week(9), goes("backward"))],
		["week 1 landing", all(week(1), landing)],
		["bars week 10 level 3", all(week(10), on("bars"), level("level-3"))],
	],
	directions: [
		["beam backward", all(on("beam"), goes("backward"))],
		["backward warm-up", all(on("warm-up"), goes("backward"))],
		["forward bars level 1", all(on("bars"), goes("forward"), level("level-1"))],
		["sideways beam", all(on("beam"), goes("sideways"))],
		["sideways floor beginners", all(on("floor"), goes("sideways"), level("beginners"))],
		["backwards floor level 3", all(on("floor"), goes("backward"), level("level-3"))],
		["travelling forwards warm up beginners", all(on("warm-up"), goes("forward"), level("beginners"))],
		["vault backward", all(on("vault"), goes("backward"))],
	],
	"skills of two words": [
		["squat on level 1", all(level("level-1"), any(skill("squat-on", "cast-squat-on"), says(/squat on/)))],
		["straddle on", any(skill("straddle-on"), says(/straddle on/))],
		["flat back vault", all(on("vault"), any(skill("flat-back"), says(/flat.back/)))],
		["glide swing", any(skill("glide-swing"), says(/glide/))],
		["long hang", any(skill("hang"), shape("straight-hang"), says(/hang/))],
		["kick step", any(skill("beam-kick-step"), says(/kick step/))],
		["split leap", any(skill("split-leap"), says(/leap/))],
		["tuck jump beginners", all(level("beginners"), any(skill("tuck-jump"), says(/tuck/)))],
		[
			"front support bars",
			all(on("bars"), any(skill("front-support"), shape("bar-support"), says(/support/))),
		],
		["gallop steps beginners", all(level("beginners"), any(skill("gallop-steps"), says(/gallop/)))],
	],
};

export const HELD_QUERIES: readonly HeldQuery[] = Object.entries(BY_KIND).flatMap(([kind, queries]) =>
	queries.map(([words, fits]) => ({ words, kind, fits })),
);

/** Every second query of a kind: not looked at while the search is tuned. */
export const KEPT: ReadonlySet<HeldQuery> = new Set(
	Object.keys(BY_KIND).flatMap((kind) =>
		HELD_QUERIES.filter((query) => query.kind === kind).filter((_, i) => i % 2 === 1),
	),
);

/** What a coach looks for that is no drill, and the page, by its address, that should be among the first three. */
export const PAGE_QUERIES: readonly (readonly [words: string, address: string])[] = [
	["emergency", "guides/if-something-goes-wrong/"],
	["first aid", "guides/if-something-goes-wrong/"],
	["child hurt", "guides/if-something-goes-wrong/"],
	["bleeding", "about/"],
	["beam broken", "guides/when-it-runs-late/"],
	["coach missing", "guides/when-it-runs-late/"],
	["monday", "classes/mon-beginners/"],
	["monday level 3", "classes/mon-level-3/"],
	["saturday", "classes/sat-beginners/"],
	["thursday", "classes/thu-level-3/"],
	["stall bars", "equipment/wall-bars/"],
	["crash mat", "equipment/landing-mat/"],
	["cheese", "equipment/wedge/"],
	["week 4", "weeks/week-04/"],
	["week 10 vault", "weeks/week-10/"],
	["show week", "weeks/week-10/"],
	["house rules", "guides/house-rules/"],
	["how we spot", "guides/how-we-spot/"],
	["arm positions", "guides/arm-positions/"],
	["kip", "skills/kip/"],
	["dish", "shapes/hollow/"],
	["bars", "apparatus/bars/"],
	["level 2", "levels/level-2/"],
	["tusday", "classes/tue-level-2/"],
];
