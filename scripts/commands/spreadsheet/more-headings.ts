/**
 * What else people write over a column, in English and in French, by the field it stands for. The names
 * are compared as `foldHeading` makes them: without case, accents, signs and the s of a plural.
 */

type Headings = Readonly<Record<string, readonly string[]>>;

/** Of fields that drills and plans share. */
const SHARED: Headings = {
	apparatus: ["agrès", "agres", "engin", "atelier", "appareil", "lieu", "piece", "piece of apparatus"],
	levels: ["niveau", "groupe", "pour qui", "who for", "who is it for", "catégorie", "section", "squad"],
	minutes: ["durée", "temps", "how long", "length of time", "min.", "time in minutes"],
	note: ["remarque", "commentaire", "comment", "remark", "observations"],
	theme: ["thème", "objectif", "what we work on", "focus of the week", "objectif de la semaine", "sujet"],
	week: [
		"semaine",
		"sem",
		"sem.",
		"no semaine",
		"n semaine",
		"week of term",
		"séance",
		"lesson",
		"w/c",
		"week commencing",
		"week beginning",
		"week of",
		"semaine du",
	],
};

export const MORE_HEADINGS: Readonly<Record<string, Headings>> = {
	drill: {
		title: [
			"exercice",
			"exercise name",
			"nom de l'exercice",
			"nom",
			"intitulé",
			"éducatif",
			"activité",
			"situation",
			"name of drill",
		],
		apparatus: SHARED.apparatus ?? [],
		levels: SHARED.levels ?? [],
		summary: ["résumé", "en bref", "what it is", "description courte"],
		aliases: ["autre nom", "autres noms", "aussi appelé"],
		shapes: ["forme", "position", "formes du corps", "shape"],
		skills: ["élément", "élément visé", "objectif", "mène à", "but", "prepares for", "works towards"],
		direction: ["sens", "way"],
		equipment: ["matériel", "équipement", "materiel necessaire", "what you need", "materials"],
		sets: ["série", "séries", "nombre de séries"],
		reps: [
			"répétition",
			"répétitions",
			"rép",
			"reps x sets",
			"dose",
			"dosage",
			"quantité",
			"how many",
			"how much",
		],
		hold: ["tenue", "maintien", "tenue s", "temps de tenue", "hold for"],
		"turn seconds": [
			"temps par passage",
			"durée d'un passage",
			"time per go",
			"time for one go",
			"secondes par passage",
		],
		"turn at once": ["à la fois", "en même temps", "how many at once"],
		cues: ["consigne", "points clés", "critères", "à dire", "teaching points", "pointers"],
		faults: ["erreur", "erreurs fréquentes", "défauts", "fautes", "faults and fixes"],
		spotting: ["aide", "parade", "aide et parade", "pareur"],
		caution: ["sécurité", "attention", "danger", "risque", "safety point"],
		easier: ["plus facile", "simplifier", "easier version"],
		harder: ["plus difficile", "complexifier", "harder version"],
		purpose: ["rôle", "type d'exercice"],
		reviewed: ["dernière relecture", "relu", "relu le", "vérifié", "last looked at", "date checked"],
		text: ["déroulement", "explication", "description détaillée", "how to do it", "comment faire"],
	},
	plan: {
		...SHARED,
		focus: ["accent", "objectif de l'agrès", "apparatus goal"],
		block: ["bloc", "block", "ordre", "order"],
		drill: ["exercice", "éducatif", "activité", "situation", "what we do", "contenu", "exercise name"],
	},
	week: { week: SHARED.week ?? [], theme: SHARED.theme ?? [] },
	guide: { title: ["titre"], text: ["texte"] },
	levels: { name: ["niveau", "nom", "level"], description: ["description"] },
	apparatus: { name: ["agrès", "nom", "apparatus"] },
	shapes: { name: ["forme", "nom", "shape"] },
	skills: { name: ["élément", "nom", "skill"], levels: ["niveau"], apparatus: ["agrès"] },
	equipment: {
		name: ["matériel", "équipement", "nom", "item", "thing"],
		owned: ["nombre", "quantité", "how many", "number owned", "we have", "number"],
		stored: ["rangement", "rangé où", "where", "where kept", "kept in", "where it lives"],
	},
	classes: {
		name: ["cours", "nom"],
		level: ["niveau"],
		day: ["jour"],
		start: ["début", "heure", "starts", "time"],
		minutes: ["durée"],
		"warm-up": ["échauffement"],
		"cool-down": ["retour au calme"],
		gymnasts: ["gymnastes", "effectif", "how many children"],
		coaches: ["entraîneurs", "encadrants"],
		ages: ["âges", "âge"],
	},
	term: {
		name: ["trimestre", "nom"],
		starts: ["début"],
		weeks: ["semaines"],
		closed: ["fermeture", "jours fermés"],
	},
};

/** What clubs call an area; each line is one thing. A word stands for whichever of its line the club has. */
const AREAS: readonly (readonly string[])[] = [
	["floor", "sol", "floor ex", "floor exercise", "fx", "tapis", "praticable", "mats"],
	["beam", "poutre", "bb", "balance beam"],
	["bars", "barres", "uneven bars", "barres asymetriques", "asymetriques", "ub", "asymmetric bars", "a bars"],
	["vault", "saut", "table de saut", "vt", "vaulting"],
	["trampette", "tramp", "mini tramp", "mini trampoline", "minitrampoline"],
	["trampoline", "grand trampoline"],
	["rings", "anneaux"],
	["parallel bars", "barres paralleles", "p bars"],
	["high bar", "barre fixe"],
	["pommel", "pommel horse", "arcons", "cheval d arcons"],
	["warm up", "warmup", "echauffement", "w up"],
	["cool down", "cooldown", "retour au calme", "stretch", "stretching", "etirements"],
	["tumble track", "tumbling", "piste gonflable", "air track", "airtrack"],
	["conditioning", "strength", "renforcement", "renforcement musculaire", "s c", "physical prep", "pp"],
];

/** Other words for an area, folded; the word itself is not among them. */
export function otherNamesOf(folded: string): readonly string[] {
	return AREAS.filter((names) => names.includes(folded)).flatMap((names) =>
		names.filter((name) => name !== folded),
	);
}
