/**
 * Les mots du manuel en français. The same sections as `en.ts`, whose comments say what each is for.
 *
 * The spaces before `: ; ! ? %` and inside « » are no-break spaces; the narrow one, which French would have
 * before `; ! ?`, is in no file of the typeface. The apostrophe is the keyboard's, as clubs write it in their
 * own texts. Readers are addressed with "vous"; labels and what a coach does are infinitives or nouns.
 * Terms: éducatif (drill), élément (skill), forme (body shape), agrès (apparatus), atelier (station),
 * cours (class), consigne (cue), parade (spotting), réception (landing), mise en place (set-up), course
 * d'élan (run), dégagement (run-out), axe de travail (focus), variation (step of a load), classeur
 * (binder), fiche (sheet, card of a drill), feuille (leaf), période (term), local (store room).
 */

import type { Helper, HelpPlace } from "../model.ts";
import type { CatalogueEntry, Code } from "../problems.ts";
import type { Words } from "./words.ts";
import { countsOf, datesOf, listsOf, numbersOf } from "./writers.ts";

// Comment la langue écrit ---------------------------------------------------------------------------

export const language: Words["language"] = "fr";
export const number: Words["number"] = /* @__PURE__ */ numbersOf(",");
export const date: Words["date"] = /* @__PURE__ */ datesOf(
	[
		"janvier",
		"février",
		"mars",
		"avril",
		"mai",
		"juin",
		"juillet",
		"août",
		"septembre",
		"octobre",
		"novembre",
		"décembre",
	],
	["janv.", "févr.", "mars", "avr.", "mai", "juin", "juil.", "août", "sept.", "oct.", "nov.", "déc."],
	(day, date) => `${days[day].toLowerCase()} ${date}`,
);
export const and: Words["and"] = /* @__PURE__ */ listsOf("et", (count) => `${count} autres`);
export const or: Words["or"] = /* @__PURE__ */ listsOf("ou", (count) => `${count} autres`);
const count = /* @__PURE__ */ countsOf(number, (written) => Math.abs(written) < 2);
export const colon: Words["colon"] = " : ";
export const semicolon: Words["semicolon"] = " ; ";
export const quoted: Words["quoted"] = (name) => `« ${name} »`;

export const counts: Words["counts"] = {
	weeks: /* @__PURE__ */ count("# semaine", "# semaines"),
	minutes: /* @__PURE__ */ count("# minute", "# minutes"),
	gymnasts: /* @__PURE__ */ count("# gymnaste", "# gymnastes"),
	coaches: /* @__PURE__ */ count("# entraîneur", "# entraîneurs"),
	classes: /* @__PURE__ */ count("# cours", "# cours"),
	drills: /* @__PURE__ */ count("# éducatif", "# éducatifs"),
	shapes: /* @__PURE__ */ count("# forme", "# formes"),
	skills: /* @__PURE__ */ count("# élément", "# éléments"),
	findings: /* @__PURE__ */ count("# constat", "# constats"),
	reps: /* @__PURE__ */ count("# répétition", "# répétitions"),
	adults: /* @__PURE__ */ count("# adulte", "# adultes"),
	turns: /* @__PURE__ */ count("# passage", "# passages"),
	times: /* @__PURE__ */ count("# fois", "# fois"),
	sets: /* @__PURE__ */ count("# série", "# séries"),
	stations: /* @__PURE__ */ count("# atelier", "# ateliers"),
	pages: /* @__PURE__ */ count("# page", "# pages"),
	leaves: /* @__PURE__ */ count("# feuille", "# feuilles"),
	landings: /* @__PURE__ */ count("# réception", "# réceptions"),
	teachingWeeks: /* @__PURE__ */ count("# semaine de cours", "# semaines de cours"),
	gaps: /* @__PURE__ */ count("# lacune", "# lacunes"),
	needs: /* @__PURE__ */ count("# prérequis", "# prérequis"),
	blocks: /* @__PURE__ */ count("# bloc", "# blocs"),
	items: /* @__PURE__ */ count("# objet", "# objets"),
	handContacts: /* @__PURE__ */ count("# appui manuel", "# appuis manuels"),
	errors: /* @__PURE__ */ count("# erreur", "# erreurs"),
	files: /* @__PURE__ */ count("# fichier", "# fichiers"),
};

// L'aperçu ------------------------------------------------------------------------------------------

export const problemsPage: Words["problemsPage"] = {
	toMend: (errors) => `À corriger : ${errors}`,
	errorsIn: (errors, files) => `${counts.errors(errors)} dans ${counts.files(files)}`,
	hidden: "Rien ne peut être montré avant que ceci soit corrigé",
	lastGood: "Les autres pages, telles qu'elles étaient avant",
	before: "Les pages sont montrées telles qu'elles étaient avant.",
	ownFile: "Cette page est écrite dans le fichier fautif ; elle est montrée telle qu'elle était avant.",
	leftOut: (files) => `Absent des pages jusque-là : ${files}.`,
	all: (errors) =>
		errors === 1 ? "Ce qui ne va pas, et pourquoi" : `Les ${counts.errors(errors)}, et pourquoi`,
	place: (line, column) => `ligne ${line}, colonne ${column}`,
};

export const preview: Words["preview"] = {
	bar: "Aperçu",
	writtenIn: "Écrit dans",
	counted: "Compté à partir de tout le dossier.",
	sheets: "Feuilles imprimées",
	sheetsOf: (title) => `Feuilles imprimées : ${title}`,
	sheetOf: (title) => `Feuille imprimée : ${title}`,
	lead: "Chaque section du classeur avec les styles d'impression, sans l'imprimer.",
	all: "Toutes les feuilles",
	before: (title) => `Avant : ${title}`,
	after: (title) => `Après : ${title}`,
	oneLong:
		"La fin des pages et les numéros des renvois sont connus à l'impression du classeur. Ici, chaque partie est une seule longue feuille.",
};

// Les termes du métier ------------------------------------------------------------------------------

export const fromTo: Words["fromTo"] = (from, to) => `du ${from} au ${to}`;

export const directions: Words["directions"] = {
	forward: "avant",
	backward: "arrière",
	sideways: "latéral",
	none: "aucune",
};
export const days: Words["days"] = {
	monday: "Lundi",
	tuesday: "Mardi",
	wednesday: "Mercredi",
	thursday: "Jeudi",
	friday: "Vendredi",
	saturday: "Samedi",
	sunday: "Dimanche",
};
export const shortDays: Words["shortDays"] = {
	monday: "lun.",
	tuesday: "mar.",
	wednesday: "mer.",
	thursday: "jeu.",
	friday: "ven.",
	saturday: "sam.",
	sunday: "dim.",
};
export const patterns: Words["patterns"] = {
	landing: "réception",
	statics: "maintien",
	locomotion: "déplacement",
	rotation: "rotation",
	swing: "balancé",
	spring: "impulsion",
	handling: "manipulation",
};
export const weights: Words["weights"] = {
	serious: "important",
	"worth a look": "à regarder",
	note: "remarque",
};
export const sides: Words["sides"] = {
	both: "Les deux côtés ensemble",
	each: "Un côté puis l'autre",
	lead: "Côté préféré seulement",
};
export const week: Words["week"] = (number) => `Semaine ${number}`;
export const blockAt: Words["blockAt"] = (apparatus, block) => `${apparatus}, bloc ${block}`;
export const ages: Words["ages"] = (from, to) => `${from} à ${to} ans`;

// Le cadre de chaque page ---------------------------------------------------------------------------

export const destinations: Words["destinations"] = {
	thisWeek: "Cette semaine",
	weeks: "Semaines",
	classes: "Cours",
	apparatus: "Agrès",
	drills: "Éducatifs",
	search: "Recherche",
	shapes: "Formes",
	skills: "Éléments",
	levels: "Niveaux",
	equipment: "Matériel",
	coverage: "Couverture",
	termOverview: "Vue de la période",
	measures: "Mesures",
	findings: "Constats",
	guides: "Guides",
	authorGuide: "Guide de rédaction",
	safety: "Sécurité",
};

export const frame: Words["frame"] = {
	description: (page, club, term) => `${page}. Extrait du manuel d'entraînement du club ${club}, ${term}.`,
	handbookOf: (club) => `${club} : manuel d'entraînement`,
	skip: "Aller à la page",
	largeType: "Grands caractères",
	theme: "Clair ou sombre",
	menu: "Menu",
	emergency: "Urgence",
	inEmergency: "En cas d'urgence",
	close: "Fermer",
	main: "Principal",
	crumbs: "Où se trouve cette page",
	moreOnSafety: "En savoir plus sur la sécurité",
	all: "Tout le manuel",
	colophon: (club, term) => `${club}, ${term}.`,
	origin: ({ from, changed }) =>
		`Vient de ${from.map(({ name, licence }) => (licence === undefined ? name : `${name} (${licence})`)).join(", d'après ")}.${
			changed.length === 0 ? "" : ` Ce club a changé : ${changed.join(", ")}.`
		}`,
	edition: (name) => ["Édition ", name, "."],
	report: (link, contact) => [link, ` à ${contact}.`],
	reportLink: "Signaler une correction",
	correction: (page) => `Correction : ${page}`,
};

export const themeSwitch: Words["themeSwitch"] = { dark: "Couleurs sombres" };

export const caution: Words["caution"] = {
	first:
		"L'entraînement de la gymnastique demande un encadrement qualifié, des tapis et une parade adaptés au gymnaste.",
	rest: "Les règles locales, celles de la fédération et la pratique diplômée passent d'abord. Les charges et hauteurs calculées sont des aides à la planification.",
};

// Éducatifs -----------------------------------------------------------------------------------------

export const safety: Words["safety"] = {
	spotting: "Parade.",
	caution: "Précaution.",
	both: "Parade et précaution.",
	nothingWritten: (usual) => ["Rien de particulier n'est écrit pour cet éducatif : ", usual, " s'applique."],
	usual: "la précaution d'usage",
};

export const landmarkSources: Words["landmarkSources"] = {
	knee: "Drillis & Contini 1966, d'après Winter, Biomechanics and Motor Control of Human Movement, fig. 4.1",
	hip: "Drillis & Contini 1966, d'après Winter, Biomechanics and Motor Control of Human Movement, fig. 4.1",
	chest:
		"aucune valeur publiée : aux deux tiers entre la hanche et l'épaule, d'après Drillis & Contini 1966, dans Winter, Biomechanics and Motor Control of Human Movement, fig. 4.1",
	shoulder:
		"Drillis & Contini 1966, d'après Winter, Biomechanics and Motor Control of Human Movement, fig. 4.1",
	head: "la stature elle-même",
	reach:
		"hauteur de l'épaule avec le bras, l'avant-bras et la main au-dessus, d'après Drillis & Contini 1966, dans Winter, Biomechanics and Motor Control of Human Movement, fig. 4.1",
};

export const setUp: Words["setUp"] = {
	forEachGymnast: "par gymnaste",
	at: (what, landmark) => [what, ` à ${landmarks[landmark]}`],
	range: (who, low, high) => `${who === undefined ? "" : `${who} : `}${low} à ${high} cm`,
	turn: (seconds, atOnce) =>
		`Un passage dure environ ${number(seconds)} s, ${counts.gymnasts(atOnce)} à la fois`,
	heightsCaution:
		"Les proportions ont été mesurées sur des adultes ; pour des enfants, chaque chiffre est approximatif. Vérifiez sur le gymnaste présent.",
	source:
		"Source : courbes de croissance CDC 2000, stature selon l'âge (Vital and Health Statistics, série 11, numéro 246) ; proportions : Drillis & Contini 1966, d'après Winter, Biomechanics and Motor Control of Human Movement, fig. 4.1.",
};

export const landmarks: Words["landmarks"] = {
	knee: "hauteur du genou",
	hip: "hauteur de la hanche",
	chest: "hauteur de la poitrine",
	shoulder: "hauteur de l'épaule",
	head: "hauteur de la tête",
	reach: "hauteur du bout des doigts, bras levés",
};

export const landmarkNames: Words["landmarkNames"] = {
	knee: "genou",
	hip: "hanche",
	chest: "poitrine",
	shoulder: "épaule",
	head: "tête",
	reach: "bras levés",
};

export const drill: Words["drill"] = {
	on: "Où",
	forLevels: "Pour",
	levels: "Ce que fait chaque niveau",
	asDescribed: "Comme décrit.",
	say: "Dire",
	see: "On voit",
	watchFor: "À surveiller",
	setUp: "Mise en place",
	how: "Déroulement",
	pictures: "Images",
	whereNext: "Et ensuite",
	easier: "Plus facile",
	harder: "Plus difficile",
	otherDirection: "Dans l'autre sens",
	elsewhere: "Mêmes formes ailleurs",
	comesBefore: "vient avant",
	comesNext: "vient après",
	moreLikeThis: (link) => [link, " : mêmes formes et éléments, autres agrès ou niveaux"],
	moreLikeThisLink: "Éducatifs semblables",
	plannedIn: "Prévu en",
	overTerm: "Sur la période",
	about: "À propos de cet éducatif",
	shapes: "Formes",
	leadsTo: "Mène à",
	direction: "Sens",
	sides: "Côtés",
	eachRepetition: "Chaque répétition",
	contacts: (landings, hands) => `${counts.landings(landings)}, ${counts.handContacts(hands)}`,
	alsoCalled: "Aussi appelé",
	reviewed: "Relu le",
	writtenIn: "Écrit dans",
	hold: (seconds) => `tenir ${number(seconds)} s`,
};

// Pages ---------------------------------------------------------------------------------------------

export const minuteSign: Words["minuteSign"] = "min";
export const groupOf: Words["groupOf"] = (name, part) => `${name} (${part})`;
export const editionName: Words["editionName"] = (number, date) => `${number} du ${date}`;
export const min: Words["min"] = (minutes) => `${number(minutes)} min`;
export const percent: Words["percent"] = (share) => `${number(share * 100)} %`;
export const ofWeek: Words["ofWeek"] = (week) => `semaine ${week}`;
export const ofBlock: Words["ofBlock"] = (apparatus, week, block) =>
	`${apparatus}, semaine ${week}, bloc ${block}`;
export const fromLevel: Words["fromLevel"] = (level) => ["Dès ", level];
export const alsoCalled: Words["alsoCalled"] = (names) => `Aussi appelé ${names}.`;
export const allLevels: Words["allLevels"] = "Tous les niveaux";
export const allApparatus: Words["allApparatus"] = "Tous les espaces et agrès";
export const anywhere: Words["anywhere"] = "Partout";
export const noDirection: Words["noDirection"] = "sans sens";
export const none: Words["none"] = "rien";
export const asTable: Words["asTable"] = (title) => `${title}, tableau`;

export const things: Words["things"] = {
	shape: { title: "Formes du corps", one: "Forme" },
	skill: { title: "Éléments", one: "Élément" },
};

export const heads: Words["heads"] = {
	week: "Semaine",
	weeks: "Semaines",
	level: "Niveau",
	apparatus: "Espace ou agrès",
	class: "Cours",
	group: "Groupe",
	planned: "Prévu",
	free: "Libre",
	moving: "En mouvement",
	target: "Objectif",
	countedFrom: "Établi d'après",
	forward: "Avant",
	backward: "Arrière",
	sideways: "Latéral",
	noDirection: "Aucun",
	missing: "Manque",
	landings: "Réceptions",
	hands: "Mains",
	step: "Variation",
	first: "Première",
	last: "Dernière",
	longestGap: "Plus long écart",
	metIn: "Vu en semaine",
	missedBy: "Objectif manqué par",
	times: "Fois",
	minutes: "Minutes",
	sum: "Somme",
	reps: "Répétitions",
};

export const home: Words["home"] = {
	title: "Au programme aujourd'hui",
	today: "Aujourd'hui",
	find: "Trouver un éducatif",
	findExample: "gainage, niveau 2, barres",
	myApparatus: "Mon espace ou agrès",
	myLevel: "Mon niveau",
	allWeeks: "Toutes les semaines",
};

export const copying: Words["copying"] = {
	copy: "Copier",
	copied: "Copié",
	selected: "Sélectionné : copiez-le avec le clavier",
};

export const tenses: Words["tenses"] = {
	now: "Cette semaine",
	next: "À venir",
	past: "Dernière semaine de la période",
	badges: { week: "en cours", day: "aujourd'hui" },
};

export const today: Words["today"] = {
	titles: {
		"class day": "Aujourd'hui",
		free: "Pas de fiche de cours aujourd'hui",
		closed: "Le club est fermé aujourd'hui",
		"before term": "La période n'a pas commencé",
		"after term": "La période est terminée",
	},
	closedUntil: (day) => `Fermé jusqu'au ${day}.`,
	first: (day) => `Premier jour de cours : ${day}.`,
	next: (day) => `Prochain jour de cours : ${day}.`,
	when: { "on now": "en cours", over: "terminé" },
	openedLast: "ouvert en dernier",
};

export const weekList: Words["weekList"] = {
	none: (link) => [
		"Aucune semaine n'est encore prévue. Les éducatifs, formes et éléments sont déjà là ; ",
		link,
		" se trouve dans le guide de rédaction.",
	],
	howTo: "comment écrire une semaine",
};

export const calendar: Words["calendar"] = {
	title: "Semaines de la période",
	lead: (term, weeks, written) =>
		`${term} : ${counts.teachingWeeks(weeks)}${written < weeks ? `, dont ${written} écrites` : ""}.`,
	closed: (days) => `Fermé : ${days}.`,
	file: "Fichier calendrier (.ics)",
	byClass: "Cours par cours",
};

export const classes: Words["classes"] = {
	none: (file) => ["Aucun cours n'est encore écrit dans ", file, "."],
	anyDay: "Sans jour fixe",
	gymnasts: "Gymnastes",
	coaches: "Entraîneurs",
	ages: "Âges",
	fromTo: (from, to) => `${from} à ${to}`,
	length: "Durée",
	rotation: "Rotation",
	sheets: "Fiches de cours",
	closed: "fermé",
	planned: (minutes) => `${min(minutes)} prévues`,
	minutes: "Minutes",
	moves: (share) => `Sur les semaines prévues, un gymnaste est en mouvement pendant ${share} du cours.`,
	allClasses: "Tous les cours",
	weekByWeek: "Semaine par semaine",
	overTerm: "Éléments sur la période",
	skillBySkill: "Élément par élément",
	toTerm: "Ce que fait ce cours sur la période",
	performed: "Exécuté",
	prepared: "Préparé",
	counted:
		"Répétitions par gymnaste qui tiennent dans les passages de ce cours : éducatifs où l'élément est exécuté, et éducatifs qui le préparent seulement.",
	wanted: (times) => `Le club veut que chaque élément soit exécuté au moins ${times}.`,
	arrives: "acquis en arrivant",
	neverMet: "jamais rencontré",
	together: (performed) => `exécuté ${counts.times(performed)} avec les autres jours`,
};

export const classSheet: Words["classSheet"] = {
	planned: (planned, available) =>
		`${number(planned)}${available === undefined ? "" : ` sur ${number(available)}`} min prévues`,
	moving: (share) => `en mouvement ${share}`,
	closedDay: "Le club est fermé ce jour-là.",
	besides: (name) => `${name} les semaines d'avant et d'après`,
	before: "Avant de commencer.",
	beforeRest:
		"Vérifiez la mise en place et les tapis, comptez le groupe et tenez les gymnastes qui attendent à l'écart des réceptions. Ne parez que ce que vous avez appris à parer.",
	glance: "Le cours en un coup d'œil",
	warmUp: "Accueil et échauffement",
	coolDown: "Retour au calme",
	end: "Fin",
	nothing: "Rien n'est prévu aux agrès de la rotation de ce cours.",
};

export const block: Words["block"] = {
	numbered: (number) => `Bloc ${number}`,
	forLevels: (levels) => ["Pour ", levels],
	nobody: "Aucun niveau présent ne fait ce bloc.",
	rotate: (change) => `Rotation ; ${min(change)} par changement.`,
	minEach: (minutes) => `${min(minutes)} chacun`,
	minFor: (minutes, levels) => `${min(minutes)} pour ${levels}`,
	here: (gymnasts) => `${counts.gymnasts(gymnasts)} ici`,
	turnsEach: (turns) => `environ ${counts.turns(turns)} chacun`,
	wait: (seconds) => `${number(seconds)} s entre deux passages`,
	options: (options) => `${number(options)} au choix`,
	choose: (choose) => `À choisir : ${number(choose)}.`,
	show: (minutes) => `Démonstration : ${min(minutes)}.`,
	coachAt: {
		spots: (coach, stations) => `Entraîneur ${coach} : ${stationNames(stations)}.`,
		watches: (coach, stations) => `L'entraîneur ${coach} surveille ${stationNames(stations, true)}.`,
		walks: (coach, stations) =>
			stations.length === 1
				? `L'entraîneur ${coach} passe voir ${stationNames(stations, true)}.`
				: `L'entraîneur ${coach} circule entre ${stationNames(stations, true)}.`,
	},
	coachHere: {
		spots: (coach) => `L'entraîneur ${coach} assure la parade.`,
		watches: (coach) => `L'entraîneur ${coach} surveille.`,
		walks: (coach) => `L'entraîneur ${coach} passe voir.`,
	},
	alone: (stations) =>
		stations.length === 1
			? `L'atelier ${stations[0]} est en autonomie.`
			: `Les ateliers ${and(stations, 12)} sont en autonomie.`,
	coachesAsked: (needed, hands, watched) =>
		`Demande ${counts.coaches(needed)} (${coachWork(hands, watched)}).`,
	coachesShort: (needed, hands, watched, present) =>
		`Trop peu d'entraîneurs : il en faut ${number(needed)} (${coachWork(hands, watched)}), présents : ${number(present)}. Retirez un atelier ou trouvez de l'aide avant de commencer.`,
	fits: (planned, fits, turns) =>
		`prévu ${number(planned)}, possible ${number(fits)} en ${counts.turns(turns)}`,
	easierHarder: "Plus facile, plus difficile",
};

export const fewerCoaches: Words["fewerCoaches"] = {
	title: "S'il manque un entraîneur :",
	rules:
		"les règles du club et les entraîneurs qualifiés décident ; aucun atelier sans la parade ou la surveillance qu'il demande.",
	nobody: "Il ne reste personne : pas de cours sans un autre entraîneur qualifié.",
	ratio: (coaches, gymnasts) =>
		`${counts.coaches(coaches)} pour au plus ${counts.gymnasts(gymnasts)}, sinon demandez à la direction.`,
	at: (clock, apparatus, stations) =>
		`${clock} ${apparatus}, ${stations.length === 0 ? "tout le bloc" : stationNames(stations)}`,
	leftOut: (places) => `Laissez de côté seulement ${places.join(" ; ")}.`,
};

function stationNames(stations: readonly string[], isNamed = false): string {
	return stations.length === 1
		? `${isNamed ? "l'atelier" : "atelier"} ${stations[0]}`
		: `${isNamed ? "les ateliers" : "ateliers"} ${and(stations, 12)}`;
}

function coachWork(hands: number, watched: number): string {
	return and([
		...(hands > 0 ? [`${number(hands)} à la parade`] : []),
		...(watched > 0 ? ["1 pour surveiller"] : []),
	]);
}

export const setOut: Words["setOut"] = {
	title: "À sortir",
	owns: (owned) => `le club en possède ${owned}`,
	carry: (count, item, from, clock, adults) =>
		`Porter ici ${number(count)} × ${item} depuis ${from} avant ${clock}, ${counts.adults(adults)} pour chacun.`,
	missing: (count, item) => `Il manque ici ${number(count)} × ${item} : déjà en service à un autre agrès.`,
	clear: "Effacer les coches",
	ready: (done, of) => `${done} sur ${of} prêts`,
};

export const hall: Words["hall"] = {
	blockByBlock: "Bloc par bloc",
	toPresent: "Ce qui est en cours",
	fromBlock: (at, of) => `Depuis le bloc ${at} sur ${of}`,
	oneOf: (at, of) => `${at} sur ${of}`,
	before: "Précédent",
	whole: "Fiche entière",
	next: "Suivant",
	timer: (block) => `Minuteur des ateliers, ${block}`,
	start: "Démarrer",
	skip: "Passer",
	reset: "Remettre à zéro",
	sound: "Son",
	buzz: "Vibreur",
	howItWent: "Comment c'était",
	keptHere:
		"Gardé sur cet appareil jusqu'à l'envoi. Aucun nom ici, de personne : combien suffit. Un accident va dans le registre des accidents du club, pas ici.",
	howMany: "Combien y arrivent ?",
	toSend: "Vers l'envoi",
};

const causes = {
	late: "Début en retard",
	"set-up": "Mise en place",
	coaches: "Trop peu d'entraîneurs",
	settling: "Groupe agité",
	other: "Autre chose",
};
const looks = { equipment: "Matériel", "near-miss": "Accident évité" };

export const reporting: Words["reporting"] = {
	done: "Ce bloc a été",
	dones: { done: "Fait", shortened: "Raccourci", "not-done": "Pas fait" },
	lost: "Minutes perdues",
	minutes: (minutes) => `${minutes} min`,
	cause: "Cause",
	causes,
	felt: "Pour le groupe, c'était",
	felts: { "too-easy": "Trop facile", right: "Juste bien", "too-hard": "Trop difficile" },
	look: "À regarder",
	looks,
	note: "Une ligne pour la direction",
	noName: "Aucun nom n'a sa place ici.",
	alone: "Seuls",
	helped: "Avec aide",
	there: "Sur combien",
	fewer: "Un de moins",
	more: "Un de plus",
	takeBack: "Pas compté",
	allDone: "Tout le reste comme prévu",
	counted: (said, of) => `${said} blocs sur ${of} renseignés.`,
	older: (blocks) =>
		`${blocks === 1 ? "Un bloc" : `${blocks} blocs`} d'une édition antérieure, absents de cette fiche : envoyés avec.`,
	share: "Envoyer",
	mail: "Par courriel",
	copy: "Copier",
	shared: "Envoyé. Ce que vous changez maintenant peut être envoyé de nouveau.",
	notShared: "Pas envoyé ; tout est encore là.",
	mailed: "Votre messagerie l'a reçu. Touchez « Pas envoyé » s'il n'est pas parti.",
	copied: "Copié : collez-le dans un message à la direction.",
	copyByHand: "Copiez le texte ci-dessous dans un message à la direction.",
	notSent: "Pas envoyé",
	forget: "Effacer",
	forgotten: "Effacé de cet appareil.",
	nothing: "Rien n'est encore noté.",
	unsent: "Pas encore envoyé.",
	isSent: "Envoyé tel quel.",
	full: "Il n'y a plus de place : raccourcissez une ligne.",
	notKept: "Ce navigateur ne garde rien : envoyez avant de quitter cette page.",
};

export const taughtPage: Words["taughtPage"] = {
	title: "Ce qui a été enseigné",
	question: "Qu'est devenu le plan, et qui y arrive maintenant ?",
	sums: {
		lead: "D'après ce que les entraîneurs ont rapporté de leurs cours cette période, tous cours réunis.",
		how: (fewest) =>
			`Chaque nombre est arrondi à un multiple de cinq, vers le bas : au moins autant. Un élément figure ici si au moins ${number(fewest)} gymnastes le font seuls et au moins ${number(fewest)} pas encore, au dernier compte de chaque groupe ; une cause, si elle a été nommée dans au moins ${number(fewest)} cours. Rien de plus petit n'est publié, ni aucune partie d'une somme : on n'en peut rien déduire de quelques gymnastes ou d'un seul cours.`,
		of: "Sur",
		nothing: "Aucune somme n'est encore assez grande pour être montrée.",
	},
	publishes: (page) => ["Le club en publie des sommes : ", page, "."],
	lead: (reported, of) =>
		`${number(reported)} cours sur ${number(of)} des semaines jusqu'ici ont un compte rendu. Sans compte rendu, un cours compte comme prévu.`,
	privately: "Pour la direction seulement.",
	howToDelete: (folder) => [
		"Rien de cette page n'est dans la version que voient les entraîneurs. Les mots des entraîneurs sont montrés tels quels. Pour l'effacer, supprimez les fichiers sous ",
		folder,
		", ce qu'undo en garde sous .handbook/changes, et cette version-ci ; y compris dans les versions antérieures si le dossier est sous gestion de versions.",
	],
	lines: "Ce qu'écrivent les entraîneurs",
	looks,
	felts: { "too-easy": "trop facile", right: "juste bien", "too-hard": "trop difficile" },
	weeks: "Cours par cours",
	ofPlanned: (planned) => `sur ${number(planned)}`,
	notDone: "Pas faits",
	shortened: "Raccourcis",
	lost: "Minutes perdues",
	cause: "Cause",
	causes,
	noCause: "Non dit, ou plusieurs causes",
	blocks: "Blocs",
	skills: "Qui y arrive",
	skill: "Élément",
	alone: "Seuls",
	helped: "Avec aide",
	share: "Part",
	range: "Intervalle à 95 %",
	interval:
		"L'intervalle est celui de Wilson (1927) : parmi de tels intervalles, 19 sur 20 contiennent la vraie part.",
	fewest: (fewest) => `Rien n'est conclu de moins de ${number(fewest)} gymnastes.`,
	of: (alone, of) => `${number(alone)} sur ${number(of)}`,
	between: (low, high) => `${low} à ${high}`,
	tooFew: "trop peu",
	kept: "Après une pause",
	keptLead:
		"Les comptes du même groupe avant et après des semaines sans l'élément. Un compte ne connaît pas de noms : parmi ceux qui le faisaient seuls avant, au plus autant le font encore. S'il y avait moins de monde après, rien n'en est dit. Ce qui est resté ne dit pas pourquoi.",
	pause: "Semaines sans",
	atMost: "Encore seuls, au plus",
	fewerThere: "moins de présents",
	before: "Avant",
	after: "Après",
	inWeek: (count, week) => `${count} (semaine ${week})`,
	ofDrill: "Ce qu'en disent les entraîneurs",
	felt: (easy, right, hard) =>
		`Ses blocs ont été trop faciles ${counts.times(easy)}, juste bien ${counts.times(right)}, trop difficiles ${counts.times(hard)}.`,
};

/** On the home page; of a program in the browser. */
export const unsentReports: Words["unsentReports"] = {
	notSentYet: (reports) =>
		reports === 1
			? "Un compte rendu n'est pas encore envoyé"
			: `${reports} comptes rendus ne sont pas encore envoyés`,
};

export const timer: Words["timer"] = {
	done: (stations) => `Les ${stations} ateliers sont faits`,
	station: (at, of) => `Atelier ${at} sur ${of}, changement dans`,
	lastStation: (at, of) => `Atelier ${at} sur ${of}, fin dans`,
	change: (at, of) => `Passer à l'atelier ${at} sur ${of}, reprise dans`,
	doneSaid: (stations) => `Les ${stations} ateliers sont faits.`,
	stationSaid: (at, of) => `Atelier ${at} sur ${of}.`,
	changeSaid: (at, of) => `Passer à l'atelier ${at} sur ${of}.`,
	paused: "En pause.",
	setBack: "Minuteur remis au début.",
	pause: "Pause",
	startAgain: "Recommencer",
	goOn: "Reprendre",
};

export const drills: Words["drills"] = {
	lead: (drills, search) => [
		`${counts.drills(drills)}. `,
		search,
		" par forme, élément, niveau, agrès et matériel.",
	],
	byApparatus: "Éducatifs par espace et agrès",
	byLevel: "Éducatifs par niveau",
	onApparatus: (drills, apparatus) => `${counts.drills(drills)} à l'agrès ${apparatus}`,
	none: (apparatus) => `Aucun éducatif ne nomme encore ${apparatus}.`,
};

export const shapes: Words["shapes"] = {
	title: "Formes du corps",
	lead: (shapes) => `${counts.shapes(shapes)} communes à tous les agrès.`,
	noDrill: "Aucun éducatif ne nomme encore cette forme.",
};

export const angles: Words["angles"] = {
	title: "Angles",
	titleOfAll: "Leurs angles",
	table: "Angles d'après lesquels la figure est dessinée",
	tableOfAll: "Angles de chaque forme, en degrés",
	joint: "Articulation",
	degrees: "Degrés",
	measured: "Mesuré",
	carriedBy: "Appui",
	drawnAs: "Dessinée comme",
	carriedAndDrawn: (carried, position) => `Appui : ${carried}. Dessinée comme : ${position}.`,
	joints: {
		shoulder: { name: "Épaule", what: "du bras au tronc : 0 le long du corps, 180 au-dessus de la tête" },
		elbow: { name: "Coude", what: "du bras à l'avant-bras : 180 tendu" },
		hip: { name: "Hanche", what: "du tronc à la cuisse : 180 tendue" },
		knee: { name: "Genou", what: "de la cuisse à la jambe : 180 tendu" },
		ankle: { name: "Cheville", what: "de la jambe au pied : 90 fléchie, 180 en pointe" },
	},
	spread: { name: "Écart des jambes", what: "entre les jambes" },
	trunk: { name: "Tronc", what: "courbure : positive arrondi, négative cambré" },
	neck: {
		name: "Nuque",
		what: "de la tête au haut du tronc : 0 dans l'axe, positive menton vers la poitrine",
	},
	lean: {
		name: "Inclinaison",
		what: "du tronc : 0 debout, 90 face au sol, −90 face au plafond, 180 tête en bas",
	},
	left: (angle) => `${angle} à gauche`,
	right: (angle) => `${angle} à droite`,
	legsDiffer: "jambes différentes",
	positions: { straight: "tendu", pike: "carpé", tuck: "groupé" },
	straddled: (position) => `${position}, jambes écartées`,
	carried: {
		feet: "pieds",
		hands: "mains",
		"hands-and-feet": "mains et pieds",
		head: "tête et mains",
		hips: "hanches sur une barre",
		seat: "fesses",
		back: "dos",
		front: "ventre",
		shoulders: "épaules",
		knees: "genoux",
		hang: "mains, en suspension",
		air: "rien, en l'air",
	},
	borders: (trampoline, straddle) =>
		`Tendu, carpé et groupé selon les limites du Code de pointage FIG de trampoline, §14.6, 2013–16 (${trampoline} degrés à la hanche et au genou) ; écart à partir de ${straddle} degrés entre les jambes, code FIG d'aérobic (édition inconnue). Ce sont des règles pour juger une autre discipline, employées ici pour nommer un dessin.`,
	addOne: (file, guide) => [
		"Un club ajoute une forme en écrivant ses angles dans ",
		file,
		" ; ",
		guide,
		" dit comment chacun est mesuré.",
	],
	authorGuide: "le guide de rédaction",
};

export const skills: Words["skills"] = {
	criteria: "Ce qui doit être vu",
	needs: "Demande d'abord",
	leadsTo: "Mène à",
	opposite: "Contraire",
	pattern: "Famille de mouvement",
	patternSource: "Familles de mouvement d'après Alberta SPHEReS ; six des sept sont attribuées à Russell.",
	noDrill: "Aucun éducatif ne mène encore à cet élément.",
	onTheWay: "En chemin",
	mapTitle: (skill) => `Ce qui vient avant ${skill}, et à quoi il mène`,
	mapDescription:
		"Du facile en haut au difficile en bas. La liste sous cette image dit la même chose en mots.",
};

export const levels: Words["levels"] = {
	besides: "Niveaux au-dessous et au-dessus",
	learns: "Apprend",
	arrives: "Arrive avec",
	noDrill: "Aucun éducatif ne propose encore ce niveau.",
};

export const apparatusPage: Words["apparatusPage"] = {
	withAreas: "Espaces et agrès",
	areas: "Espaces",
	area: "Un espace de la salle.",
	plannedIn: (weeks) => `prévu pendant ${counts.weeks(weeks)}`,
	room: (length, width) => `Place dans la salle : ${number(length)} sur ${number(width)} m.`,
	drillsFrom: (level) => `Éducatifs dès ${level}`,
};

export const equipmentPage: Words["equipmentPage"] = {
	none: (file) => ["Aucun matériel n'est encore écrit dans ", file, "."],
	item: "Objet",
	needed: "Nécessaire",
	owned: "Possédé",
	mostNeeded: "Maximum à un même endroit",
	kept: "Rangé",
	neededIn: "Nécessaire en",
	noDrill: "Aucun éducatif ne l'emploie encore.",
};

export const exposure: Words["exposure"] = {
	table: "Prévu sur la période, par niveau",
	one: (contacts) => `Une répétition : ${contacts}.`,
	load: "La charge de chaque semaine",
};

export const coverage: Words["coverage"] = {
	lead: "Ce que la période entraîne dans son ensemble. Chaque nombre s'ouvre sur les éducatifs d'après lesquels il est compté.",
	files: "Pour un tableur",
	tables: {
		"week-shape": {
			title: "Semaines et formes",
			question: "Quelles formes du corps chaque semaine entraîne-t-elle ?",
		},
		"week-skill": {
			title: "Semaines et éléments",
			question: "À quels éléments chaque semaine mène-t-elle ?",
		},
		"week-direction": {
			title: "Semaines et sens",
			question: "Le travail vers l'avant a-t-il son équivalent vers l'arrière ?",
		},
		"level-shape": {
			title: "Niveaux et formes",
			question: "Chaque niveau entraîne-t-il chaque forme ?",
		},
		"level-skill": {
			title: "Niveaux et éléments",
			question: "Vers quels éléments chaque niveau travaille-t-il ?",
		},
		"apparatus-shape": {
			title: "Espaces, agrès et formes",
			question: "Où chaque forme est-elle entraînée ?",
		},
	},
	measures: {
		minutes: {
			name: "Minutes",
			says: "Minutes prévues ; un éducatif de deux formes ou éléments compte en entier pour chacun.",
		},
		drills: { name: "Éducatifs", says: "Éducatifs différents." },
		share: {
			name: "Part",
			says: "Minutes partagées entre les formes ou éléments d'un éducatif, pour que la somme soit juste.",
		},
		repetitions: {
			name: "Répétitions",
			says: "Séries × répétitions, là où l'éducatif ou le niveau les donne.",
		},
	},
	empty: "Rien n'est encore prévu ici, donc rien à compter.",
	count: "Compter",
	totals:
		"Les totaux comptent chaque éducatif une fois là où il est prévu, quel que soit le nombre de colonnes où il figure. Plus la teinte est forte, plus il y en a.",
	all: "Tout",
	csv: "Tableau en CSV",
	missing: "Absent de ce plan",
	lists: "D'après quoi chaque nombre est compté",
	back: "Retour au tableau",
	others: "Autres tableaux",
};

export const coverageCells: Words["coverageCells"] = {
	title: "D'après quoi ce nombre est compté",
	close: "Fermer",
};

export const term: Words["term"] = {
	lead: (term) =>
		`Ce que chaque semaine de la période ${term} entraîne, en minutes. Chaque nombre s'ouvre sur ses éducatifs.`,
	pageDescription: (term) => `Ce que chaque semaine de la période ${term} entraîne`,
	glance: "En un coup d'œil",
	nothing: "Il n'y a encore rien à entraîner ici.",
	byWeek: { shape: "Formes du corps par semaine", skill: "Éléments par semaine" },
	asTable: { shape: "Formes du corps en tableau", skill: "Éléments en tableau" },
	description: (level) =>
		`${level} : minutes de chaque semaine. Le tableau plus bas donne les mêmes nombres.`,
	toSpacing: "Espacement : chaque écart, face aux objectifs",
	toOrder: "Ordre : ce qui vient avant quoi",
	toCoverage: "Couverture : les tableaux derrière ces nombres",
	notes: {
		shape: {
			both: "Un éducatif de deux formes compte en entier pour chacune.",
			noTarget: "Le club n'a pas fixé d'objectif pour les semaines d'une forme.",
		},
		skill: {
			both: "Un éducatif de deux éléments compte en entier pour chacun.",
			noTarget: "Le club n'a pas fixé d'objectif pour les semaines d'un élément.",
		},
	},
	target: (target) => `L'objectif du club : ${target}.`,
	targetOfEach: (target) =>
		`Un écart est marqué là où aucun niveau ne s'y entraîne pendant plus longtemps que l'objectif. L'objectif du club pour chaque niveau : ${target}.`,
	atLeast: (weeks) => `au moins ${counts.weeks(weeks)}`,
	atMost: (weeks) => `au plus ${counts.weeks(weeks)} de l'une à la suivante`,
};

export const weekPage: Words["weekPage"] = {
	besides: "Semaines d'avant et d'après",
	byApparatus: "Par espace et agrès",
	minutes: "Minutes de chaque cours",
	minutesTable: "Minutes prévues et disponibles par cours",
	everyWeek: "Toutes les semaines",
	clashes: "Cours qui demandent le même matériel",
	directionsDescription:
		"Minutes à chaque espace et agrès. Le tableau à côté de cette image donne les mêmes nombres.",
	writtenIn: (file) => ["Écrit dans ", file, "."],
};

export const weekApparatus: Words["weekApparatus"] = {
	neededOwned: "Nécessaire et possédé",
	neededOwnedTable: "Matériel nécessaire et possédé",
	addedUp: (measure) => [
		"Les ateliers s'additionnent, les blocs se suivent et le plus grand l'emporte. La page ",
		measure,
		" montre toutes les semaines.",
	],
	blocks: (minutes) => `Blocs, ${min(minutes)}`,
	noBlock: "Aucun bloc n'est prévu ici.",
	elsewhere: "Ailleurs cette semaine",
	allDrills: (apparatus) => `Tous les éducatifs, ${apparatus}`,
};

export const suggestions: Words["suggestions"] = {
	title: "Ce qui comblerait des lacunes",
	ofWeek:
		"Pour chaque niveau et agrès, le moins possible d'éducatifs de la bibliothèque qui entraînent ce qui est attendu et manque cette semaine, dans les minutes libres et dans l'ordre. Les minutes libres d'un niveau sont les mêmes à tous les agrès : choisissez parmi ceux-ci.",
	here: "Le moins possible d'éducatifs de la bibliothèque qui entraînent ici ce qui est attendu et manque cette semaine, dans les minutes libres et dans l'ordre.",
	summary: (gaps, closed) => {
		const what =
			closed === 0
				? gaps === 1
					? "reste ouverte"
					: "aucune ne peut être comblée"
				: closed === gaps
					? gaps === 1
						? "peut être comblée"
						: "toutes peuvent être comblées"
					: closed === 1
						? "1 peut être comblée"
						: `${closed} peuvent être comblées`;
		return `${counts.gaps(gaps)} : ${what}`;
	},
	noMinutes: "Aucun cours de ce niveau ne dit ses minutes.",
	free: (minutes) => `${counts.minutes(minutes)} libres dans son cours le plus rempli.`,
	cutShort: "La recherche a été écourtée : un choix plus petit existe peut-être.",
	closes: (minutes) => `environ ${min(minutes)} ; comble`,
	staysOpen: "Reste ouvert",
	found: "Pour toute la période, voici le moins de changements trouvé ; dans cette semaine :",
	swaps:
		"Un autre éducatif à la place d'un de ceux-ci peut suffire, sans minutes de plus. Ceci cherche le moins possible de changements :",
	because: {
		untrained: "pas vu de toute la période",
		"too few weeks": "vu pendant trop peu de semaines",
		"too long a gap": "dans un écart trop long",
		unmatched: "manque ici cette semaine",
	},
	reasons: {
		"no drill": "aucun autre éducatif de la bibliothèque ne l'entraîne ici",
		order: "ses éducatifs viendraient avant ce sur quoi ils reposent",
		minutes: "ses éducatifs ne tiennent pas dans les minutes libres",
	},
	work: {
		forward: "Travail vers l'avant",
		backward: "Travail vers l'arrière",
		sideways: "Travail latéral",
		none: "Travail sans sens",
	},
};

export const guides: Words["guides"] = {
	besides: "Guides d'avant et d'après",
	none: "Aucun guide n'est encore écrit.",
	author: "Chaque champ et chaque code de message, pour celles et ceux qui écrivent le manuel.",
};

export const about: Words["about"] = {
	title: "Sécurité et à propos de ce manuel",
	caution: "La précaution d'usage",
	first:
		"L'entraînement de la gymnastique demande un encadrement qualifié, des tapis et une parade adaptés au gymnaste. Les règles locales, celles de la fédération et la pratique diplômée passent d'abord, avant tout ce qui est écrit ici.",
	rules: [
		"N'enseignez que ce que couvrent votre diplôme et votre formation, et ne parez que ce que vous avez appris à parer.",
		"Vérifiez agrès, fixations et tapis avant chaque cours, et de nouveau après chaque changement.",
		"Un gymnaste fatigué, souffrant, blessé ou effrayé fait la version plus facile, ou se repose.",
		"Un seul gymnaste à la fois sur une zone de réception ; ceux qui attendent restent à l'écart.",
	],
	computed:
		"Les charges calculées comptent les réceptions et appuis manuels prévus. Les hauteurs calculées viennent de tables de croissance moyenne. Les unes et les autres sont des aides à la planification, pas des mesures médicales, et ne disent rien d'un enfant en particulier.",
	reports: "Ce que rapportent les entraîneurs",
	reportsKept: [
		"« Comment c'était », à la fin d'une fiche de cours, reste sur l'appareil de l'entraîneur jusqu'à ce qu'il l'envoie ; « Effacer » l'y supprime, tout comme effacer les données du navigateur pour ce site.",
		"Il n'y a aucun champ pour une personne. Ce qui est écrit dans ses lignes arrive à la direction tel quel : aucun nom, aucune blessure, rien sur un enfant en particulier.",
		"La direction garde ce qui a été envoyé dans le dossier du club, et peut l'effacer à tout moment : les fichiers sous _data/taught, ce qu'undo en garde sous .handbook/changes, la version de la direction, les messages reçus, et les versions antérieures si le dossier est sous gestion de versions.",
	],
	sums: {
		title: "Ce qui a été enseigné, en sommes",
		question: "Combien réussissent quoi, et où passent les minutes ?",
	},
	reportsNotHere: "Ce site, ses feuilles imprimées et ses fichiers de données n'en contiennent rien.",
	reportsSums: (page) => [
		"Le club en publie des sommes, et rien d'autre : ",
		page,
		". Elles portent sur tout le club et toute la période, aucune n'est inférieure à cinq, et toutes sont arrondies à un multiple de cinq, vers le bas ; rien n'y est dit d'un cours, d'une semaine, d'un entraîneur ou d'un éducatif, et aucune ligne écrite n'y figure.",
	],
	handbook: "Ce manuel",
	curriculum: (club) =>
		`Voici le programme du club ${club} : une seule source pour le site, le classeur imprimé et les fiches de cours. Aucune donnée personnelle de gymnastes n'y est conservée.`,
	edition: (edition, findings) => [
		"Édition ",
		edition,
		". Le plan présente ",
		findings,
		" face aux objectifs du club.",
	],
	corrections: (contact) => ["Les corrections sont bienvenues à ", contact, "."],
	madeWith: (program) => `Réalisé avec ${program}.`,
	licences: "Licences de la police de caractères et des programmes de ce site",
	kept: "Après la première visite, tout le manuel s'ouvre sans réseau, dans un navigateur avec JavaScript.",
};

export const notFound: Words["notFound"] = {
	page: "Page introuvable",
	title: "Il n'y a rien ici",
	lead: "La page a peut-être été renommée depuis que le lien a été fait.",
	drills: "Tous les éducatifs",
};

export const search: Words["search"] = {
	label: "Forme, élément, niveau, agrès, matériel ou n'importe quels mots",
	suggestions: "Suggestions",
	share: "Partager cette liste",
	chosen: "Filtres choisis",
	pages: "Pages autres que les éducatifs",
	show: "Voir les éducatifs",
	filters: "Filtres",
	found: "Éducatifs trouvés",
	more: "Montrer plus",
	noScript: "Chercher pendant la frappe demande JavaScript. Toutes les listes ci-dessous s'en passent.",
	lists: "Toutes les listes d'éducatifs",
	all: (drills) => `Les ${counts.drills(drills)}`,
	by: {
		level: "Par niveau",
		apparatus: "Par espace et agrès",
		shape: "Par forme",
		skill: "Par élément",
		equipment: "Par matériel",
		week: "Par semaine",
	},
};

export const searching: Words["searching"] = {
	facets: {
		shape: "Forme",
		level: "Niveau",
		apparatus: "Espace ou agrès",
		skill: "Élément",
		direction: "Sens",
		week: "Semaine",
		equipment: "Matériel",
		minutes: "Minutes prévues",
	},
	drills: (count) => (count === 0 ? "Aucun éducatif" : counts.drills(count)),
	near: (count) => (count === 1 ? "1 autre s'en approche" : `${count} autres s'en approchent`),
	nearOnly: (count) =>
		`Aucun éducatif n'a tout cela ; ${count === 1 ? "1 s'en approche" : `${count} s'en approchent`}`,
	lacks: (parts) => `${parts.map(quoted).join(", ")} introuvable${parts.length > 1 ? "s" : ""}`,
	see: "On voit :",
	say: "Dire :",
	show: (count) => (count === 0 ? "Voir qu'il n'y en a aucun" : `Voir ${counts.drills(count)}`),
	allNeed: "Tous les éducatifs qui répondent au reste demandent du matériel.",
	without: (names) => `Sans ${names}`,
	asText: (facet, value, typed) =>
		`${facet} : ${value}, lu dans vos mots. Chercher plutôt ${quoted(typed)} comme un mot`,
	kinds: { class: "Cours", guide: "Guide", emergency: "Urgence" },
	whenHurt: "blessé blessée blessure accident saigne inconscient commotion chute premiers secours ambulance",
	read: (typed, used) => `${quoted(typed)} a été lu comme ${quoted(used)}.`,
	unknown: (part) => `Rien trouvé pour ${quoted(part)}.`,
	filters: (chosen) => (chosen === 0 ? "Filtres" : `Filtres (${chosen})`),
	remove: (facet, value) => `Retirer ${facet} : ${value}`,
	removeAll: "Tout retirer",
	like: "Semblable à",
	failed: "La recherche n'a pas pu être chargée. Les listes ci-dessous fonctionnent sans elle.",
	copied: "Lien copié",
	share: "Partager cette liste",
	more: (count) => `En montrer ${count} de plus`,
};

export const keeping: Words["keeping"] = {
	inEdition: (edition) => `(édition ${edition})`,
	ready: "Une nouvelle édition est prête.",
	change: "Passer à celle-ci",
	later: "Plus tard",
	other: "Cette page vient de l'édition précédente.",
	again: "La rouvrir",
	taking: (done, of) => `Enregistrement sur cet appareil : ${done} parties sur ${of}.`,
	kept: (edition) => `L'édition ${edition} est enregistrée sur cet appareil et s'ouvre sans réseau.`,
	pictures: (missing) => (missing === 1 ? "Une image manque encore." : `${missing} images manquent encore.`),
	waiting: "Une édition plus récente est là aussi ; elle est prise quand vous y passez.",
	failed: (why) =>
		`Cette édition n'a pas pu être enregistrée sur l'appareil : ${why}. Un nouvel essai se fait à la page suivante.`,
	insecure: "Les navigateurs ne gardent un manuel que depuis une adresse qui commence par https.",
	unable: "Ce navigateur ne peut pas garder le manuel sur l'appareil.",
	preview: "Ceci est un aperçu : rien n'est gardé sur l'appareil.",
	notKept: "Le manuel n'est pas gardé sur cet appareil :",
	notHere: "Ceci n'est pas gardé sur cet appareil et s'ouvre dès qu'il y a du réseau.",
};

export const filterValues: Words["filterValues"] = {
	minutes: { short: "Moins de 5 minutes", medium: "5 à 10 minutes", long: "Plus de 10 minutes" },
	noEquipment: { name: "Sans matériel", aliases: ["aucun matériel", "sans équipement", "rien à installer"] },
	directions: {
		forward: { name: "Avant", aliases: ["vers l'avant", "en avant"] },
		backward: { name: "Arrière", aliases: ["vers l'arrière", "en arrière"] },
		sideways: { name: "Latéral", aliases: ["sur le côté", "de côté"] },
		none: { name: "Sans sens", aliases: [] },
	},
};

export const prints: Words["prints"] = {
	label: "À imprimer",
	note: "Fichiers PDF, pris sur le réseau",
	termOverview: "La période sur une page",
	binder: (pages, size) => `Le classeur d'entraînement, ${counts.pages(pages)}, ${number(size)} Mo`,
	packet: "Le dossier de la semaine",
	packetOf: (week) => `Dossier de la semaine ${week}`,
	classSheet: "Cette fiche sur une feuille",
	storeRoom: "Liste du local",
	storeRoomOf: (week) => `Liste du local de la semaine ${week}`,
	labels: "Étiquettes du matériel",
	checkSheet: "Fiche d'évaluation vierge",
	cardsByTwo: "Cartes d'atelier, deux par feuille",
	cardsByFour: "quatre par feuille",
	floorPlans: "Plans au sol",
};

// Feuilles imprimées --------------------------------------------------------------------------------

export const pageLabels: Words["pageLabels"] = {
	cover: "Titre",
	contents: "Sommaire",
	added: "N",
	guides: "G",
	drills: "ED",
	shapes: "F",
	skills: "EL",
	coverage: "C",
	equipment: "M",
	index: "X",
	week: (week) => `S${week}`,
	inWeek: (name, week) => `${name} S${week}`,
	check: (level) => `Évaluation ${level}`,
	plan: (apparatus, week) => `${apparatus} plan S${week}`,
	storeRoom: (week) => `Local S${week}`,
	labels: (week) => `Étiquettes S${week}`,
	term: "Période",
};

export const sheets: Words["sheets"] = {
	seenOf: (skill) => `${skill}, à voir :`,
	weekAndTheme: (week, theme) => `Semaine ${week} : ${theme}`,
	span: (from, to) => `du ${from} au ${to}`,
	onDay: (day) => `le ${day}`,
	dayOfMonth: (day, number) => `${day} ${number}`,
	emergency: "En cas d'urgence.",
	withheld:
		"Cette page n'est pas imprimée : ce qui y concerne la sécurité n'a pas été retrouvé sur le papier. Enseignez d'après la page de l'éducatif sur le site.",
	rotation: "Rotation",
	blocksAndMinutes: (blocks, minutes) => `${counts.blocks(blocks)}, ${min(minutes)}`,
	toChange: (minutes) => `${min(minutes)} pour changer`,
	nothingWritten:
		"Rien de particulier n'est écrit pour cet éducatif : des tapis et une parade adaptés au gymnaste.",
	mark: "repère",
	code: "Code à scanner : cette page sur le site du club",
	dividers: "intercalaires",
	pocketOf: (classes) => `Édition de poche : ${and(classes)}`,
};

export const binder: Words["binder"] = {
	volumes: {
		binder: "Classeur d'entraînement",
		library: "Bibliothèque d'éducatifs",
		director: "Volume de la direction",
	},
	dates: (weeks, from, to) => `${counts.weeks(weeks)}, du ${from} au ${to}`,
	edition: (name) => `Édition ${name}`,
	use: "Comment se servir de ce classeur",
	useLead:
		"Sortez la semaine de votre cours, avec les fiches d'éducatifs qu'elle nomme. Tout ce qui est sur papier est aussi sur le site du club ; si les deux diffèrent, c'est l'édition au plus grand numéro qui compte.",
	finding: "Trouver une page",
	findingHow:
		"Les pages sont numérotées par partie, pour qu'une partie modifiée puisse être remplacée sans le reste. Le numéro se trouve au pied de chaque page, côté extérieur, et la partie sur l'onglet.",
	parts: {
		guides: "guides et niveaux",
		week: (week) => `semaine ${week} : ce qu'elle entraîne, ses cours, puis les agrès l'un après l'autre`,
		drills: "les fiches d'éducatifs, agrès par agrès",
		things: "formes et éléments, avec les éducatifs qui les entraînent",
		tables: "ce que couvre la période ; le matériel à mettre en place, et où il est rangé",
		index: "l'index",
	},
	inHall: "Dans la salle",
	inHallHow: [
		"Ouvrez la semaine à votre agrès. L'encadré du haut dit ce qu'il faut mettre en place.",
		"Lisez les blocs de haut en bas : les minutes à gauche, puis les ateliers du bloc, chacun avec ce que fait chaque niveau, ce qu'il faut dire et ce qui assure la sécurité.",
		"Reportez-vous à la fiche de l'éducatif pour les fautes à surveiller, et pour ce qui vient avant et après.",
	],
	changing: "Remplacer une partie",
	changingHow:
		"Les pages dont le numéro commence de la même façon remplissent des feuilles entières à elles seules. Retirez-les, mettez les nouvelles à leur place, et comparez le numéro d'édition au pied de page : le plus grand est le plus récent. Une page laissée blanche le dit.",
	blank: "Cette page est laissée blanche, pour que celles-ci puissent être remplacées seules.",
	safety: "Sécurité.",
	caution:
		"L'entraînement de la gymnastique demande un encadrement qualifié, ainsi que des tapis et une parade adaptés au gymnaste. Les règles locales, celles de la fédération et la pratique diplômée passent avant tout ce qui est imprimé ici. Les charges et hauteurs calculées sont des aides à la planification, pas un avis médical.",
	cautionInFront: "la précaution d'usage, en tête du classeur,",
	corrections: (contact, site) =>
		`${and([
			...(contact === undefined ? [] : [`Corrections à ${contact}`]),
			...(site === undefined ? [] : [`site : ${site}`]),
		])}.`,
	contents: "Sommaire",
	guidesAndLevels: "Guides et niveaux",
	arriveWith: "Les gymnastes arrivent avec",
	shapesLead: "Les positions dont tout est fait, et les éducatifs qui entraînent chacune",
	skillsLead: "Ce à quoi mènent les éducatifs, ce qu'il faut d'abord, et les éducatifs qui y préparent",
	needs: "Demande",
	otherWay: "Dans l'autre sens",
	noDrill: "Pas encore d'éducatif.",
	index: "Index",
	indexLead: "Éducatifs, formes, éléments et matériel, sous tous leurs noms",
	added: "Éducatifs ajoutés",
	addedLead:
		"Éducatifs venus à la bibliothèque après l'établissement des listes, avec leurs pages. Tout le reste, et l'index, est comme avant.",
};

export const weekSheet: Words["weekSheet"] = {
	of: (week, weeks) => `Semaine ${week} sur ${weeks}`,
	focus: "Axe de travail",
	page: "Page",
	shapes: "Formes de la semaine",
	skills: "Éléments de la semaine",
	classes: "Cours de la semaine",
	minutesPlanned: "Minutes prévues",
	minutesOf: (planned, available) =>
		available === undefined ? number(planned) : `${number(planned)} sur ${number(available)}`,
	setUp: "À mettre en place avant le cours",
	inAll: (blocks, minutes) => `${counts.blocks(blocks)}, ${counts.minutes(minutes)} en tout.`,
	together: "Ensemble",
};

export const drillCards: Words["drillCards"] = {
	title: "Fiches d'éducatifs",
	on: (apparatus) => `Éducatifs : ${apparatus}`,
	drill: "Éducatif",
	card: "Fiche",
	elsewhere: "Se font aussi ici, avec leur fiche ailleurs",
	sides: { each: "un côté puis l'autre", lead: "du côté préféré" },
	alsoOn: (apparatus) => `aussi à : ${apparatus.join(", ")}`,
	after: "Après",
	andThen: "Ensuite",
	seeAndSay: "On voit, on dit",
	setUp: "Mise en place",
	height: (what, height) => [`${what} : `, height],
	turn: (seconds, atOnce) =>
		`un passage dure environ ${number(seconds)} s${atOnce > 1 ? `, ${counts.gymnasts(atOnce)} à la fois` : ""}`,
	reviewed: (date) => `Relu le ${date}.`,
	code: "Code à scanner : cet éducatif sur le site du club",
	onSite: "Sur le site :",
	videoOnSite: "Vidéo sur le site :",
};

export const binderTables: Words["binderTables"] = {
	allLevels: "tous les niveaux",
	weeksAnd: {
		shape: (level) => `Semaines et formes : ${level}`,
		skill: (level) => `Semaines et éléments : ${level}`,
	},
	weeks: "Sem.",
	reach: { shape: "Formes par cours", skill: "Éléments par cours" },
	reachLead: {
		shape: "Semaines où chaque cours rencontre une forme, et les minutes",
		skill:
			"Semaines où chaque cours rencontre un élément ; puis combien de fois un gymnaste le fait, ou entre parenthèses ce qui ne fait que le préparer",
	},
	drillsLead:
		"Éducatifs différents de chaque semaine, tous niveaux confondus ; la dernière colonne compte les semaines concernées",
	minutesLead: "Minutes de chaque semaine ; un éducatif qui en nomme plusieurs compte en entier pour chacun",
	owned: "Ce que possède le club",
	heights: "Hauteurs de mise en place",
	heightsLead:
		"Centimètres du sol à un repère du corps, pour les âges des cours de chaque niveau : du plus petit au plus grand",
	weeksLead:
		"Ce qui est prêt à chaque agrès : les ateliers d'un bloc s'additionnent, et de plusieurs blocs le plus grand compte",
	nothing: "Rien à mettre en place.",
	continued: (title) => `${title} (suite)`,
};

export const classLeaf: Words["classLeaf"] = {
	gather: "Accueil",
	before:
		"Vérifiez la mise en place et les tapis, comptez le groupe, tenez ceux qui attendent à l'écart des réceptions. Ne parez que ce que vous avez appris à parer.",
	setOut: "À sortir",
	atEach: (gymnasts) => `${counts.gymnasts(gymnasts)} par atelier`,
	turnsEach: (turns) => `Environ ${counts.turns(turns)} chacun`,
	turn: (seconds, atOnce) => `${number(seconds)} s par passage, ${counts.gymnasts(atOnce)} à la fois`,
	props: (count, item) => `${number(count)} ${item}`,
	propsEach: (count, item) => `${number(count)} ${item} par gymnaste`,
	height: (what, landmark, range) =>
		`${what} à ${landmarks[landmark]}${range === undefined ? "" : ` (${range[0]} à ${range[1]} cm)`}.`,
	putBack: (coolDown) => [coolDown, ", comptez le groupe, rangez tout."],
	goesOn: (apparatus) => `${apparatus} (suite)`,
	leftOut:
		"Pour tenir sur cette feuille, une seule chose à surveiller est imprimée par éducatif ; le reste est sur sa fiche.",
};

export const stationCards: Words["stationCards"] = {
	title: (apparatus, week) => `Cartes d'atelier : ${apparatus}, semaine ${week}`,
	station: (at, of) => `atelier ${at} sur ${of}`,
	standsAt: (along, across) => `À ${number(along)} m en longueur et ${number(across)} m en largeur.`,
};

export const planSheet: Words["planSheet"] = {
	title: (apparatus, week) => `Plans au sol : ${apparatus}, semaine ${week}`,
	plans: "plans au sol",
	plansOfWeek: (week) => `plans au sol, semaine ${week}`,
};

export const storeRoom: Words["storeRoom"] = {
	title: (week) => `Local, semaine ${week}`,
	name: "Local",
	goesOut: "ce qu'il faut sortir",
	lead: "Par lieu de rangement. Chaque agrès a ce qu'il lui faut au plus à un même moment ; « tous » compte tous les agrès installés ensemble.",
	short:
		"Un nombre possédé encadré est inférieur à « tous » : ces agrès ne peuvent pas tous être installés à la fois, et se partagent l'objet.",
	elsewhere: "Personne n'a écrit où cela est rangé",
	all: "Tous",
	owned: "Stock",
	days: "Jours",
	back: "Rangé",
	classesOn: (day, classes) => `${day} : ${classes.join(", ")}`,
	labels: (week) => `Étiquettes du matériel, semaine ${week}`,
	to: (apparatus) => ["pour ", apparatus],
	backTo: (place) => `à ranger : ${place}`,
};

export const checkSheet: Words["checkSheet"] = {
	title: (level) => `Évaluation : ${level}`,
	check: "évaluation des éléments",
	sheetOf: (at, of) => `fiche ${at} sur ${of}`,
	coach: "Entraîneur",
	dates: "Dates",
	name: "Nom",
	marks: {
		helped: "avec aide, ou avec une mise en place plus facile",
		once: "sans aide et en sécurité, une fois",
		twice: "sans aide et en sécurité, dans deux cours ou plus",
		notSeen: "pas encore vu : laisser vide",
	},
	mark: "Une marque dit ce qui a été vu un jour donné, jamais ce qu'est un gymnaste.",
	noHealth:
		"Un prénom ou des initiales suffisent. N'écrivez rien ici sur la santé, les blessures ou la famille ; cela va à la personne que le club a désignée. Gardez la fiche là où seuls les entraîneurs la voient, et détruisez-la quand les règles du club le disent.",
};

export const termSheet: Words["termSheet"] = {
	title: (term) => `Vue de la période : ${term}`,
	closedBetween: (days) => `Fermé ${days.join(", ")}`,
	closedOn: (days) => `fermé le ${days.join(", ")}`,
};

// Mesures -------------------------------------------------------------------------------------------

export const measures: Words["measures"] = {
	spacing: {
		title: "Espacement",
		question: "Quelque chose est-il vu trop rarement, ou oublié pendant des semaines ?",
		means:
			"Pendant combien de semaines chaque niveau rencontre une forme ou un élément, et combien de temps il attend pour le revoir.",
		source:
			"Il est bien établi qu'une pratique répartie dans le temps se retient mieux qu'une pratique massée (Cepeda et al. 2006, pour la mémoire verbale ; Lee & Genovese 1988, pour le mouvement). Aucun écart idéal n'a été publié pour la gymnastique des enfants ; les objectifs sont donc ceux du club.",
	},
	order: {
		title: "Ordre",
		question: "Le plus facile vient-il avant le plus difficile ?",
		means:
			"Si chaque niveau rencontre d'abord ce qu'un élément demande, ou ce après quoi vient un éducatif, avant la chose elle-même ; les éléments avec lesquels les gymnastes arrivent comptent comme vus.",
		source:
			"Ce qui demande quoi est l'affaire du club, d'après ses éléments et éducatifs. Que le facile vienne avant le difficile est une pratique courante.",
	},
	balance: {
		title: "Équilibre",
		question:
			"Le travail vers l'avant a-t-il son équivalent vers l'arrière, des deux côtés, dans chaque famille de mouvement ?",
		means:
			"Les minutes vers l'avant face aux minutes vers l'arrière à chaque agrès et chaque semaine, la façon dont les deux côtés sont traités, et les familles de mouvement entraînées ; les minutes sont additionnées sur les niveaux.",
		source:
			"Que le travail vers l'avant soit suivi d'une version vers l'arrière la même semaine est une pratique courante ; aucune source publiée ne donne de proportion. Les familles de mouvement (réception, maintien, déplacement, rotation, balancé, impulsion, manipulation) suivent Alberta SPHEReS ; six des sept sont attribuées à Russell.",
	},
	time: {
		title: "Temps",
		question: "Le plan tient-il dans chaque cours, et combien de temps un gymnaste y bouge-t-il ?",
		means:
			"Échauffement, blocs et retour au calme face aux minutes de chaque cours, et la part de ces minutes pendant laquelle un gymnaste bouge plutôt que d'attendre son passage.",
		source:
			"Compté d'après le plan, la taille du cours et les passages que donnent les éducatifs ; un éducatif sans passage compte comme si tous bougeaient à la fois. Que les gymnastes apprennent en bougeant est une pratique courante ; la part voulue est celle du club.",
	},
	equipment: {
		title: "Matériel",
		question: "Y en a-t-il assez dans le local, même quand deux cours partagent la salle ?",
		means:
			"Ce que chaque agrès demande chaque semaine : les ateliers sont côte à côte et s'additionnent, les blocs se suivent et le plus grand l'emporte, les objets par gymnaste comptent pour le cours le plus nombreux. Ce qui est trop serré sur un plan au sol, ou dépasse son bord, est signalé ici aussi.",
		source: "Compté d'après les listes de matériel des éducatifs et ce que le club possède.",
	},
	load: {
		title: "Charge",
		question: "Les réceptions et appuis manuels augmentent-ils en douceur ?",
		means:
			"Les réceptions et appuis manuels que le plan demande à un gymnaste qui fait tout ce qui est prévu pour son niveau, et la variation : cette semaine rapportée à la moyenne des trois semaines de cours précédentes.",
		source:
			"Les réceptions et appuis manuels sont comptés dans des études sur de jeunes gymnastes (douleur au poignet : DiFiori et al. 1996, 2002). La variation voulue est celle du club : les bandes proposées pour de tels rapports (Gabbett 2016) ont été fortement critiquées (Impellizzeri et al. 2020), aucune n'est donc employée ici.",
	},
	heights: {
		title: "Hauteurs",
		question: "À quelle hauteur sont le genou, la hanche ou la poitrine dans ce cours ?",
		means:
			"Centimètres à chaque repère du corps pour les âges d'un cours : les médianes des filles et des garçons, et la bande du plus petit 5e au plus grand 95e percentile.",
		source:
			"Courbes de croissance CDC 2000, stature selon l'âge (Vital and Health Statistics, série 11, numéro 246) ; proportions : Drillis & Contini 1966, d'après Winter, Biomechanics and Motor Control of Human Movement, fig. 4.1.",
	},
};

export const targets: Words["targets"] = {
	shapeWeeks: (weeks) => `chaque forme pendant au moins ${counts.weeks(weeks)}`,
	shapeGap: (weeks) => `au plus ${counts.weeks(weeks)} d'une semaine avec une forme à la suivante`,
	skillWeeks: (weeks) => `chaque élément pendant au moins ${counts.weeks(weeks)}`,
	skillGap: (weeks) => `au plus ${counts.weeks(weeks)} d'une semaine avec un élément à la suivante`,
	order: "rien avant ce sur quoi il repose",
	pairDirections: "le travail vers l'avant a son équivalent vers l'arrière la même semaine",
	time: "les minutes prévues tiennent dans le cours",
	activeShare: (share) => `chaque gymnaste bouge pendant au moins ${percent(share)} du cours`,
	equipment: "jamais plus de matériel demandé au même moment que le club n'en possède",
	loadStep: (step) => `une semaine au plus ${number(step, 2)} fois la moyenne des trois précédentes`,
};

export const measurePage: Words["measurePage"] = {
	lead: "Ce qui est compté d'après le plan, et ce que le club en attend. Chaque nombre s'ouvre sur les éducatifs d'après lesquels il est compté.",
	allFindings: (findings) => `Tous les constats (${findings}), les plus graves d'abord`,
	noFindings: "Aucun constat",
	targetIs: (target) => `Objectif : ${target}`,
	target: "L'objectif du club",
	noTarget: (howTo) => ["Aucun n'est fixé. ", howTo, "."],
	howToSet: "Comment en fixer un",
	nothingMisses: "Rien ne le manque.",
	finds: "Ce que cette mesure constate",
	source: "D'où cela vient",
	others: "Autres mesures",
	all: "Toutes les mesures",
	nothing: (howTo) => ["Aucune semaine n'est encore prévue, donc rien à compter. ", howTo, "."],
	howToWrite: "Comment écrire une semaine",
	termQuestion: "Que travaille chaque semaine, en un coup d'œil ?",
	coverageQuestion: "Combien de minutes pour chaque forme, élément et sens ?",
	calendar: "Calendrier",
	calendarQuestion: "À quelles dates chaque cours a-t-il lieu, compte tenu des fermetures ?",
};

export const spacing: Words["spacing"] = {
	missing: "Ce qui manque un objectif",
	note: "Minutes de chaque semaine. Les mêmes lignes sont marquées dans les tableaux plus bas.",
	missingTitle: {
		shape: "Formes du corps qui manquent un objectif",
		skill: "Éléments qui manquent un objectif",
	},
	missingTable: {
		shape: "Formes du corps qui manquent un objectif, minutes par semaine",
		skill: "Éléments qui manquent un objectif, minutes par semaine",
	},
	missingDescription:
		"Minutes de chaque semaine, par niveau. Le tableau à côté de cette image donne les mêmes nombres.",
	none: {
		shape: (level) => `Aucune forme n'est vue ni attendue au niveau ${level}.`,
		skill: (level) => `Aucun élément n'est vu ni attendu au niveau ${level}.`,
	},
	met: (met, expected) =>
		met === expected
			? `Tout ce que le niveau devrait voir est vu (${expected}).`
			: `${met} sur ${expected} que le niveau devrait voir sont vus.`,
	metAndMissed: (met, expected, missed, target) =>
		`${
			met === expected
				? `Tout ce que le niveau devrait voir est vu (${expected})`
				: `${met} sur ${expected} que le niveau devrait voir sont vus`
		} ; ${missed === 0 ? "rien ne manque" : missed === 1 ? "1 manque" : `${missed} manquent`} l'objectif (${target}).`,
	levelMet: {
		shape: (met, expected) =>
			met === expected
				? `Les ${expected} formes que le niveau devrait entraîner sont vues.`
				: `${met} formes sur les ${expected} que le niveau devrait entraîner sont vues.`,
		skill: (met, expected) =>
			met === expected
				? `Les ${expected} éléments que le niveau devrait apprendre sont vus.`
				: `${met} éléments sur les ${expected} que le niveau devrait apprendre sont vus.`,
	},
	allMeet: "Tout atteint l'objectif",
	missed: (missed) => `${missed === 1 ? "1 manque" : `${missed} manquent`} l'objectif`,
	extra: "en plus",
	extraNote: "En plus : vu, bien que le niveau ne le demande pas.",
	tableOf: {
		shape: (level) => `Formes du corps, ${level}`,
		skill: (level) => `Éléments, ${level}`,
	},
	never: "jamais",
	weekByWeek: (level) => `${level}, semaine par semaine`,
	weeksTable: "Semaines à chaque niveau",
	opens: "Une semaine s'ouvre sur ses éducatifs.",
	everything: "L'espacement de tout, et les objectifs",
	everyThing: "Chaque forme et élément de ce niveau, avec ses semaines",
	orderOf: "L'ordre dans lequel il rencontre ses éléments",
};

export const order: Words["order"] = {
	none: "Aucun élément n'est appris ni attendu à ce niveau.",
	checked: (needs, wrong) =>
		`${counts.needs(needs)} d'éléments appris comparés au plan : ${
			wrong === 0
				? "tous viennent d'abord"
				: wrong === 1
					? "1 vient trop tard"
					: `${wrong} viennent trop tard`
		}.`,
	tableOf: (level) => `L'ordre des éléments, ${level}`,
	first: "Appris d'abord en",
	builtOn: "Repose sur",
	notThisTerm: "pas cette période",
	notTaught: "pas appris",
	arrives: "arrive avec",
	tooLate: "trop tard",
	pictures: "Ce qui mène à quoi",
	note: "Du facile en haut au difficile en bas, avec la semaine où chaque niveau l'apprend pour la première fois. La page d'un élément montre ses voisins à tous les agrès.",
	mapTitle: (apparatus) => `Éléments, ${apparatus}`,
	mapDescription: "Ce qui vient avant quoi. La liste sous cette image dit la même chose en mots.",
};

export const balance: Words["balance"] = {
	directions: "Vers l'avant et vers l'arrière",
	overAll: "Minutes sur tous les niveaux.",
	note: "Minutes sur tous les niveaux. Chaque agrès a sa propre échelle. Un nombre s'ouvre sur ses éducatifs.",
	pairs: (of) => `${of} : arrière et avant`,
	tableOf: (apparatus) => `${apparatus} : minutes par sens`,
	byDirection: "Minutes par sens",
	sidesNote: "Minutes selon la façon dont les éducatifs traitent les deux côtés du corps.",
	sidesTable: "Minutes par côté",
	sides: {
		both: "Les deux ensemble",
		each: "L'un puis l'autre",
		lead: "Préféré seulement",
		unsaid: "Non dit",
	},
	patterns: "Familles de mouvement",
	patternsNote:
		"Un éducatif a les familles des éléments auxquels il mène ; celui qui en a deux donne toutes ses minutes aux deux. Entre parenthèses, les minutes partagées entre les familles, dont la somme est juste.",
	patternsTable: "Minutes par famille de mouvement",
	countedFrom: (level) => `Établi d'après, ${level}`,
	unpaired: "Sans son équivalent",
	unpairedNote:
		"Éducatifs dans un sens qu'un niveau fait une semaine sans le même travail dans l'autre. On peut le vouloir ainsi ; rien ici n'est une faute en soi.",
	levelInWeeks: (level, weeks) =>
		`${level} en ${weeks.length === 1 ? "semaine" : "semaines"} ${weeks.join(", ")}`,
	noCounterpart: "Pas d'équivalent dans la bibliothèque.",
	counterpart: (drills) => ["Équivalent : ", drills, "."],
};

export const time: Words["time"] = {
	none: "Aucun cours avec une rotation n'a encore rien de prévu ; il n'y a donc rien à comparer à ses minutes.",
	moving: "Combien chaque cours bouge",
	movingNote:
		"Pourcentage des minutes du cours sur toutes les semaines prévues : la somme des minutes en mouvement sur la somme des minutes.",
	target: "objectif",
	under: "sous l'objectif",
	shareTitle: "Part de chaque cours pendant laquelle un gymnaste bouge",
	shareDescription: "En pour cent. Le tableau à côté de cette image donne les mêmes nombres.",
	lineTitle: (group) => `${group} : minutes prévues et disponibles`,
	lineDescription: "Minutes de chaque semaine. Le tableau à côté de cette image donne les mêmes nombres.",
	weekByWeek: (group) => `${group}, semaine par semaine`,
	byApparatus: "Minutes par espace et agrès",
	byApparatusNote:
		"Minutes des blocs du plan qui comptent pour un niveau. Un cours fait ceux des agrès de sa rotation.",
	apparatusTitle: (level) => `${level} : minutes prévues par espace et agrès`,
	allMove: "tous bougent",
	someMove: (moving, gymnasts) => `${moving} sur ${gymnasts} bougent`,
	turnsEach: (turns) => `${counts.turns(turns)} chacun`,
};

export const equipmentMeasure: Words["equipmentMeasure"] = {
	together: "Cours au même moment",
	nobody: "Aucun cours avec un jour, une heure et des minutes n'en croise un autre dans la salle.",
	who: "Qui est dans la salle au même moment :",
	overlap: (day, from, to) => `${day}, ${from} à ${to} :`,
	enough: "À aucun moment ils ne demandent ensemble plus que le club ne possède.",
	tightest: "Au plus près de ce que le club possède",
	tightestNote:
		"Le maximum d'un objet qu'un agrès demande une semaine, le plus rare d'abord. Les tableaux ci-dessous montrent tous les objets et semaines.",
	chartTitle: "Le maximum demandé d'un objet, face à ce que le club possède",
	chartDescription: "Pièces. Les tableaux ci-dessous montrent tous les objets et semaines.",
	ofOwned: (owned) => `sur ${number(owned)}`,
	neededInWeeks: (apparatus) => `${apparatus} : nécessaire chaque semaine`,
	clashTable: "Plus demandé à la fois que le club ne possède",
	when: "Quand",
	at: (day, from, to) => `${day}, ${from} à ${to}`,
	classAt: (needed, group, place) => [`${number(needed)} pour `, group, " à ", place],
};

export const load: Words["load"] = {
	unknown: (share) => `${number(share * 100, 0)} % des minutes ne disent rien des appuis`,
	title: "Réceptions et appuis manuels",
	byLevel: "Réceptions et appuis manuels par niveau",
	note: "Pour un gymnaste qui fait tout ce qui est prévu pour son niveau. Un compte pour planifier, pas une mesure médicale. La variation rapporte cette semaine à la moyenne des trois semaines de cours précédentes.",
	notMedical: "Un compte pour planifier, pas une mesure médicale.",
	caution:
		"Il compte ce qui est écrit, ni la dureté d'une réception, ni la façon dont elle est faite, ni l'état d'un gymnaste. Aucun nombre, aucune variation n'est dit ici sans danger ou dangereux.",
	kinds: { landings: "Réceptions", hands: "Appuis manuels" },
	chartTitle: {
		landings: (level) => `${level} : réceptions par semaine`,
		hands: (level) => `${level} : appuis manuels par semaine`,
	},
	chartDescription:
		"Avec la variation par rapport à la moyenne des trois semaines précédentes. Le tableau ci-dessous donne les mêmes nombres.",
	timesBefore: (step) => `${number(step, 2)} × avant`,
	tableOf: (level) => `${level} : réceptions et appuis manuels par semaine`,
};

export const heights: Words["heights"] = {
	approximate: "Pour des enfants, chaque chiffre est approximatif.",
	byClass: "Par cours",
	note: "En cm, du 5e percentile du plus jeune au 95e du plus âgé ; pieds nus, debout bien droit.",
	classTable: "Hauteurs par cours, en centimètres",
	share: (share, landmark) =>
		`${share === 1 ? "Stature" : `Stature × ${number(share, 3)}`} ; ${landmarkSources[landmark]}.`,
	medianGirls: "médiane, filles",
	medianBoys: "médiane, garçons",
	age: (years) => `${years} ans`,
	chartTitle: (landmark) => `${landmark} selon l'âge, en cm`,
	chartDescription: "Du 5e au 95e percentile. Le tableau à côté de cette image donne les mêmes nombres.",
	ageTable: (landmark) => `${landmark} selon l'âge, en centimètres`,
	ageHeads: ["Âge", "5e percentile", "Médiane, filles", "Médiane, garçons", "95e percentile"],
	usedBy: (drills) => `Employé par ${counts.drills(drills)}`,
};

export const update: Words["update"] = {
	label: "Mise à jour",
	title: "Feuilles à changer",
	nothing: "rien",
	first: "devant tout le reste",
	behind: (page) => `derrière ${page}`,
	from: (edition) => `Pour un classeur à jour de : ${edition}`,
	leaves: (out, into) => `Retirer ${counts.leaves(out)}, insérer ${counts.leaves(into)}.`,
	to: (edition) => `Le classeur est ensuite à jour de : ${edition}.`,
	steps: [
		"Imprimez ce fichier recto verso, avec retournement sur le grand côté, à taille réelle. Perforez les feuilles.",
		"Suivez la liste : retirez les anciennes feuilles du classeur, mettez les nouvelles à leur place.",
		"Cochez chaque ligne. Jetez les anciennes feuilles, pour que personne n'enseigne d'après elles ; gardez cette page devant.",
	],
	bars: "Une barre dans la marge extérieure accompagne tout ce qui est nouveau, une courte barre en travers marque l'endroit où quelque chose a été retiré. Les feuilles qui ont seulement bougé n'en portent pas. L'édition d'une feuille est à son pied : celles qui restent dans le classeur gardent la leur.",
	done: "Fait",
	section: "Section",
	takeOut: "Retirer",
	putIn: "Insérer",
	look: "L'aspect des pages a changé depuis cette édition. Les feuilles qui disent la même chose restent, et gardent leur aspect.",
};

// Ce qui a changé -----------------------------------------------------------------------------------

export const whatChanged: Words["whatChanged"] = {
	title: "Ce qui a changé",
	link: "Ce qui a changé depuis la dernière édition",
	since: (term, edition) =>
		edition === undefined ? `Depuis ${term}.` : `Depuis ${term}, édition ${edition}.`,
	nothing: "Les éducatifs et les plans sont les mêmes.",
	club: "Urgence et club",
	term: "Dates de la période",
	added: "Nouveau",
	renamed: "Autre nom",
	movedWeeks: ([from, last], [to, lastTo]) =>
		from === last
			? `La semaine ${from} est maintenant la semaine ${to}`
			: `Les semaines ${from} à ${last} sont maintenant les semaines ${to} à ${lastTo}`,
	changed: "Modifié",
	removed: "Disparu",
	others: "Modifié aussi",
	come: "Nouveaux constats",
	gone: "Constats disparus",
	numbers: "Ce que cela change",
	largestFirst: "Les plus grands écarts d'abord.",
	more: (numbers) => `${numbers} plus petits se trouvent dans les fichiers de données.`,
	measure: "Nombre",
	about: "De quoi",
	before: "Avant",
	after: "Maintenant",
	differences: /* @__PURE__ */ count("# différence", "# différences"),
	kinds: {
		drill: "Éducatifs",
		week: "Semaines",
		level: "Niveaux",
		apparatus: "Agrès",
		shape: "Formes",
		skill: "Éléments",
		equipment: "Matériel",
		class: "Cours",
		guide: "Guides",
	},
	drillFields: { levels: "Ce que fait chaque niveau", body: "Déroulement" },
	clubFields: {
		emergency: "En cas d'urgence",
		place: "Lieu des cours",
		contact: "Contact pour les corrections",
		name: "Nom du club",
		timezone: "Fuseau horaire",
		site: "Adresse du site",
		language: "Langue",
		paper: "Papier",
		punch: "Perforation",
	},
	termFields: {
		name: "Période",
		starts: "Début",
		weeks: "Semaines",
		closed: "Fermé",
	},
	classFields: {
		closed: "Annulé",
		place: "Lieu",
		name: "Nom",
		day: "Jour",
		start: "Début",
		minutes: "Durée en minutes",
		levels: "Niveaux",
		rotation: "Ordre des agrès",
		coaches: "Entraîneurs",
		gymnasts: "Gymnastes",
		ages: "Âges",
		warmUp: "Échauffement, en minutes",
		coolDown: "Retour au calme, en minutes",
		between: "D'un agrès à l'autre, en minutes",
		groups: "Groupes en même temps",
		sameAs: "Les mêmes gymnastes un autre jour",
	},
	weekFields: {
		theme: "Thème",
		focus: "axe de travail",
		blocks: "blocs",
		apparatus: "Agrès",
		body: "Le mot de la direction",
	},
	blockKinds: { drill: "ensemble", stations: "en ateliers", options: "au choix" },
	blockFields: {
		minutes: "durée",
		change: "temps par changement",
		show: "minutes de démonstration",
		choose: "nombre de choix",
		sessions: "séances de la semaine",
		dose: "dose de la semaine",
		doses: "dose de chaque niveau",
		levels: "niveaux",
		note: "remarque",
		stations: "ateliers",
		kind: "ensemble ou en ateliers",
	},
	tables: {
		"coverage-shapes": "Formes",
		"coverage-skills": "Éléments",
		"coverage-directions": "Sens",
		time: "Temps",
		equipment: "Matériel",
		load: "Charge",
	},
	columns: {
		drills: "éducatifs",
		minutes: "durée",
		share: "durée partagée",
		repetitions: "répétitions",
		planned: "minutes prévues",
		available: "minutes du cours",
		"active-share": "temps en mouvement",
		needed: "nécessaire",
		owned: "possédé",
		landings: "réceptions",
		hands: "appuis manuels",
		"planned-landings": "réceptions prévues",
		"planned-hands": "appuis manuels prévus",
		"unknown-share": "minutes dont personne ne dit qui bouge",
		"new-drills": "éducatifs nouveaux",
		"landings-step": "variation des réceptions",
		"hands-step": "variation des appuis manuels",
	},
};

// Images --------------------------------------------------------------------------------------------

const HELPER_AT: Readonly<Record<Helper["from"], string>> = {
	side: "sur le côté",
	front: "devant",
	back: "derrière",
};
const HELP_PLACES: Readonly<Record<HelpPlace, string>> = {
	head: "à l'arrière de la tête",
	shoulder: "à l'épaule",
	"upper-arm": "au bras",
	forearm: "à l'avant-bras",
	hand: "à la main",
	chest: "à la poitrine",
	stomach: "au ventre",
	"upper-back": "au haut du dos",
	"low-back": "au bas du dos",
	waist: "à la taille",
	hip: "à la hanche",
	seat: "au bassin",
	thigh: "à la cuisse",
	"back-of-thigh": "à l'arrière de la cuisse",
	knee: "au genou",
	shin: "à la jambe",
	foot: "au pied",
};

export const figures: Words["figures"] = {
	move: "Animer",
	stop: "Arrêter",
	afterThat: "puis",
	marks: { right: "juste", wrong: "faux" },
	on: {
		floor: "au sol",
		mat: "sur un tapis",
		"soft-mat": "sur un tapis mou",
		wedge: "sur un plan incliné",
		block: "sur un bloc",
		box: "sur un caisson",
		board: "sur un tremplin",
		beam: "sur la poutre",
		bar: "à la barre",
		rails: "sur de petites parallèles",
		wall: "au sol contre un mur",
		barrel: "contre un cylindre",
		octagon: "contre un octogone",
		"floor-bar": "sur une barre au sol",
		table: "sur une table de saut",
	},
	helper: ({ from, stance, hands }) =>
		`Un aide ${stance === "kneel" ? "à genoux" : "debout"} ${HELPER_AT[from]}, les mains ${hands.map((place) => HELP_PLACES[place]).join(" et ")}.`,
	handsOn: (ground) => `mains ${ground}`,
	inAir: {
		floor: "en l'air au-dessus du sol",
		mat: "en l'air au-dessus d'un tapis",
		"soft-mat": "en l'air au-dessus d'un tapis mou",
		wedge: "en l'air au-dessus d'un plan incliné",
		block: "en l'air au-dessus d'un bloc",
		box: "en l'air au-dessus d'un caisson",
		board: "en l'air au-dessus d'un tremplin",
		beam: "en l'air au-dessus de la poutre",
		bar: "en l'air au-dessus de la barre",
		rails: "en l'air au-dessus de petites parallèles",
		wall: "en l'air au-dessus du sol contre un mur",
		barrel: "en l'air contre un cylindre",
		octagon: "en l'air contre un octogone",
		"floor-bar": "en l'air au-dessus d'une barre au sol",
		table: "en l'air au-dessus d'une table de saut",
	},
	caption: (direction, shapes) => `${direction} : ${shapes}`,
	look: (figure, description) => `${figure} : ${description}`,
	travels: {
		forward: "Le corps se déplace vers l'avant.",
		backward: "Le corps se déplace vers l'arrière.",
		sideways: "Le corps se déplace sur le côté.",
	},
};

export const charts: Words["charts"] = {
	picture: (title) => `${title}, image`,
	inWords: "La même chose en mots",
	none: "rien",
	corner: "Semaine",
	gap: (weeks) => `écart ${weeks} sem.`,
	shortGap: (weeks) => `${weeks} sem.`,
	shortestGap: (weeks) => `${weeks} s`,
	gapInFull: (weeks, from, to) => `écart de ${counts.weeks(weeks)}, de ${from} à ${to}`,
	gapKey: (most) => `écart de plus de ${counts.weeks(most)}`,
	never: "en aucune semaine",
	noneKey: "rien",
	step: (upTo) => `jusqu'à ${upTo}`,
	weeks: "Semaine",
	difference: "+ / −",
	planned: "prévues",
	available: "disponibles",
	over: "plus qu'il n'y en a",
	inFull: (planned, available) =>
		available === undefined ? `${planned} prévues` : `${planned} prévues sur ${available}`,
	range: (low, high, unit) => `${low} à ${high} ${unit}`,
	week: (week) => `sem. ${week}`,
	taught: ({ level, week }) => `${level} sem. ${week}`,
	taughtInFull: ({ level, week }) => `${level} dès la semaine ${week}`,
	notTaught: "pas cette période",
	more: (count) => `${count} prérequis de plus`,
	moreInFull: (count) =>
		`demande ${count === 1 ? "1 autre élément non montré ici" : `${count} autres éléments non montrés ici`}`,
	needs: (names) => `demande ${and(names)}`,
	leadsTo: (names) => `mène à ${and(names)}`,
	arrow: "d'abord, ensuite",
	redundant: "aussi directement",
};

const planSides = {
	start: "au début de la longueur",
	end: "au bout de la longueur",
	left: "au début de la largeur",
	right: "au bout de la largeur",
} as const;

/** Drawings hand over lengths as texts with a point. */
const comma = (length: string): string => length.replace(".", ",");

export const floorPlan: Words["floorPlan"] = {
	title: (place) => `Plan au sol : ${place}`,
	landing: "hachuré : zone de réception",
	free: (metres) => `pointillé : ${number(metres)} m à laisser libres autour`,
	arrows: "flèches : rotation",
	run: "flèche fine : course d'élan",
	runOut: "flèche brisée : dégagement",
	queue: "points : gymnastes qui attendent",
	beyond: "hachuré au-delà du bord : à laisser libre aussi",
	coaches: (group, places) => `carrés : entraîneurs de ${group} (${places.join(" ; ")})`,
	coach: (coach, does, stations) =>
		`${coach} ${does === "spots" ? "pare à" : does === "watches" ? "regarde" : "circule entre"} ${and(stations.map(String))}`,
	walls: "trait épais : mur",
	landmarks: "drapeau : repère",
	noWay: (pairs) => `aucun passage libre de ${and(pairs)}`,
	fromTo: (from, to) => `${from} à ${to}`,
	plans: "Les plans au sol sont à l'échelle.",
	placed: "Les ateliers sans place écrite sont placés là où il y a de la place.",
	published: (items, source) => `Dimensions : ${items} ; source : ${source}.`,
	common: (metres) =>
		`Les autres dimensions et l'espace libre (${number(metres)} m entre ateliers) sont de pratique courante ; les règles locales et les consignes des fabricants passent d'abord.`,
	drawing: {
		wallWord: "mur",
		keepClear: "laisser libre",
		queue: (label, count) => `À ${label}, ${count} attendent.`,
		walls: (sides) => `Un mur se trouve ${and(sides.map((side) => planSides[side]))}.`,
		landmark: (name, x, y) => `${name} à ${comma(x)} m en longueur et ${comma(y)} m en largeur`,
		landmarks: (named) => `Repères : ${named.join(" ; ")}.`,
		noWay: (from, to) => `Il n'y a aucun passage libre de ${from} à ${to}.`,
		size: (length, width) => `Plan au sol, ${comma(length)} sur ${comma(width)} m, à l'échelle.`,
		open: "Personne n'a donné la taille de ce lieu ; le plan est aussi grand que ses ateliers le demandent.",
		station: (label, name, x, y, long, wide) =>
			`${label} : ${name}, centre à ${comma(x)} m en longueur et ${comma(y)} m en largeur, ${comma(long)} sur ${comma(wide)} m.`,
		rotation: (labels) => `Les groupes passent de ${labels.join(" à ")}, puis reviennent au premier.`,
		overlap: (a, b) => `${a} et ${b} se chevauchent.`,
		gap: (a, b, gap) => `Seulement ${comma(gap)} m entre ${a} et ${b}.`,
		landing: (a, b, gap) => `Seulement ${comma(gap)} m entre la zone de réception de ${a} et ${b}.`,
		wall: (a, away) => `${a} a besoin d'un mur et se trouve à ${comma(away)} m du bord.`,
		edge: (a, over) => `${a} dépasse le bord de ${comma(over)} m.`,
		metres: "m",
	},
};

// Guide de rédaction --------------------------------------------------------------------------------

export const authorGuide: Words["authorGuide"] = {
	lead: "Comment écrire pour ce manuel : chaque fichier, chaque champ, chaque message.",
	folder: (at) => [
		"Un dossier de club contient ",
		at.content,
		" et ",
		at.data,
		". Seuls les champs marqués ",
		at.required,
		" sont nécessaires : dix éducatifs avec un titre, un agrès et des niveaux font un manuel, et chaque champ de plus active ce qu'il alimente. Les identifiants sont des mots en minuscules reliés par des traits d'union, et le nom d'un fichier est son identifiant. Le texte peut contenir du Markdown en ligne, et ",
		at.link,
		" ou ",
		at.named,
		" renvoie à tout ce qui a un identifiant.",
	],
	wordsInLink: "mots",
	required: "obligatoire",
	parts: "Parties de ce guide",
	messages: "Messages",
	aboutMessages:
		"Chaque message a un code dont le sens ne change jamais. Il nomme le fichier, la ligne et la colonne, ce qui ne va pas, pourquoi cela compte et que faire.",
	whatToDo: "Que faire.",
	firstDrill: "Un premier éducatif",
	saveAs: (file) => ["Enregistrez ceci sous ", file, " :"],
	example: `---
title: Roulade du tronc d'arbre
apparatus: floor
levels: [debutants]
shapes: [tendu]
cues: [Long et gainé, "Hanches et épaules roulent ensemble"]
caution: Un seul gymnaste à la fois sur le tapis.
---
Allongé, bras au-dessus de la tête, rouler sur le côté comme un tronc.`,
	commands: {
		title: "Commandes",
		lead: "Tapez-les dans le dossier de ce programme. `--club` suivi d'un dossier travaille sur le dossier d'un autre club ; `--help` après une commande en donne les choix. `rename`, `move`, `import` et `next-term` montrent d'abord ce qu'elles feraient, et ne le font qu'avec `--write`. `new` écrit aussitôt, et jamais par-dessus un fichier déjà là.",
		uses: {
			new: {
				title: "Commencer quelque chose",
				what: "Écrit un éducatif, une semaine, un guide, un élément ou tout un dossier de club, avec les champs qui comptent et des commentaires qui expliquent. Dans un terminal, la commande demande ce que vous n'avez pas dit. `new host` écrit ce qui met le manuel en ligne.",
			},
			editor: {
				title: "Compléter les identifiants en tapant",
				what: "Écrit un dossier `.vscode` avec ce que votre club possède : `new club` l'écrit aussi, et `build` et `serve` le tiennent à jour. Dans Visual Studio Code, sans rien installer, éducatifs, éléments, cours et tout le reste sont proposés dans les fichiers Markdown et les fichiers de données, par leur nom ou leur identifiant. Avec son extension YAML, les champs des fichiers de données sont eux aussi complétés et vérifiés ; cette extension ne regarde pas dans le Markdown. Un éditeur à qui l'on peut dire d'employer `yaml-language-server` pour le Markdown complète champs et identifiants dans l'en-tête ; coupez-y `yaml.validate`, car ce serveur prend pour du YAML le texte qui suit. Essayé avec Visual Studio Code 1.100 et avec le serveur lui-même, version 1.25 ; les autres éditeurs ne l'ont pas été.",
			},
			import: {
				title: "Reprendre une feuille de calcul",
				what: "Lit les classeurs, les CSV, les textes à tabulations et les tableaux HTML tels que les clubs les tiennent : listes, ou plans en grille avec les semaines d'un côté et les agrès de l'autre, une feuille par semaine, par niveau ou par agrès. Dit ce qui serait créé et ce qui n'est pas clair, par feuille, ligne et colonne. Avec `--write`, les nouveaux fichiers sont écrits ; un fichier déjà là est gardé tel quel. Avec `--update`, ce que la feuille dit autrement est repris champ par champ, là où seule la feuille a changé depuis le dernier `import` ou `export` ; ce qui a changé des deux côtés est montré. Une ligne disparue est signalée et reste ; `--remove` la retire aussi du dossier, sauf si quelque chose la nomme encore. `--map-out` écrit un fichier de correspondance à remplir. Un fichier de correspondance dit ce que veulent dire vos propres en-têtes et vos propres mots ; `skip` laisse une colonne de côté.",
			},
			check: {
				title: "Demander ce qui ne va pas",
				what: "Nomme chaque erreur avec son fichier et sa ligne, ce qu'il faut faire, et ce qui manque au plan. Une seule ligne quand tout va bien.",
			},
			serve: {
				title: "Voir le manuel en écrivant",
				what: "Montre le site sur cet ordinateur, à `http://localhost:8080`. Un changement enregistré est aussitôt sur la page, une erreur y reste affichée jusqu'à ce qu'elle soit corrigée, chaque page nomme le fichier où elle est écrite, et les feuilles imprimées se regardent sans imprimer. Il affiche aussi l'adresse du bureau, où l'on planifie sur un tableau et écrit dans des formulaires, sur cet ordinateur seulement ; `--read-only` en fait un bureau à montrer.",
			},
			whatIf: {
				title: "Demander ce que ferait un changement",
				what: "Prend une liste de changements et dit en quoi les constats et les comptes différeraient. Le plan lui-même reste tel quel. Les changements sont faits dans l'ordre, et un bloc est nommé par sa semaine, son agrès et son numéro.",
			},
			mend: {
				title: "Corriger le plan",
				what: "Cherche le moins de changements qui fassent disparaître des constats sans en amener de pires, et prouve qu'il n'y en a pas moins. Il échange des éducatifs ; là où cela aide, il allonge ou raccourcit aussi des blocs, les déplace, fait échanger deux blocs ou deux semaines entières, partage des ateliers en deux blocs, et ajoute un bloc où il reste du temps. Personne ne rencontre un éducatif avant ce qu'il demande, et les minutes, les entraîneurs, le matériel, les hauteurs et la place suffisent, ou ne vont pas plus mal qu'avant. `keep: true` sur un bloc ou une semaine les laisse comme ils sont. Le résultat est une liste de changements : `--list` l'écrit dans un fichier pour `check --what-if`, `--write` fait les changements. `--class` et `--level` limitent ce qui peut changer, `--plans 3` en propose trois qui diffèrent, et Ctrl-C prend le meilleur trouvé. Un écart se comble en enseignant entre-temps, jamais en enseignant moins.",
			},
			plan: {
				title: "Planifier les semaines vides",
				what: "Choisit des éducatifs pour les semaines de la période qui n'ont pas encore de fichier, l'une après l'autre : les blocs sont ceux de la semaine planifiée la plus proche, les éducatifs viennent de la bibliothèque selon les mêmes règles. Un autre `--seed` donne un autre plan. Une semaine qui a un fichier n'est jamais touchée ; `--write` écrit les nouveaux fichiers.",
			},
			apply: {
				title: "Appliquer une liste de changements",
				what: "Fait ce que dit une liste de changements, dans l'ordre, une fois que `check --what-if` l'a annoncé. Outre les changements de blocs, une liste peut dire `replace: {drill: kick, with: kick-wall, weeks: 4-6}`, `merge: {drill: kick-2, into: kick}`, `insert-week: {at: 3, theme: Réceptions, like: 2}`, `close: 2027-02-15`, `cancel: {class: mon, on: 2027-01-11}`, `change: {thing: level:level-1, name: Canetons}` (null enlève un champ) et `rename: {thing: drill:kick, to: kick-up}`. Elle montre d'abord les lignes ; `--write` les écrit, et `undo` les reprend.",
			},
			accept: {
				title: "Laisser un constat en place",
				what: "Retire un constat de la liste, avec votre raison, et le garde sous « Acceptés ». Nommez-le par son code et par ce dont il parle : une semaine, un cours, un éducatif. `--until` dit le dernier jour où il peut rester ; celui qui ne correspond plus au plan est signalé. Dans l'aperçu, la page des constats donne la commande entière à côté de chacun.",
			},
			taught: {
				title: "Recueillir les comptes rendus",
				what: "À la fin d'une fiche de cours, l'entraîneur indique comment c'était et envoie un petit texte par le moyen qu'offre son téléphone. Enregistrez ces textes ou courriels et donnez leurs fichiers à cette commande, autant que vous voulez, dans n'importe quel ordre, aussi souvent que vous voulez : elle écrit `_data/taught/<semaine>.yaml`, dit où deux entraîneurs divergent, et laisse ce que vous y avez corrigé. `check`, `mend` et l'aperçu en tiennent compte, et `mend` garde les semaines passées. Les versions des entraîneurs n'en contiennent rien, sauf si `taught-sums` dans `_data/club.yaml` en publie des sommes ; `build -- --director --out DOSSIER` en fait un site complet pour vous seul.",
			},
			rename: {
				title: "Renommer",
				what: "Donne un autre identifiant à un éducatif, à un élément ou à toute autre chose qui en a un, dans chaque fichier qui la nomme.",
			},
			move: {
				title: "Déplacer un bloc ou une semaine",
				what: "Déplace un bloc vers une autre place, ou toute une semaine vers un autre numéro ; avec `--swap`, deux semaines échangent leurs places.",
			},
			undo: {
				title: "Reprendre un changement",
				what: "Défait le dernier changement qu'une commande ou le bureau a fait à vos fichiers ; encore une fois, celui d'avant.",
			},
			export: {
				title: "Écrire des feuilles de calcul",
				what: "Écrit les éducatifs, le plan et les listes en un classeur et en fichiers CSV. Modifiés là puis repris avec `import --update`, ce qui a changé change dans le club ; repris dans un dossier vide, ils redeviennent un club.",
			},
			compare: {
				title: "Comparer deux plans",
				what: "Dit quels éducatifs et quelles semaines diffèrent entre deux dossiers de club, et ce que cela change à la couverture, aux minutes, au matériel et aux constats.",
			},
			library: {
				title: "Voir ce qu'une bibliothèque a changé",
				what: "Quand `_data/club.yaml` nomme des `libraries`, leurs éducatifs, guides, formes, éléments et matériel sont là comme s'ils étaient écrits ici : ceux que vos fichiers nomment, et ceux que ceux-là nomment. Une page du même identifiant les change, champ par champ ; `field: null` en retire un, `from-library: false` ne prend rien. Cette commande dit ce que les bibliothèques ont changé depuis votre dernier regard. `--take` continue avec le nouveau texte, `--keep` écrit l'ancien dans vos propres fichiers ; `all` vaut pour tout. Les niveaux et les agrès restent toujours les vôtres.",
			},
			since: {
				title: "Dire aux entraîneurs ce qui a changé",
				what: "Construit le manuel avec une page de ce qui a changé depuis un plan antérieur : un dossier de club, la sortie d'une génération antérieure, ou un `record.json` qui en vient.",
			},
			nextTerm: {
				title: "Commencer la période suivante",
				what: "Crée le dossier de la période suivante à partir de celui-ci, avec de nouvelles dates et de nouveaux jours de fermeture, et garde pour `compare` ce qui a été enseigné. Ce dossier-ci reste tel quel.",
			},
			update: {
				title: "Passer à une autre version du programme",
				what: "Dans un dossier dont le `package.json` nomme le programme : montre lesquels de vos fichiers une autre version changerait, et ce qu'elle trouverait en plus ou en moins. `--to` nomme une version, ou son fichier ; à défaut, la plus récente. `--write` la prend, et `undo` défait ce qu'elle a changé dans vos fichiers.",
			},
			print: {
				title: "Imprimer",
				what: "Met en page le classeur de la période, ou les feuilles que vous nommez, en PDF sous `_site/print/`. `--week`, `--class`, `--level` et `--apparatus` en choisissent une partie.",
			},
		},
		sheets: {
			pocket:
				"Ce qu'un entraîneur emporte : ses propres cours, semaine par semaine, une page pour chaque lieu avec l'heure, qui se tient où, le plan au sol et chaque atelier (`--class`, avec des virgules entre plusieurs ; `--week` ; `--paper A5` ; `--up 2` pour deux pages par feuille). `build` ne le fait pas.",
			library:
				"Tous les éducatifs, deux par page, avec formes, éléments et guides : pour l'étagère, imprimé une fois par an. Les pages ont les numéros du classeur.",
			director:
				"Ce que la période couvre et ce que rencontre chaque cours, constats, matériel, hauteurs et index ; avec les numéros de page du classeur.",
			binder:
				"Toute la période reliée : les semaines, la bibliothèque et le volume de la direction ; c'est ce qui est imprimé sans nom. Avec `--since`, les fiches gardent leurs pages, et les éducatifs ajoutés sont sur de nouvelles feuilles et dans une liste après le sommaire ; à défaut, chaque liste est refaite. `--bleed 3mm` ajoute des traits de coupe.",
			"update-packet":
				"Les feuilles dont un classeur, une bibliothèque, un volume de la direction ou une édition de poche antérieurs ont besoin, et la liste de ce qu'il faut retirer : `--since` nomme l'édition qui l'accompagne, et dit duquel il s'agit.",
			"class-sheets": "Une fiche pour chaque cours de chaque semaine (`--week`, `--class`).",
			"week-packet":
				"Tout ce que demande une semaine en un fichier : aperçu, fiches de cours, plans au sol, liste du local (`--week`).",
			"station-cards":
				"Une carte pour chaque atelier : deux par feuille, avec des consignes de 24 points lisibles à deux mètres, ou quatre, de 18 points pour une carte posée à l'atelier (`--week`, `--apparatus`, `--up`).",
			"floor-plans": "Où se trouve chaque atelier (`--week`, `--apparatus`).",
			"store-room": "Ce qui sort et ce qui revient (`--week`).",
			labels: "Une étiquette pour chaque matériel à chaque agrès (`--week`).",
			"check-sheets":
				"Fiches d'évaluation vierges, avec trois cases par élément et ce qui doit se voir (`--level`).",
			dividers: "Un intercalaire à onglet pour chaque partie du classeur.",
			"term-overview": "La période sur une page.",
		},
	},
	look: {
		title: "L'apparence du club",
		notes: [
			"`colour` dans `_data/club.yaml` est la couleur du club : les têtes des parties, les filtres choisis, les tableaux et les graphiques du site sont de cette couleur. Des mots doivent s'y lire, avec un contraste de 4,5 : 1 (WCAG 2.2), et le programme nomme la nuance la plus proche qui convient. La nuance du thème sombre est calculée, sauf si `colour-dark` en nomme une. L'ambre reste ce qu'il est : il marque ce qui compte maintenant, et la sécurité. Le papier reste en noir et blanc.",
			"`logo` est une image de `content/media`, en tête de chaque page et sur la couverture du classeur. Un dessin en SVG devient une image, pour que rien n'y soit exécuté.",
			"`content/style.css` est une feuille de style à vous, après la nôtre : sur le site, dans l'aperçu, sur les téléphones sans réseau et sur les feuilles imprimées. Les règles entre `@media screen { }` sont pour le site seul, celles entre `@media print { }` pour le papier. Elle ne peut rien charger d'autre. Les noms de classes peuvent changer avec une nouvelle version de ce programme : regardez quelques pages et feuilles après une mise à jour.",
			"`leave-out` retire du site des entraîneurs les constats, les mesures ou ce guide, avec leurs fichiers de données et tous les liens qui y mènent. L'aperçu de `serve`, et `check`, vous les montrent toujours.",
		],
	},
	online: {
		title: "Mettre le manuel en ligne",
		lead: "Le site est pour les gens du club. Il ne contient ni secrets ni rien sur les gymnastes, demande aux moteurs de recherche de l'ignorer, et ne charge rien d'ailleurs. C'est à l'hébergeur de dire qui peut l'ouvrir : les pages elles-mêmes ne peuvent écarter personne. `npm run new -- host`, suivi d'une sorte d'hébergeur, écrit ce qu'il faut dans le dossier du club, privé dès le départ et sans rien remplacer ; les premières lignes disent quoi faire.",
		hosts: [
			{
				name: "Les pages d'une forge : `host pages`.",
				how: "Un processus qui vérifie et construit à chaque changement. Il ne publie que lorsque vous avez dit que les pages sont limitées aux membres : si la forge ne le permet pas, elles sont ouvertes à tous.",
			},
			{
				name: "Un hébergement statique.",
				how: "Déposez le dossier de sortie, et activez le contrôle d'accès de l'hébergeur (un mot de passe pour le site, ou une connexion avec les comptes du club). Le fichier `_headers` de la sortie est lu par beaucoup de ces hébergeurs.",
			},
			{
				name: "Un stockage d'objets avec un réseau de diffusion : `host storage`.",
				how: "Gardez le stockage privé, ne laissez lire que le réseau, et placez la connexion à l'entrée du réseau. Un script construit et copie, un fichier contient les en-têtes de réponse pour cette entrée, et un second script demande ce qui est vraiment répondu.",
			},
			{
				name: "Apache : `host apache`.",
				how: "Un fichier pour un site à part : HTTPS, un mot de passe, les en-têtes. Sur un serveur tenu par quelqu'un d'autre, le `.htaccess` de la sortie règle les en-têtes, et les réglages de l'hébergeur le mot de passe.",
			},
			{
				name: "nginx : `host nginx`.",
				how: "La même chose pour nginx. Ce n'est pas un fichier du site : qui le dépose configurerait le serveur avec. `check.sh`, à côté, se connecte, relit chaque en-tête et la page pour ce qui n'existe pas, et dit où n'importe qui pourrait lire le manuel.",
			},
			{
				name: "Un autre serveur web.",
				how: "Réglez pour chaque chemin les en-têtes listés dans `_headers`, et la connexion propre au serveur.",
			},
			{
				name: "Plusieurs clubs : `host clubs`.",
				how: "Un processus pour un dépôt avec un dossier de clubs à côté d'une bibliothèque : il construit ceux qu'un changement touche, vingt par machine.",
			},
		],
		notes: [
			"Servez toujours en HTTPS : c'est la condition pour garder le site sur un téléphone. Un `_headers` ou `.htaccess` que vous mettez vous-même dans la sortie n'est jamais remplacé.",
			"Déconnexion : un téléphone qui a ouvert le site le garde pour s'en servir sans réseau. Là où l'hébergeur a une page de déconnexion, qu'elle envoie `Clear-Site-Data: \"cache\", \"storage\"` : le navigateur retire alors les pages gardées et le programme qui les gardait. Quand quelqu'un quitte le club, changez aussi le mot de passe ; ce qu'un téléphone a gardé y reste lisible jusqu'à ce qu'on l'efface.",
			"Le numéro d'édition est gardé dans `_data/edition.json` du dossier du club. Gardez ce fichier avec le contenu, y compris dans la gestion de versions : qui construit sur une autre machine continue alors au même numéro.",
			"Le dossier de sortie est un lien vers la dernière édition, dans un dossier voisin. Un programme qui le copie doit suivre les liens, comme `rsync -a _site/` avec la barre finale.",
		],
	},
	kinds: {
		drill: "Éducatif",
		week: "Semaine",
		guide: "Guide",
		club: "Club",
		term: "Période",
		targets: "Objectifs",
		levels: "Niveaux",
		apparatus: "Agrès",
		shapes: "Formes",
		skills: "Éléments",
		equipment: "Matériel",
		purposes: "Buts",
		accepted: "Constats acceptés",
		words: "Vocabulaire",
		taught: "Ce qui a été enseigné",
	},
	severities: {
		error: "Arrête la génération du manuel",
		warning: "Un avertissement ; la génération du manuel continue",
		finding: "Un constat ; la génération du manuel continue",
	},
	stages: {
		H1: "Lire et vérifier un fichier",
		H2: "Comment les fichiers renvoient les uns aux autres",
		H3: "Ce que le plan donne au total",
		H4: "Imprimer",
	},
	forms: {
		or: "ou",
		date: "date",
		clock: "heure",
		dateOrInterval: "date ou intervalle",
		listOf: (what) => `liste de ${what}`,
		anything: "n'importe quoi",
		mapByName: "champs par nom",
		fields: "champs",
		id: "identifiant",
		truth: "true ou false",
		nothing: "rien",
		whole: "nombre entier",
		number: "nombre",
		text: "texte",
		above: (least) => `au-dessus de ${least}`,
		aboveTo: (least, most) => `au-dessus de ${least}, jusqu'à ${most}`,
		to: (most) => `jusqu'à ${most}`,
		from: (least) => `à partir de ${least}`,
		between: (least, most) => `de ${least} à ${most}`,
	},
};

/** What the same field of several things is for, by the names before it. */
const SHARED_FIELDS: readonly (readonly [places: readonly string[], texts: Words["fields"]])[] = [
	[
		["apparatus", "drill", "equipment", "guide", "levels", "purposes", "shapes", "skills"],
		{ "from-library": "`false` quand rien n'est pris de ce qu'une bibliothèque a sous le même identifiant." },
	],
	[
		["drill", "drill.levels.<id>"],
		{
			"turn.seconds": "Secondes pour un passage.",
			"turn.at-once": "Gymnastes qui passent en même temps ; 1 si ce n'est pas dit.",
			"turn.reps": "Répétitions en un passage ; à défaut, `reps` du niveau : un passage est une série.",
			"contacts.landings": "Réceptions sur les pieds dans une répétition.",
			"contacts.hands": "Nombre d'appuis d'une main dans une répétition.",
			"equipment.<id>.count": "Combien.",
			"equipment.<id>.per": "Par atelier (par défaut) ou par gymnaste.",
			"sequence[].shape": "L'identifiant de la forme.",
			"sequence[].on": "Sur quoi elle se fait ; sinon, cela découle de l'agrès et du matériel de l'éducatif.",
			"sequence[].hands":
				"Sur quoi sont les mains d'un corps en appui sur les mains et les pieds, si les pieds sont sur autre chose.",
			"sequence[].base": "Ce qui porte le corps ici, si ce n'est pas ce que dit la forme.",
			"sequence[].tilt":
				"Inclinaison du tronc ici : 0 debout, 90 face au sol, -90 face au plafond, 180 tête en bas.",
			"sequence[].view": "De profil (`side`) ou de face (`front`).",
			"sequence[].angles": "Les angles qui diffèrent ici ; les autres sont ceux de la forme.",
			"helpers[].step": "L'étape de la séquence, comptée à partir de 1 ; 1 à défaut.",
			"helpers[].from":
				"Où est l'entraîneur : à côté du gymnaste (`side`, à défaut), devant lui (`front`) ou derrière lui (`back`).",
			"helpers[].stance": "Si l'entraîneur est debout (`stand`, à défaut) ou à genoux (`kneel`).",
			"helpers[].hands": "Où sont les mains sur le corps du gymnaste.",
		},
	],
	[
		[
			"drill.faults[].angles",
			"drill.faults[].angles.left",
			"drill.faults[].angles.right",
			"drill.levels.<id>.sequence[].angles",
			"drill.levels.<id>.sequence[].angles.left",
			"drill.levels.<id>.sequence[].angles.right",
			"drill.sequence[].angles",
			"drill.sequence[].angles.left",
			"drill.sequence[].angles.right",
			"shapes.angles",
			"shapes.angles.left",
			"shapes.angles.right",
		],
		{
			shoulder: "Entre le bras et le tronc, en degrés : 0 le long du corps, 180 au-dessus de la tête.",
			elbow: "Entre le bras et l'avant-bras, en degrés, 180 tendu.",
			hip: "Entre le tronc et la cuisse, en degrés, 180 tendue.",
			knee: "Entre la cuisse et la jambe, en degrés, 180 tendu.",
			ankle: "Entre la jambe et le pied, en degrés : 90 fléchie, 180 en pointe.",
		},
	],
	[
		["drill.faults[]", "drill.levels.<id>.sequence[]", "drill.sequence[]", "shapes"],
		{
			"angles.spread": "Entre les jambes, en degrés.",
			"angles.trunk": "Courbure du tronc, en degrés : 0 droit, positive arrondi, négative cambré.",
			"angles.neck":
				"De la tête par rapport au haut du tronc, en degrés : 0 dans l'axe, positive menton vers la poitrine ; à défaut, elle découle du reste.",
			"angles.left": "Angles du côté gauche, s'il diffère.",
			"angles.right": "Angles du côté droit, s'il diffère.",
		},
	],
	[
		["apparatus", "equipment", "levels", "purposes", "shapes", "skills"],
		{ name: "Le nom que lisent les gens." },
	],
	[["equipment", "purposes", "shapes", "skills"], { aliases: "Comment les entraîneurs l'appellent aussi." }],
	[["accepted.about", "taught"], { class: "Le cours dont il parle." }],
	[["taught.blocks[]", "taught.skills[]"], { group: "Le groupe, si le cours en a plusieurs." }],
	[["drill", "skills"], { direction: "Dans quel sens le corps se déplace ou tourne." }],
	[
		["apparatus", "equipment", "guide", "levels", "shapes", "skills"],
		{ order: "Sa place dans les listes ; sinon, l'ordre du fichier." },
	],
	[
		["apparatus", "equipment", "levels", "shapes", "skills", "term.classes[]"],
		{ id: "Lettres minuscules et chiffres, en mots reliés par des traits d'union." },
	],
];

const OWN_FIELDS: Words["fields"] = {
	"drill.levels.<id>.hold-of": "Ce que compte `hold` à ce niveau.",
	"drill.levels.<id>.turn": "Le passage de ce niveau, à la place de celui de l'éducatif.",
	"drill.levels.<id>.contacts": "Les appuis de ce niveau, à la place de ceux de l'éducatif.",
	"drill.levels.<id>.equipment": "Ce qu'il faut à ce niveau, à la place de ce que dit l'éducatif.",
	"drill.levels.<id>.heights":
		"Les hauteurs de mise en place de ce niveau, à la place de celles de l'éducatif.",
	"drill.levels.<id>.sequence": "Les formes de ce niveau, à la place de celles de l'éducatif.",
	"drill.levels.<id>.spotting":
		"Où se placer et comment parer à ce niveau, à la place de ce que dit l'éducatif.",
	"drill.levels.<id>.caution":
		"Ce qui pourrait blesser quelqu'un à ce niveau, à la place de ce que dit l'éducatif.",
	"drill.levels.<id>.spotters": "Entraîneurs dont il faut les mains à ce niveau.",
	"drill.levels.<id>.helpers": "Qui aide dans les figures de ce niveau, à la place de ceux de l'éducatif.",
	"drill.levels.<id>.watch": "Si un entraîneur doit regarder à ce niveau.",
	"drill.levels.<id>.easier": "Variantes plus faciles pour ce niveau.",
	"drill.levels.<id>.harder": "Variantes plus difficiles pour ce niveau.",
	"drill.levels.<id>.run": "Course d'élan en mètres, à ce niveau.",
	"drill.levels.<id>.run-out": "Dégagement en mètres, à ce niveau.",
	"drill.performs":
		"Les éléments que le gymnaste exécute ici, aidé ou non ; `skills` dit ce que l'éducatif prépare. Ce qui est exécuté compte aussi comme préparé.",
	"drill.elements":
		"Un enchaînement fait d'une traite le long d'une ligne. Une répétition exécute `count` fois chaque élément nommé.",
	"drill.elements[].skill": "L'élément exécuté.",
	"drill.elements[].drill": "Un éducatif qui est fait ici.",
	"drill.elements[].text": "Ce qui est fait ici, en mots.",
	"drill.elements[].count": "Combien de fois d'une traite ; 1 à défaut.",
	"drill.elements[].turn": "Le tour à sa fin.",
	"drill.ready":
		"Ce qui vient avant le premier essai : des répétitions d'un éducatif ou d'un élément faites dans la période, ou, en texte, ce que l'entraîneur doit avoir vu.",
	"drill.ready[].drill": "Un éducatif fait dans la période.",
	"drill.ready[].skill": "Un élément exécuté dans la période.",
	"drill.ready[].reps": "Répétitions faites avant le premier essai.",
	"drill.hold-of":
		"Ce que compte `hold` : chaque répétition (par défaut), toute la série, ou la dernière répétition d'une série.",
	"drill.spotters": "Entraîneurs dont il faut les mains à l'atelier.",
	"drill.helpers":
		"Les entraîneurs qui aident, dessinés en gris à côté des figures de la séquence : à quelle étape, d'où, et où sont leurs mains. Ils ne sont pas dessinés pour un niveau qui n'a pas besoin de mains.",
	"drill.watch":
		"Si un entraîneur doit regarder (courses, hauteurs, tête en bas) ; oui là où `spotters` est plus que 0.",
	"drill.easier": "Variantes plus faciles, montrées à côté de l'éducatif partout où il est enseigné.",
	"drill.harder": "Variantes plus difficiles, montrées à côté de l'éducatif partout où il est enseigné.",
	"drill.run": "Course d'élan en mètres, pour les plans.",
	"drill.run-out": "Dégagement en mètres, pour les plans.",
	"drill.purpose": "À quoi sert l'éducatif, dans les mots du club : identifiants de `_data/purposes.yaml`.",
	"week.apparatus.<id>.blocks[].options":
		"Éducatifs entre lesquels l'entraîneur choisit ; chacun compte `choose / options` des minutes et des répétitions.",
	"week.apparatus.<id>.blocks[].options[].drill": "Un éducatif à choisir.",
	"week.apparatus.<id>.blocks[].options[].note": "Un mot pour ce choix.",
	"week.apparatus.<id>.blocks[].choose": "Combien des choix sont faits ; 1 à défaut.",
	"week.apparatus.<id>.blocks[].show": "Parmi les minutes du bloc, celles pour le montrer.",
	"week.apparatus.<id>.blocks[].dose":
		"La dose de cette semaine à la place de celle de l'éducatif : pour tous, ou par niveau.",
	"week.apparatus.<id>.blocks[].dose.sets": "Séries dans ce bloc.",
	"week.apparatus.<id>.blocks[].dose.reps": "Répétitions par série dans ce bloc.",
	"week.apparatus.<id>.blocks[].dose.hold": "Secondes de maintien dans ce bloc.",
	"week.apparatus.<id>.blocks[].dose.<id>.sets": "Séries dans ce bloc pour ce niveau.",
	"week.apparatus.<id>.blocks[].dose.<id>.reps": "Répétitions par série dans ce bloc pour ce niveau.",
	"week.apparatus.<id>.blocks[].dose.<id>.hold": "Secondes de maintien dans ce bloc pour ce niveau.",
	"week.apparatus.<id>.blocks[].session":
		"Seulement à ces cours de la semaine, comptés à partir de 1, pour les gymnastes qui viennent plusieurs fois ; à tous à défaut.",
	"term.between": "Minutes d'un agrès à l'autre ; 1 à défaut.",
	"term.classes[].between": "Minutes d'un agrès à l'autre ; celles de la période à défaut.",
	"term.classes[].groups":
		"Groupes qui travaillent en même temps ; ce qu'un groupe ne dit pas est celui du cours.",
	"term.classes[].groups[].id": "L'identifiant du groupe dans son cours.",
	"term.classes[].groups[].level": "Son niveau, ou ses niveaux ; ceux du cours à défaut.",
	"term.classes[].groups[].gymnasts": "Gymnastes dans le groupe.",
	"term.classes[].groups[].coaches": "Entraîneurs avec le groupe.",
	"term.classes[].groups[].rotation": "Identifiants d'agrès dans l'ordre où le groupe les visite.",
	"term.classes[].closed": "Les jours où ce cours seul est annulé.",
	"term.classes[].place": "Où il a lieu, pour les agendas ; le lieu du club à défaut.",
	"term.classes[].same-as": "Le cours des mêmes gymnastes un autre jour.",
	"targets.skill-reps":
		"Nombre minimal de répétitions exécutées de chaque élément du niveau dans la période, pour un gymnaste.",
	"targets.ratio": "Nombre maximal de gymnastes par entraîneur, selon l'âge.",
	"targets.landings": "Nombre maximal de réceptions d'un gymnaste en une séance.",
	"targets.arrives-with":
		"La part minimale des gymnastes d'un niveau qui font un élément seuls, pour que `next-term` le propose comme acquis à l'arrivée.",
	"targets.new-drills":
		"Nombre maximal d'éducatifs nouveaux pour un cours en une semaine, après la première.",
	"apparatus.groups": "Combien de groupes tiennent à la fois ; 1 à défaut.",
	"apparatus.walls":
		"Les côtés qui sont des murs : `start` où commence la longueur, `end` où elle finit, `left` et `right` de côté.",
	"apparatus.landmarks": "Repères nommés sur le plan ; un atelier peut se tenir (`at`) à l'un d'eux.",
	"apparatus.landmarks[].name": "Comment les entraîneurs appellent le repère.",
	"apparatus.landmarks[].at": "`[x, y]` en mètres.",
	"skills.criteria": "Ce qu'il faut voir pour que l'élément compte ; imprimé sur les fiches d'évaluation.",
	"equipment.height": "Hauteur en cm, si elle ne se change pas.",
	"equipment.range": "Plus petite et plus grande hauteur en cm, `[min, max]`, si elle se règle.",
	"equipment.step": "Pas de réglage de la hauteur en cm ; toute hauteur à défaut.",
	"equipment.thickness": "Épaisseur en cm de ce qui est posé au sol, pour les hauteurs au-dessus.",
	"equipment.adults": "Adultes qui en portent un ; 1 à défaut, 0 pour ce qui reste en place.",
	purposes: "_data/purposes.yaml : les mots du club pour ce à quoi servent les éducatifs.",
	"purposes.id": "Lettres minuscules et chiffres en mots joints par des traits d'union.",
	"purposes.order": "Sa place dans les listes ; à défaut, l'ordre du fichier.",
	accepted: "_data/accepted.yaml : les constats que la direction accepte à dessein.",
	"accepted.finding": "Le code du constat.",
	"accepted.about": "De quoi il parle ; un constat correspond si tout ce qui est dit ici est vrai de lui.",
	"accepted.about.week": "La semaine, par son numéro.",
	"accepted.about.level": "Le niveau dont il parle.",
	"accepted.about.apparatus": "L'agrès dont il parle.",
	"accepted.about.drill": "L'éducatif dont il parle.",
	"accepted.about.skill": "L'élément dont il parle.",
	"accepted.about.shape": "La forme dont il parle.",
	"accepted.about.equipment": "Le matériel dont il parle.",
	"accepted.about.group": "Le groupe dont il parle : `cours` ou `cours/groupe`.",
	words: "_data/words.yaml : les mots que dit le club, et ceux qu'il ne dit pas à leur place.",
	"words.say": "Le mot que dit le club.",
	"words.not": "Les mots qu'il ne dit pas à sa place, chacun tel qu'on l'écrirait.",
	"words.note": "Pourquoi, ou quand.",
	"accepted.reason": "Pourquoi il est accepté.",
	"accepted.until": "Le dernier jour où il est accepté ; pour toujours à défaut.",
	taught:
		"_data/taught/<semaine>.yaml : ce que les entraîneurs ont dit des cours d'une semaine. `npm run taught` l'écrit ; corrigez-le à la main s'il est faux. Aucun nom n'y a sa place.",
	"taught.from":
		"Ce qui distingue deux entraîneurs d'un cours : tiré par l'appareil, pour ce cours et cette semaine seulement.",
	"taught.revision": "Combien de fois il a été envoyé modifié ; le plus grand vaut.",
	"taught.edition": "L'édition que l'entraîneur avait.",
	"taught.received": "Empreinte de ce qui est arrivé : une entrée corrigée depuis n'est pas écrasée.",
	"taught.note": "Une ligne sur le cours.",
	"taught.blocks": "Ce qu'est devenu chaque bloc ; un bloc qui n'est pas nommé compte comme prévu.",
	"taught.blocks[].apparatus": "L'agrès.",
	"taught.blocks[].block": "Le numéro du bloc dans l'édition que l'entraîneur avait.",
	"taught.blocks[].drills": "Ses éducatifs, par lesquels on le retrouve quand le plan change.",
	"taught.blocks[].mark": "Empreinte de ses éducatifs, si le plan n'a plus un tel bloc.",
	"taught.blocks[].done": "S'il a été enseigné.",
	"taught.blocks[].lost": "Minutes perdues d'un bloc raccourci ; la moitié si rien n'est dit.",
	"taught.blocks[].cause": "Pourquoi des minutes ont été perdues.",
	"taught.blocks[].felt": "Comment c'était pour le groupe.",
	"taught.blocks[].look": "Quelque chose à regarder pour la direction.",
	"taught.blocks[].note": "Une ligne sur le bloc.",
	"taught.skills": "Combien réussissent chaque élément.",
	"taught.skills[].skill": "L'élément.",
	"taught.skills[].of": "Gymnastes présents.",
	"taught.skills[].alone": "Combien le font seuls, selon ses critères.",
	"taught.skills[].helped": "Combien le font avec de l'aide.",
	drill: "L'en-tête de content/drills/<apparatus>/<id>.md.",
	"drill.title": "Le nom de l'éducatif.",
	"drill.apparatus": "Où on peut le faire : un identifiant d'agrès, ou une liste.",
	"drill.levels":
		"Pour qui : une liste d'identifiants de niveaux, ou pour chaque niveau la façon dont il le fait.",
	"drill.levels.<id>.do": "Comment ce niveau le fait.",
	"drill.levels.<id>.sets": "Séries pour ce niveau.",
	"drill.levels.<id>.reps": "Répétitions par série pour ce niveau.",
	"drill.levels.<id>.hold": "Secondes de maintien de chaque répétition à ce niveau.",
	"drill.summary": "Une phrase pour les listes, les fiches et la recherche.",
	"drill.aliases": "Comment les entraîneurs l'appellent aussi, pour la recherche.",
	"drill.shapes": "Les formes du corps qu'il entraîne.",
	"drill.sequence":
		"Les formes dans l'ordre où le corps les traverse : une suite de figures. Une forme seule, ou avec la façon dont elle est portée ici.",
	"drill.skills": "Les éléments auxquels il mène.",
	"drill.after": "Les éducatifs qui devraient avoir été enseignés avant celui-ci.",
	"drill.partner":
		"L'éducatif qui fait le même travail dans l'autre sens ; il suffit de le dire pour l'un des deux.",
	"drill.sides":
		"`both` : fait symétriquement ; `each` : fait de chaque côté ; `lead` : fait du côté préféré seulement.",
	"drill.equipment":
		"Ce que demande un atelier : pour chaque identifiant de matériel un nombre, ou `{count, per}`.",
	"drill.heights":
		"Hauteurs de mise en place : ce qui se trouve à quelle hauteur du corps du gymnaste, pour tous les niveaux ou pour chacun par son identifiant.",
	"drill.sets": "Séries, là où le niveau ne le dit pas.",
	"drill.reps": "Répétitions par série, là où le niveau ne le dit pas.",
	"drill.hold": "Secondes de maintien de chaque répétition, là où le niveau ne le dit pas.",
	"drill.turn": "Combien dure un passage, et combien de gymnastes passent à la fois.",
	"drill.contacts": "Réceptions et appuis manuels d'une répétition.",
	"drill.cues": "Ce qu'il faut dire, en quelques mots chacun.",
	"drill.faults": "À quoi cela ressemble quand c'est mal fait, et que dire.",
	"drill.faults[].see": "Ce que voit l'entraîneur.",
	"drill.faults[].say": "Ce que dit l'entraîneur.",
	"drill.faults[].shape": "La forme qui est mauvaise ici : elle est dessinée juste et, à côté, fausse.",
	"drill.faults[].angles": "Les angles qui sont faux alors ; les autres sont ceux de la forme.",
	"drill.faults[].tilt": "L'inclinaison du tronc alors, si c'est elle qui est fausse.",
	"drill.spotting": "Où se placer et comment aider.",
	"drill.caution": "Ce qui pourrait blesser quelqu'un, et comment l'éviter.",
	"drill.media": "Images ou vidéos gardées dans `content/media` du dossier du club.",
	"drill.media[].file": "Le nom du fichier dans `content/media`.",
	"drill.media[].alt": "Ce que montre l'image, pour qui ne peut pas la voir.",
	"drill.media[].poster":
		"Une image de `content/media` qui remplace une vidéo tant que personne ne la lance. Sinon, une image est dessinée.",
	"drill.media[].caption": "Une ligne sous l'image.",
	"drill.reviewed": "Quand quelqu'un a relu l'éducatif pour la dernière fois.",
	week: "L'en-tête de content/weeks/<id>.md.",
	"week.week": "Quelle semaine de cours de la période, comptée à partir de 1.",
	"week.theme": "Le thème de la semaine, en quelques mots.",
	"week.keep": "`true` si toute la semaine doit rester comme elle est quand un plan est corrigé.",
	"week.apparatus": "Pour chaque identifiant d'agrès, ce qu'on y fait.",
	"week.apparatus.<id>.focus": "L'axe de travail à cet agrès cette semaine.",
	"week.apparatus.<id>.blocks": "Les blocs dans l'ordre où ils sont enseignés.",
	"week.apparatus.<id>.blocks[].drill": "L'éducatif que fait tout le groupe.",
	"week.apparatus.<id>.blocks[].stations": "Ateliers côte à côte ; le groupe s'y répartit et tourne.",
	"week.apparatus.<id>.blocks[].stations[].drill": "L'éducatif de l'atelier.",
	"week.apparatus.<id>.blocks[].stations[].note": "Un mot pour cet atelier.",
	"week.apparatus.<id>.blocks[].stations[].at": "`[x, y]` en mètres sur le plan au sol.",
	"week.apparatus.<id>.blocks[].minutes": "Minutes de tout le bloc.",
	"week.apparatus.<id>.blocks[].change":
		"Minutes perdues à chaque changement d'atelier ; 0,5 si ce n'est pas dit.",
	"week.apparatus.<id>.blocks[].levels": "Niveaux qui font ce bloc ; tous si ce n'est pas dit.",
	"week.apparatus.<id>.blocks[].keep":
		"`true` si ce bloc doit rester comme il est quand un plan est corrigé.",
	"week.apparatus.<id>.blocks[].note": "Un mot pour ce bloc.",
	guide: "L'en-tête de content/guides/<id>.md.",
	"guide.title": "Le titre de la page.",
	club: "Le club lui-même.",
	"club.name": "Le nom du club, sur la couverture et sur chaque page.",
	"club.format": "La version du format d'écriture selon laquelle ce dossier est écrit.",
	"club.language": "La langue du manuel, selon son étiquette BCP 47.",
	"club.timezone": "Le fuseau horaire du club, par son nom IANA.",
	"club.paper": "Le papier du classeur.",
	"club.punch": "Comment les feuilles sont perforées.",
	"club.site": "Où le site des entraîneurs est publié.",
	"club.place": "Où ont lieu les cours, pour les agendas.",
	"club.contact": "Où envoyer les corrections : une adresse électronique ou une adresse web.",
	"club.emergency":
		"Que faire d'abord quand quelqu'un est blessé ; imprimé là où un entraîneur peut le voir.",
	"club.emergency-guide": "Le guide à lire ensuite en cas d'accident, lié à côté de ces mots.",
	"club.libraries":
		"Des bibliothèques dont les éducatifs, guides, formes, éléments et matériel sont là comme s'ils étaient écrits ici : ce que les fichiers du club nomment, et ce que cela nomme. Une page ou une entrée du même identifiant les change champ par champ.",
	"club.libraries[].from": "Son dossier, à partir de celui du club, ou le nom d'un paquet installé.",
	"club.libraries[].take":
		"Ce qui est pris en plus de ce que les fichiers du club nomment : des identifiants, ou `all`.",
	"club.licence":
		"Sous quelle licence d'autres peuvent se servir de ce dossier comme bibliothèque ; écrite sur chaque page qui en vient.",
	"club.colour":
		"La couleur du club, entre guillemets : les têtes des parties et les tableaux du site sont de cette couleur. Des mots blancs doivent s'y lire.",
	"club.colour-dark":
		"La même quand le lecteur a choisi le thème sombre ; sans elle, la nuance la plus proche sur laquelle des mots sombres se lisent.",
	"club.logo": "Une image de `content/media` : en tête de chaque page, et sur la couverture du classeur.",
	"club.leave-out":
		"Ce dont le site des entraîneurs se passe, avec tous les liens qui y mènent : les constats, les mesures, le guide de rédaction. L'aperçu de `serve` les montre tous.",
	"club.taught-sums":
		"Si le site des entraîneurs montre des sommes de ce que les entraîneurs ont rapporté : sur tout le club et toute la période, aucune inférieure à cinq, arrondies à un multiple de cinq, vers le bas. Sans ce champ, le site n'en contient rien.",
	term: "Les semaines de la période et les cours d'une semaine.",
	"term.name": "Le nom de la période.",
	"term.starts": "Le lundi de la première semaine.",
	"term.weeks": "Combien de semaines de cours.",
	"term.closed": "Jours sans cours : dates, ou intervalles comme 2027-02-15/2027-02-19.",
	"term.classes": "Les cours d'une semaine.",
	"term.classes[].name": "Le nom du cours ; tiré de son identifiant si ce n'est pas dit.",
	"term.classes[].level": "Son niveau, ou ses niveaux ; tous si ce n'est pas dit.",
	"term.classes[].day": "Le jour de la semaine.",
	"term.classes[].start": 'Quand il commence, comme `"16:30"`.',
	"term.classes[].minutes": "Combien il dure.",
	"term.classes[].warm-up": "Minutes avant le premier agrès.",
	"term.classes[].cool-down": "Minutes après le dernier agrès.",
	"term.classes[].gymnasts": "Gymnastes dans le cours.",
	"term.classes[].coaches": "Entraîneurs du cours.",
	"term.classes[].ages": "L'âge du plus jeune et du plus âgé, `[de, à]`.",
	"term.classes[].rotation": "Identifiants des agrès dans l'ordre où le cours les visite.",
	targets: "Les seuils du club. Un objectif absent n'est pas vérifié.",
	"targets.shape-weeks": "Nombre minimal de semaines pendant lesquelles un niveau entraîne chaque forme.",
	"targets.skill-weeks":
		"Nombre minimal de semaines pendant lesquelles un niveau apprend chacun de ses éléments.",
	"targets.shape-gap": "Plus long écart entre deux semaines avec une forme, en semaines.",
	"targets.skill-gap": "Plus long écart entre deux semaines avec un élément, en semaines.",
	"targets.pair-directions": "Si le travail vers l'avant demande un travail vers l'arrière la même semaine.",
	"targets.active-share": "Part minimale du cours pendant laquelle chaque gymnaste bouge, de 0 à 1.",
	"targets.load-step":
		"Plus grande variation des réceptions, et des appuis manuels, par rapport à la moyenne des trois semaines précédentes.",
	"targets.review-months": "Mois après lesquels un éducatif demande à être relu.",
	levels: "Les niveaux, du plus bas au plus haut.",
	"levels.description": "Qui est à ce niveau.",
	"levels.entry": "Éléments avec lesquels un gymnaste arrive.",
	apparatus: "Où l'on travaille.",
	"apparatus.kind":
		"`area` : un endroit de la salle qui n'est pas un agrès, comme celui de l'échauffement ; un agrès si ce n'est pas dit.",
	"apparatus.plan": "`[longueur, largeur]` de sa place en mètres.",
	shapes: "Les formes du corps et les angles d'après lesquels leurs figures sont dessinées.",
	"shapes.description": "À quoi ressemble la forme quand elle est juste.",
	"shapes.angles": "Angles des articulations en degrés.",
	"shapes.view": "Dessinée de profil (par défaut) ou de face.",
	"shapes.tilt":
		"Inclinaison du tronc en degrés : 0 debout, 90 face au sol, -90 face au plafond, 180 tête en bas.",
	"shapes.base": "Ce qui porte le corps ; `feet` si ce n'est pas dit.",
	skills: "Ce à quoi mènent les éducatifs.",
	"skills.description": "À quoi ressemble l'élément quand il est fait.",
	"skills.apparatus": "Où il se fait.",
	"skills.levels": "Niveaux qui l'apprennent.",
	"skills.needs": "Éléments enseignés avant lui.",
	"skills.pattern":
		"Sa famille de mouvement, d'après Alberta SPHEReS ; six des sept sont attribuées à Russell.",
	"skills.opposite": "L'élément qui fait la même chose dans l'autre sens.",
	equipment: "Ce que le club possède.",
	"equipment.owned": "Combien le club en possède.",
	"equipment.stored": "Où il est rangé.",
	"equipment.size":
		"`[longueur, largeur]` de la place au sol en mètres, longueur dans le sens du travail. Sinon, une dimension publiée ou courante est prise.",
};

function inPlaces(own: Words["fields"], shared: typeof SHARED_FIELDS): Words["fields"] {
	const texts = shared.flatMap(([places, fields]) =>
		places.flatMap((place) => Object.entries(fields).map(([name, text]) => [`${place}.${name}`, text])),
	);
	return { ...own, ...Object.fromEntries(texts) };
}

export const fields: Words["fields"] = /* @__PURE__ */ inPlaces(OWN_FIELDS, SHARED_FIELDS);

// Le bureau -------------------------------------------------------------------------------------------

export const desk: Words["desk"] = {
	title: "Le bureau",
	desk: "Le bureau",
	needsScript: "Le bureau demande JavaScript. L'aperçu et les commandes s'en passent.",
	noToken: "Ouvrez le bureau à l'adresse que `serve` a affichée en démarrant.",
	nothingHere: "Il n'y a rien à cette adresse.",
	readOnly: "Ce bureau est seulement à regarder.",
	readOnlyMark: "À regarder seulement",
	stale: "Le plan a changé entre-temps. Le voici tel qu'il est ; regardez, puis recommencez.",
	changedMeanwhile: (files) => `Modifié entre-temps par quelqu'un d'autre : ${files}.`,
	wouldBreak: "Cela mettrait une erreur dans les fichiers.",
	mendFirst:
		"Corrigez d'abord les erreurs des fichiers : des rapports de ce qu'ils contiennent seraient perdus.",
	nothingToUndo: "Il n'y a rien à annuler.",
	nothingToRedo: "Il n'y a rien à refaire.",
	noSuchFinding: "Ce constat n'existe plus.",
	notPlanned: "Il n'est planifié nulle part.",
	busy: "C'est déjà en cours.",
	serverGone: "Le programme ne répond pas. `serve` tourne-t-il encore ?",
	filesChanged: "Les fichiers ont changé ; le plan est montré tel qu'il est.",
	notDone: "Pas fait :",
	opening: "Ouverture…",
	skip: "Aller au contenu",
	views: "Parties du bureau",
	viewBoard: "Plan",
	viewFindings: (findings) => `Constats (${number(findings)})`,
	viewFiles: "Éducatifs et fichiers",
	viewPublish: "Publier et imprimer",
	undo: "Annuler",
	redo: "Refaire",
	undone: "Annulé",
	redone: "Refait",
	saving: "Enregistrement…",
	allSaved: "Tout est enregistré",
	close: "Fermer",
	yes: "oui",
	no: "non",
	notices: "Ce qu'il y a à dire",
	lastChange: "Le dernier changement",
	cameOne: "Nouveau :",
	wentOne: "Disparu :",
	findingsAfter: (came, gone) =>
		came + gone === 0
			? "Les constats restent les mêmes."
			: `Constats : ${number(came)} de plus, ${number(gone)} de moins.`,
	whichOnes: "Lesquels",
	keptBeside: (files) => `Quelqu'un a enregistré au même moment ; ce texte est gardé dans ${files}.`,
	problemsTitle: "À corriger",
	errorsIn: (errors) => `${counts.errors(errors)} dans les fichiers.`,
	restGoesOn: "Le reste continue pendant ce temps.",
	mendFile: (file) => `Corriger ${file}`,
	draftsThere: "Pas encore enregistré :",
	nothingYet:
		"Il n'y a encore rien à planifier. Commencez sous « Éducatifs et fichiers » : d'abord les niveaux et les agrès, puis les éducatifs.",
	board: "Le plan",
	boardCaption:
		"Le plan : les semaines en travers, les ateliers de haut en bas. Les flèches mènent d'un bloc à l'autre.",
	area: "Agrès ou espace",
	areas: "Agrès et espaces",
	level: "Niveau",
	levels: "Niveaux",
	classes: "Cours",
	planOf: "Le plan de",
	everybody: "Tout le monde",
	keysHint: "Espace prend un bloc, les flèches choisissent sa place, Espace le pose ; Entrée l'ouvre.",
	carryHint: (title) =>
		`${title} est pris : choisissez une place, ou avec les flèches et Espace. C copie, Échap laisse.`,
	leave: "Le laisser où il est",
	beside: "À côté du plan",
	week: (week) => `Semaine ${week}`,
	planIt: "Planifier cette semaine",
	notPlannedYet: "Pas encore planifiée",
	doesNotMeet: "N'a pas lieu",
	minutesPlanned: (minutes) => `${minutes} min`,
	filled: (planned, available) => `${planned} min remplies sur ${available}`,
	free: (minutes) => `${minutes} libres`,
	over: (minutes) => `${minutes} de trop`,
	place: (week, area, at) => `semaine ${week}, ${area}, place ${at}`,
	here: "Ici",
	putHere: (where) => `Le poser ici : ${where}`,
	newHere: "nouveau",
	goes: "s'en va",
	stations: (stations) => counts.stations(stations),
	options: (choose, options) => `${number(choose)} sur ${number(options)}`,
	pickedUp: (title) =>
		`${title} est pris. Les flèches choisissent la place, Espace pose, C copie, Échap laisse.`,
	wouldBe: (where, places) => `${where} sur ${places}`,
	nowCopies: "Une copie sera posée là.",
	nowMoves: "Il sera déplacé là.",
	leftThere: "Laissé où il était.",
	moved: (title, where) => `${quoted(title)} déplacé : ${where}`,
	copied: (title, where) => `${quoted(title)} copié : ${where}`,
	added: (title, where) => `${quoted(title)} posé : ${where}`,
	noWeekYet: "Aucune semaine n'est planifiée. Ouvrez d'abord une semaine et planifiez-la.",
	minutes: "Minutes",
	showing: "Pour montrer",
	changing: "Chaque changement",
	choose: "Combien au choix",
	levelsOfBlock: "Pour les niveaux (aucun coché : tous)",
	doseHere: "Dose cette fois",
	doseByLevel: "Chaque niveau a la sienne",
	ofLevel: (field, level) => `${field} : ${level}`,
	sessionsOfBlock: "Aux séances de la semaine (rien de coché : toutes)",
	meeting: (meeting) => `Séance ${meeting}`,
	sets: "Séries",
	reps: "Répétitions",
	hold: "Maintien, secondes",
	note: "Note pour l'entraîneur",
	keep: "Le laisser tel quel quand le plan est corrigé",
	drill: "Éducatif",
	stationsTitle: "Ateliers",
	optionsTitle: "Au choix",
	stationNote: (station) => `Note, atelier ${station}`,
	otherDrill: (title) => `Un autre éducatif que ${title}`,
	otherDrillShort: "Un autre éducatif…",
	earlier: (title) => `${title} une place plus tôt`,
	withoutStation: (title) => `Retirer ${title}`,
	splitAfter: (title) => `Couper ici, après ${title}`,
	splitHere: "Couper ici",
	addStation: "Un atelier de plus",
	addOption: "Un choix de plus",
	move: "Déplacer",
	copy: "Copier",
	joinNext: "Joindre au suivant",
	remove: "Retirer",
	less: (label) => `${label} : moins`,
	more: (label) => `${label} : plus`,
	minutesChanged: (title, minutes) => `${quoted(title)} : ${minutes} min`,
	levelsChanged: (title) => `Niveaux de ${quoted(title)} changés`,
	doseChanged: (title) => `Dose de ${quoted(title)} changée`,
	noteChanged: (title) => `Note de ${quoted(title)} changée`,
	changed: (title) => `${quoted(title)} changé`,
	swapped: (one, other) => `${quoted(other)} à la place de ${quoted(one)}`,
	stationGone: (title) => `${quoted(title)} retiré`,
	stationAdded: (title) => `${quoted(title)} ajouté comme atelier`,
	wasSplit: (title) => `${quoted(title)} coupé en deux`,
	wereJoined: (one, other) => `${quoted(one)} et ${quoted(other)} joints`,
	removed: (title) => `${quoted(title)} retiré`,
	theme: "Thème",
	planLike: "Commencer par",
	fromNothing: "Un plan vide",
	planWeek: "Planifier cette semaine",
	weekPlanned: (week) => `Semaine ${week} planifiée`,
	mendWeek: "Corriger cette semaine",
	solving: "Recherche du moins de changements qui la corrigent…",
	nothingToMend: "Rien de mieux n'a été trouvé pour cette semaine.",
	solveFailed: "La recherche a échoué ; le terminal dit pourquoi.",
	themeAndNote: "Thème et note",
	asCoachesSee: "Comme les entraîneurs la voient",
	swapWith: "Échanger avec",
	swap: "Échanger",
	weeksSwapped: (one, other) => `Semaines ${one} et ${other} échangées`,
	focusOfAreas: "L'axe de travail de chaque espace",
	findingsOfWeek: (findings) => `Ce qui y est constaté (${number(findings)})`,
	classesOfWeek: "Ce que chaque cours y fait",
	moving: "En mouvement",
	newDrills: "Éducatifs nouveaux",
	landings: "Réceptions",
	hands: "Appuis manuels",
	toLookAt: "À regarder",
	reach: "Rencontré dans la période",
	reachOf: (shapes, ofShapes, skills, ofSkills) =>
		`${shapes} formes sur ${ofShapes}, ${skills} éléments sur ${ofSkills}`,
	shortOfCoaches: (blocks) => `${number(blocks)} × trop peu d'entraîneurs`,
	outOfOrder: (drills) => `${number(drills)} × trop tôt`,
	missing: (items) => `${number(items)} × matériel manquant`,
	carriedItems: (items) => `${number(items)} × à déplacer`,
	findingsTitle: (findings) => `Ce que les mesures constatent : ${number(findings)}`,
	noFindings: "Le plan atteint tous les objectifs du club.",
	whatMends: "Ce qui le corrigerait",
	mendOf: (title) => `Ce qui le corrigerait : ${title}`,
	looking: "Recherche…",
	nothingKnown:
		"Aucun changement du plan n'est sûr de le corriger. Ce qui est écrit au-dessus dit où regarder.",
	doIt: "Le faire",
	lookOnBoard: "Le voir sur le plan",
	mended: (title) => `Corrigé : ${title}`,
	letStand: "L'accepter",
	acceptOf: (title) => `L'accepter : ${title}`,
	wasAccepted: (title) => `Accepté : ${title}`,
	accepted: "Accepté exprès",
	because: "Parce que :",
	reason: "Pourquoi c'est acceptable",
	until: "Jusqu'au (vide : pour toujours)",
	offer: "Une proposition",
	offerTitle: (changes) =>
		changes === 1 ? "Un changement est proposé." : `${number(changes)} changements sont proposés.`,
	offerIsThere: (changes) =>
		changes <= 1
			? `${number(changes)} changement est proposé ; le plan le montre.`
			: `${number(changes)} changements sont proposés ; le plan les montre.`,
	offerTaken: "Proposition prise",
	takeIt: "La prendre",
	leaveIt: "La laisser",
	proved: "Prouvé : moins de changements ne suffisent pas.",
	notProved: "Le mieux trouvé dans le temps donné.",
	changes: {
		place: (week, area, at) => `semaine ${week}, ${area}, bloc ${at}`,
		swap: (place, drill, station) =>
			`${place}${station === undefined ? "" : `, atelier ${station}`} : ${quoted(drill)} à la place`,
		exchange: (one, other) => `${one} et ${other} échangent leur place`,
		move: (from, to) => `${from} passe à ${to}`,
		split: (place, after, minutes) =>
			`${place} devient deux blocs, après l'atelier ${after} : ${minutes.map(number).join(" et ")} minutes`,
		remove: (place) => `${place} s'en va`,
		minutes: (place, minutes) => `${place} : ${number(minutes)} minutes`,
		set: (place) => `${place} change`,
		add: (drill, minutes, week, area) =>
			`${quoted(drill)}, ${number(minutes)} minutes de plus, semaine ${week}, ${area}`,
	},
	drills: "Éducatifs",
	searchDrills: "Chercher un éducatif",
	everyArea: "Partout",
	everyLevel: "Tous les niveaux",
	drillsFound: (drills) => counts.drills(drills),
	moreDrills: (drills) => `et ${number(drills)} de plus : précisez le nom`,
	inWeeks: (weeks) => `${weeks.length === 1 ? "semaine" : "semaines"} ${weeks.map(String).join(", ")}`,
	plan: (title) => `Planifier : ${title}`,
	planShort: "Planifier",
	edit: (title) => `Modifier : ${title}`,
	editShort: "Modifier",
	files: "Éducatifs et fichiers",
	kindsOfFiles: "Ce qu'un club écrit",
	kindNames: {
		drill: "Éducatifs",
		week: "Semaines",
		guide: "Guides",
		levels: "Niveaux",
		apparatus: "Agrès et espaces",
		shapes: "Formes du corps",
		skills: "Éléments",
		equipment: "Matériel",
		purposes: "Buts",
		term: "Période, cours et jours de fermeture",
		targets: "Objectifs",
		club: "Club",
		accepted: "Constats acceptés",
		taught: "Ce que les entraîneurs ont rapporté",
		words: "Mots",
	},
	taughtLead:
		"Déposez ici ce que les entraîneurs ont envoyé : des fichiers de messages, autant qu'il y en a, dans n'importe quel ordre. Ce qui a déjà été pris n'est pas pris deux fois.",
	taughtChoose: "Choisir des fichiers",
	taughtPaste: "Ou collez leurs textes",
	taughtLook: "Regarder ce qui est collé",
	taughtCounts: {
		new: (reports) => `${number(reports)} nouveau(x)`,
		newer: (reports) => `${number(reports)} à la place d'un plus ancien`,
		known: (reports) => `${number(reports)} déjà là, ou plus ancien(s)`,
		corrected: (reports) => `${number(reports)} d'une entrée corrigée à la main`,
		refused: (reports) => `${number(reports)} d'une semaine ou d'un cours qui n'existe pas ici`,
	},
	taughtNothing: "Rien ne change.",
	taughtTake: "Les prendre",
	taughtTaken: "Rapports des entraîneurs pris",
	taughtOf: (name) => `${name} :`,
	pasted: "Ce qui a été collé",
	search: "Chercher",
	name: "Nom",
	newName: {
		drill: "Nom d'un nouvel éducatif",
		guide: "Titre d'un nouveau guide",
		levels: "Nom d'un nouveau niveau",
		apparatus: "Nom d'un nouvel agrès ou espace",
		shapes: "Nom d'une nouvelle forme",
		skills: "Nom d'un nouvel élément",
		equipment: "Nom d'un nouveau matériel",
		purposes: "Nom d'un nouveau but",
	},
	begin: "Commencer",
	nothingOpen: "Choisissez ce que vous voulez modifier, ou commencez quelque chose.",
	problemsHere: (problems) => `${number(problems)} à corriger`,
	draft: "pas enregistré",
	notSaved: "Pas encore enregistré ; gardé comme brouillon sur cette machine.",
	draftGone: "Ce qui n'était pas enregistré est parti.",
	dropDraft: "Abandonner ce qui n'est pas enregistré",
	save: "Enregistrer",
	wasSaved: (name) => `${quoted(name)} enregistré`,
	asText: "En texte",
	textOf: (file) => `Texte de ${file}`,
	body: "Texte",
	bodyHelp: "Markdown. Deux crochets commencent un lien : [[ et une partie du nom.",
	line: (line) => `Ligne ${line} :`,
	requiredMark: "(nécessaire)",
	notSaid: "pas dit",
	pick: "Choisir par le nom…",
	add: "Ajouter",
	addTo: (label) => `Ajouter : ${label}`,
	takeOut: (name) => `Retirer ${name}`,
	earlierItem: (label, at) => `${label} ${at} une place plus tôt`,
	nameIn: (label) => `Nom dans : ${label}`,
	formOf: (label) => `Comment c'est écrit : ${label}`,
	choosePicture: "Choisir une image",
	figure: "Figure",
	figureOf: (name) => `La figure de ${name} avec ces angles.`,
	jointsHint: "Faites glisser une articulation, ou atteignez-la avec Tab et déplacez-la avec les flèches.",
	jointAt: (joint, degrees) => `${joint} : ${number(degrees)} degrés`,
	sidesDiffer: "La gauche et la droite diffèrent",
	conflictTitle: "Quelqu'un d'autre a modifié ce fichier",
	conflictLead: (file) =>
		`Rien n'a été écrasé. Regardez les deux textes de ${file} et choisissez ; l'autre n'est pas perdu : votre texte reste en brouillon jusque-là.`,
	theirs: "Tel qu'il est maintenant dans le dossier",
	mine: "Tel que vous l'avez ici",
	takeTheirs: "Garder celui du dossier",
	takeMine: "Enregistrer le mien à sa place",
	moreToDo: "Renommer, remplacer ou retirer",
	newId: "Identifiant, qui nomme son fichier",
	renameEverywhere: "Le renommer partout",
	wasRenamed: (from, to) => `${from} renommé en ${to}`,
	inItsPlace: "Planifier un autre éducatif à sa place",
	replaceEverywhere: "Le remplacer partout où il est planifié",
	wasReplaced: (one, other) => `${quoted(other)} planifié à la place de ${quoted(one)}`,
	mergeInto: "Le fondre dans",
	seeFirst: "Voir ce que cela ferait",
	mergeHelp:
		"Tout ce qui nomme cet éducatif nomme l'autre, dans les semaines, les éducatifs et les textes, et le fichier de celui-ci s'en va. L'autre reste comme il est écrit.",
	merge: (one, other) => `Fondre ${quoted(one)} dans ${quoted(other)}`,
	wasMerged: (one, other) => `${quoted(one)} fondu dans ${quoted(other)}`,
	wouldWrite: "Ce qui serait écrit",
	retire: "Le retirer",
	retireHelp: "Son fichier s'en va, si plus rien ne le nomme. Annuler le ramène.",
	wasRetired: (name) => `${quoted(name)} retiré`,
	formNames: {
		text: "des mots",
		number: "un nombre",
		yes: "oui ou non",
		choice: "un choix",
		id: "un seul",
		ids: "une liste",
		pair: "deux nombres",
		list: "une liste",
		group: "en détail",
		map: "un par un",
		either: "l'un ou l'autre",
	},
	fieldNames: {
		id: "Identifiant",
		title: "Nom",
		name: "Nom",
		apparatus: "Agrès",
		summary: "En une phrase",
		aliases: "Dit aussi",
		levels: "Niveaux",
		level: "Niveau",
		do: "Comment ce niveau le fait",
		sets: "Séries",
		reps: "Répétitions",
		hold: "Maintien, secondes",
		"hold-of": "Ce que compte le maintien",
		shapes: "Formes du corps",
		shape: "Forme du corps",
		sequence: "Phases",
		skills: "Mène aux éléments",
		performs: "Exécute les éléments",
		elements: "L'enchaînement",
		after: "Vient après",
		ready: "Avant le premier essai",
		partner: "Le même dans l'autre sens",
		purpose: "À quoi il sert",
		direction: "Sens",
		sides: "Côtés",
		equipment: "Matériel",
		heights: "Hauteurs",
		turn: "Passages",
		seconds: "Secondes",
		"at-once": "Gymnastes en même temps",
		contacts: "Appuis d'une répétition",
		landings: "Réceptions",
		hands: "Appuis manuels",
		cues: "Ce qu'on dit",
		faults: "Ce qu'on surveille",
		see: "À quoi cela ressemble",
		say: "Ce qu'on dit",
		spotting: "Parade",
		caution: "Précaution",
		spotters: "Entraîneurs à la parade",
		helpers: "Qui aide dans les figures",
		watch: "Un entraîneur doit regarder",
		easier: "Plus facile",
		harder: "Plus difficile",
		run: "Élan, mètres",
		"run-out": "Dégagement, mètres",
		media: "Images",
		file: "Fichier",
		alt: "Ce que montre l'image",
		caption: "Légende",
		poster: "Image fixe",
		reviewed: "Relu le",
		count: "Combien",
		per: "Pour chaque",
		entry: "Ce qu'ils savent en arrivant",
		description: "Description",
		order: "Rang",
		needs: "Vient après les éléments",
		pattern: "Famille de mouvement",
		opposite: "L'élément opposé",
		criteria: "Ce qu'il faut voir",
		owned: "Combien le club en a",
		stored: "Où c'est rangé",
		size: "Taille, mètres",
		plan: "Plan au sol, mètres",
		groups: "Groupes à la fois",
		walls: "Murs",
		landmarks: "Repères",
		kind: "Type",
		at: "Où",
		week: "Semaine",
		theme: "Thème",
		weeks: "Semaines",
		starts: "Début (un lundi)",
		closed: "Jours fermés",
		between: "Minutes d'un agrès au suivant",
		classes: "Cours",
		day: "Jour",
		start: "Heure",
		minutes: "Minutes",
		"warm-up": "Échauffement, minutes",
		"cool-down": "Retour au calme, minutes",
		gymnasts: "Gymnastes",
		coaches: "Entraîneurs",
		ages: "Âges",
		rotation: "Ordre des agrès",
		"same-as": "Les mêmes gymnastes que",
		keep: "Le laisser quand le plan est corrigé",
		language: "Langue",
		timezone: "Fuseau horaire",
		paper: "Papier",
		punch: "Perforation",
		site: "Adresse du site",
		contact: "Pour les corrections",
		emergency: "En cas d'urgence",
		"emergency-guide": "Guide d'urgence",
		"shape-weeks": "Semaines par forme, au moins",
		"skill-weeks": "Semaines par élément, au moins",
		"shape-gap": "Plus longue pause d'une forme, semaines",
		"skill-gap": "Plus longue pause d'un élément, semaines",
		"pair-directions": "L'avant et l'arrière ensemble",
		"active-share": "Part en mouvement, au moins",
		"load-step": "Plus grande variation de charge",
		"review-months": "Mois avant relecture",
		"skill-reps": "Répétitions d'un élément, au moins",
		ratio: "Gymnastes par entraîneur, selon l'âge",
		"new-drills": "Éducatifs nouveaux en une semaine, au plus",
		"arrives-with": "Part qui réussit un élément sans aide, pour qu'il soit acquis à l'arrivée",
		tilt: "Inclinaison",
		base: "Appui",
		view: "Vue",
		angles: "Angles",
		height: "Hauteur, centimètres",
		range: "Hauteur, de la plus petite à la plus grande",
		step: "Pas, centimètres",
		thickness: "Épaisseur, centimètres",
		adults: "Adultes pour le porter",
		skill: "Élément",
		drill: "Éducatif",
		text: "Mots",
	},
	choices: {
		both: "symétrique",
		each: "de chaque côté",
		lead: "du côté préféré",
		rep: "une répétition",
		set: "une série",
		last: "la dernière",
		station: "atelier",
		gymnast: "gymnaste",
		feet: "les pieds",
		hands: "les mains",
		"hands-and-feet": "les mains et les pieds",
		head: "la tête",
		hips: "les hanches",
		seat: "les fesses",
		back: "le dos",
		front: "le ventre, ou de face",
		shoulders: "les épaules",
		knees: "les genoux",
		hang: "la suspension",
		air: "l'air",
		side: "profil",
		"two-hole": "deux trous",
		"three-hole": "trois trous",
		"four-hole": "quatre trous",
	},
	publishTitle: "Publier et imprimer",
	publishLead:
		"Le manuel est écrit dans un dossier à lui. Le dernier bon reste jusqu'à ce que le nouveau soit entier.",
	liesIn: (folder) => `C'est dans ${folder}.`,
	publishSite: "Publier le site",
	publishAll: "Publier le site et tout imprimer",
	printSheets: "Imprimer des feuilles",
	whichSheets: "Quelles feuilles",
	sheetKinds: {
		"class-sheets": "Feuilles de cours",
		"week-packet": "Tout ce qu'il faut pour une semaine",
		"station-cards": "Cartes de postes",
		"floor-plans": "Plans du praticable",
		"store-room": "Liste du local de matériel",
		labels: "Étiquettes du matériel",
		"check-sheets": "Feuilles de contrôle des éléments",
		"term-overview": "Le trimestre sur une page",
		pocket: "Ce qu'un entraîneur emporte",
		dividers: "Feuilles à onglet",
	},
	ofWeek: "De la semaine",
	everyWeek: "Toutes les semaines",
	ofClass: "Du cours",
	everyClass: "Tous les cours",
	print: "Imprimer",
	packetTitle: "Les feuilles modifiées",
	packetLead:
		"Pour un classeur déjà imprimé : seulement les nouvelles feuilles, avec la liste de celles à retirer et à insérer.",
	packetSince: "Depuis",
	printedAs: {
		binder: (edition) => `le classeur, ${edition}`,
		packet: (edition) => `les dernières feuilles, ${edition}`,
	},
	noBinderYet:
		"Aucun classeur n'est encore imprimé ; « Publier le site et tout imprimer » imprime le premier.",
	packet: "Imprimer les feuilles modifiées",
	sinceTitle: "Ce qui a changé depuis la dernière édition",
	howMany: (things) => `(${number(things)})`,
	sinceNothing: "Rien n'est encore publié : il n'y a pas d'édition à laquelle comparer.",
	printedSheets: "Voir les feuilles",
	stop: "Arrêter",
	whatItSaid: "Ce qu'il a dit",
	taskState: {
		running: "En cours…",
		done: "Fait.",
		failed: "Cela a échoué. Ce qu'il a dit est ci-dessous.",
		stopped: "Arrêté.",
	},
};

// Constats et messages ------------------------------------------------------------------------------

export const findingsPage: Words["findingsPage"] = {
	found: "Ce que constatent les mesures",
	allMet: "Le plan atteint tous les objectifs du club.",
	against: (findings) => `${counts.findings(findings)} face aux objectifs du club.`,
	lead: (file, meaning) => [
		"Les constats n'arrêtent jamais la génération du manuel : il peut y avoir de bonnes raisons. Les seuils sont ceux du club, dans ",
		file,
		" ; ",
		meaning,
		".",
	],
	whatEachMeans: "ce que chacun veut dire",
	measure: (measure) => ["Mesure : ", measure, "."],
	all: (findings) => `Tous (${findings})`,
	item: (place) => `n° ${place}`,
	harms: {
		safety: "Sécurité : préparation, parade et surveillance",
		"set-out": "Ne peut pas être installé",
		time: "Ne tient pas dans le temps",
		dose: "Doses et passages",
		coverage: "Ce qui manque à un cours",
		upkeep: "Entretien des fichiers",
	},
	ways: "Constats par type, semaine et cours",
	kinds: "Types",
	accepted: "Acceptés",
	acceptedLead: (file) => ["La direction laisse ceux-ci en place, dans ", file, "."],
	reason: "Raison :",
	until: (date) => `accepté jusqu'au ${date}`,
	mend: "Un changement qui y remédierait",
	termMend: "Le moins de changements trouvé pour toute la période",
	mendLead: (file, command) => [
		"Essayez d'abord : enregistrez-le sous ",
		file,
		" et lancez ",
		command,
		". Vous verrez ce qui disparaîtrait et ce qui apparaîtrait ; rien n'est écrit. Faites ensuite le changement dans le fichier de la semaine.",
	],
	accept: "L'accepter",
	acceptLead: (option) => [
		"Copiez la commande, mettez-y votre raison et lancez-la dans un terminal ; undo l'annule. Pour un club dans un autre dossier, ajoutez ",
		option,
		" et son chemin.",
	],
	yourReason: "Pourquoi cela peut rester",
};

function moyenne(weeks: number): string {
	return weeks === 1
		? "la semaine précédente"
		: `la moyenne des ${weeks === 2 ? "deux" : "trois"} semaines précédentes`;
}

export const findings: Words["findings"] = {
	outOfOrder: {
		what: (level, thing, week, first, when) =>
			`${level} fait ${quoted(thing)} en semaine ${week} sans ${quoted(first)} auparavant : ${when}.`,
		groups: (level, groups) => `${level} (${and(groups, 4)})`,
		notReady: (who, thing, week, first, had, wanted) =>
			`${who} rencontre ${quoted(thing)} en semaine ${week} après ${counts.reps(had)} de ${quoted(first)} ; il en faut ${number(wanted)} avant.`,
		fixReady: (thing, first) =>
			`Prévoyez davantage de ${quoted(first)} avant, ou ${quoted(thing)} plus tard.`,
		never: "cela ne vient jamais",
		later: (week) => `cela vient en semaine ${week}`,
		sameWeek: "cela vient la même semaine, mais pas avant",
		fixSkill: (first) =>
			`Prévoyez plus tôt un éducatif pour ${quoted(first)}, ou notez-le sous \`entry\` du niveau si les gymnastes arrivent avec.`,
		fixDrill: (thing, first) =>
			`Prévoyez ${quoted(first)} plus tôt pour ce niveau, ou ${quoted(thing)} plus tard ; si les gymnastes arrivent avec le premier, notez son identifiant sous \`entry\` du niveau.`,
	},
	spacing: {
		shapeNever: (level, shape) => `${level} n'entraîne jamais ${quoted(shape)}`,
		skillNever: (level, skill) => `${level} n'apprend jamais ${quoted(skill)}`,
		shapeMet: (level, shape, weeks) =>
			`${level} entraîne ${quoted(shape)} pendant ${counts.weeks(weeks.length)} (${inWeeks(weeks)})`,
		skillMet: (level, skill, weeks) =>
			`${level} apprend ${quoted(skill)} pendant ${counts.weeks(weeks.length)} (${inWeeks(weeks)})`,
		tooFew: (met, wanted) => `${met} ; l'objectif est de ${counts.weeks(wanted)}.`,
		shapeGap: (level, shape, gap) =>
			`${level} entraîne ${quoted(shape)} en semaine ${gap.from} et pas de nouveau avant la semaine ${gap.to}, ${counts.weeks(gap.weeks)} plus tard ; l'objectif est d'au plus ${gap.wanted}.`,
		skillGap: (level, skill, gap) =>
			`${level} apprend ${quoted(skill)} en semaine ${gap.from} et pas de nouveau avant la semaine ${gap.to}, ${counts.weeks(gap.weeks)} plus tard ; l'objectif est d'au plus ${gap.wanted}.`,
		noDrill: (level, thing) =>
			`Aucun éducatif de la bibliothèque pour ${level} ne mène à ${quoted(thing)} : écrivez-en un, ou retirez le niveau de \`levels\` de l'élément.`,
		planAgain: (drills, level) => `Prévoyez ${or(drills.map(quoted), 4)} une autre semaine pour ${level}.`,
		planIn: (drills, level, weeks) =>
			`Prévoyez ${or(drills.map(quoted), 4)} pendant ${counts.weeks(weeks)} pour ${level}.`,
		planBetween: (drills, level, from, to) =>
			`Prévoyez ${or(drills.map(quoted), 4)} entre les semaines ${from} et ${to} pour ${level}.`,
	},
	oneDirection: {
		onlyForward: (week, apparatus, levels, minutes, drills) =>
			`Semaine ${week}, ${apparatus}, ${and(levels, 4)} : ${counts.minutes(minutes)} vers l'avant (${and(drills.map(quoted), 4)}) et rien vers l'arrière.`,
		onlyBackward: (week, apparatus, levels, minutes, drills) =>
			`Semaine ${week}, ${apparatus}, ${and(levels, 4)} : ${counts.minutes(minutes)} vers l'arrière (${and(drills.map(quoted), 4)}) et rien vers l'avant.`,
		planForward: (drills) =>
			`Prévoyez un éducatif vers l'avant à cet agrès la même semaine, comme ${or(drills.map(quoted))}.`,
		planBackward: (drills) =>
			`Prévoyez un éducatif vers l'arrière à cet agrès la même semaine, comme ${or(drills.map(quoted))}.`,
	},
	time: {
		nothing: (group, week) => `${group} n'a rien à faire en semaine ${week}.`,
		before: (minutes) => `${number(minutes)} avant`,
		between: (minutes) => `${number(minutes)} pour passer de l'un à l'autre`,
		after: (minutes) => `${number(minutes)} après`,
		tooLong: (group, week, planned, available, parts) =>
			`${group}, semaine ${week} : ${counts.minutes(planned)} prévues dans un cours de ${number(available)} (${and(parts, 9)}).`,
		takeOut: (minutes, apparatus) =>
			`Retirez ${counts.minutes(minutes)} ; ${apparatus} en a le plus. Ou augmentez \`minutes\` du cours dans _data/term.yaml.`,
		tooStill: (group, week, still) =>
			`${group}, semaine ${week} : chaque gymnaste bouge ${number(still.active)} sur ${counts.minutes(still.available)}, ${percent(still.share)} ; l'objectif est de ${percent(still.target)}.${
				still.empty < 0.05 ? "" : ` Rien n'est prévu pour ${counts.minutes(still.empty)}.`
			}${
				still.waits.length === 0
					? ""
					: ` Le plus d'attente : ${and(
							still.waits.map(({ drill, minutes }) => `${quoted(drill)} (${counts.minutes(minutes)})`),
							4,
						)}.`
			}`,
		nobodyWaits: "Personne n'attend : il faut prévoir davantage des minutes du cours.",
		planRest: (minutes) => `Prévoyez quelque chose dans le temps vide (${counts.minutes(minutes)}).`,
		beside: (drill) =>
			`Ajoutez un atelier à côté de ${quoted(drill)}, laissez passer plus de gymnastes à la fois, ou donnez une tâche à ceux qui attendent.`,
		split: (drill) =>
			`Répartissez ${quoted(drill)} en ateliers, laissez passer plus de gymnastes à la fois, ou donnez une tâche à ceux qui attendent.`,
		noTurn: (place, minutes, drill, gymnasts) =>
			`${place.group}, semaine ${place.week}, ${place.apparatus} : ${counts.minutes(minutes)} de ${quoted(drill)} ne suffisent pas pour que ${counts.gymnasts(gymnasts)} passent chacun une fois.`,
		eaten: (place, groups, eaten) =>
			`Semaine ${place.week}, ${place.apparatus}, bloc ${place.block} (${and(groups, 4)}) : ${and([
				...(eaten.show > 0 ? [`${counts.minutes(eaten.show)} de démonstration`] : []),
				...(eaten.changes > 0
					? [`${counts.minutes(eaten.changes)} de changement entre ${counts.stations(eaten.stations)}`]
					: []),
			])} ne laissent rien de ses ${counts.minutes(eaten.minutes)}.`,
	},
	equipment: {
		short: (week, apparatus, need, drills) =>
			`Semaine ${week}, ${apparatus} : ${number(need.needed)} × ${need.item} nécessaires pour ${and(drills.map(quoted), 4)}, le club en possède ${number(need.owned)}.`,
		wanted: (group, needed, apparatus) => `${group} ${number(needed)} à ${apparatus}`,
		clash: (week, day, clock, need, who) =>
			`Semaine ${week}, ${days[day].toLowerCase()} à ${clock} : ${number(need.needed)} × ${need.item} nécessaires à la fois, le club en possède ${number(need.owned)} (${and(who, 4)}).`,
	},
	load: {
		landings: (value, step, before) =>
			`${number(value)} réceptions, ${number(step, 2)} fois ${moyenne(before)}`,
		hands: (value, step, before) =>
			`${number(value)} appuis manuels, ${number(step, 2)} fois ${moyenne(before)}`,
		step: (groups, week, parts, target) =>
			`${and(groups, 6)}, semaine ${week} : ${and(parts)} ; l'objectif est d'au plus ${number(target, 2)} fois. Un compte pour planifier, pas une mesure médicale.`,
		spreadLandings: (drill, value) =>
			`Répartissez les répétitions sur les semaines ; ${quoted(drill)} demande le plus de réceptions (${number(value)}).`,
		spreadHands: (drill, value) =>
			`Répartissez les répétitions sur les semaines ; ${quoted(drill)} demande le plus d'appuis manuels (${number(value)}).`,
	},
	calendar: {
		reviewed: (drill, reviewed, due, starts) =>
			`${quoted(drill)} a été relu pour la dernière fois le ${reviewed} ; une relecture était attendue avant le ${due}, avant le début de la période le ${starts}.`,
		hole: (week, last) => `La semaine ${week} n'a pas de plan, et la semaine ${last} en a un.`,
		unplannedEnd: (from, to) =>
			from === to
				? `La semaine ${from}, la dernière de la période, n'a pas de plan.`
				: `Les semaines ${from} à ${to}, jusqu'à la fin de la période, n'ont pas de plan.`,
		closedOutside: (from, to, first, last) =>
			`${from === to ? `Fermeture le ${from}` : `Fermeture du ${from} au ${to}`}, hors de la période, qui va du ${first} au ${last}.`,
		missed: (group, week, date) =>
			`${group} n'a pas lieu en semaine ${week} : le club est fermé le ${date}, et d'autres cours ont lieu cette semaine-là.`,
	},
	hall: {
		coachesShort: (place, group, need) =>
			`Semaine ${place.week}, ${place.apparatus}, bloc ${place.block}, ${group} : il faut ${counts.coaches(need.needed)} (${and(
				[
					...(need.hands > 0 ? [`${number(need.hands)} pour parer`] : []),
					...(need.watched > 0 ? ["1 pour surveiller"] : []),
				],
			)}), ${number(need.present)} sur place.`,
		coachesFix: (drills) =>
			`Retirez du bloc ${or(drills.map(quoted), 4)}, ou placez-le là où les autres ateliers se passent d'entraîneur.`,
		ratio: (group, gymnasts, coaches, ages, most) =>
			`${group} : ${counts.gymnasts(gymnasts)} de ${ages} ans avec ${counts.coaches(coaches)} ; le club en veut au plus ${number(most)} par entraîneur.`,
		crowd: (week, day, from, to, apparatus, groups, fits) =>
			`Semaine ${week}, ${days[day].toLowerCase()} de ${from} à ${to} : ${and(groups, 4)} sont ensemble à ${apparatus} ; il y a place pour ${number(fits)}.`,
		atOnce: (week, group, item, needed, owned) =>
			`Semaine ${week}, ${group} : ses groupes utilisent ${number(needed)} × ${item} à la même minute, le club en a ${number(owned)}.`,
		carried: (week, group, parts) =>
			`Semaine ${week}, ${group} : tout ne peut pas être installé avant le cours. ${parts.join(" ; ")}.`,
		carry: (count, item, from, to, at, adults) =>
			`${number(count)} × ${item} de ${from} à ${to} avant ${at} (${counts.adults(adults)} pour chacun)`,
		noTimeToCarry: "Il n'y a pas de minutes de passage pour les porter.",
		missing: (week, group, item, apparatus, missing) =>
			`Semaine ${week}, ${group} : ${number(missing)} × ${item} pour ${apparatus} ne peuvent pas être apportés, ils servent ailleurs.`,
		fits: (drill, level, planned, fits, turns, times, example) =>
			`${quoted(drill)}, ${level} : ${number(planned)} prévues, ${number(fits)} possibles en ${counts.turns(turns)} (${example})${times > 1 ? ` ; ainsi ${counts.times(times)} dans la période` : ""}.`,
		where: (group, week, apparatus) => `${group}, semaine ${week}, ${apparatus}`,
		fitsFix: (minutes, drill) =>
			minutes === undefined
				? `Réduisez la dose de ${quoted(drill)}, ou faites passer plus de gymnastes à la fois.`
				: `Donnez-lui ${counts.minutes(minutes)} de plus, faites passer plus de gymnastes à la fois, prévoyez moins d'ateliers, ou réduisez la dose.`,
		hold: (drill, level, hold, reps, seconds) =>
			`${quoted(drill)}, ${level} : ${counts.reps(reps)} tenues ${number(hold)} s chacune font ${number(hold * reps)} s, dans un passage de ${number(seconds)} s.`,
		holdOnce: (drill, level, hold, seconds) =>
			`${quoted(drill)}, ${level} : un maintien de ${number(hold)} s dans un passage de ${number(seconds)} s.`,
		height: (place, drill, item, wanted, can) =>
			`${place} : ${quoted(drill)} demande ${item} entre ${number(wanted[0], 0)} et ${number(wanted[1], 0)} cm ; il ${can}.`,
		heightFixed: (height) => `est à ${number(height, 0)} cm`,
		heightRange: (from, to, step) =>
			`se règle de ${number(from, 0)} à ${number(to, 0)} cm${step === undefined ? "" : ` par pas de ${number(step)} cm`}`,
		twoHeights: (place, item, one, other) =>
			`${place} : ${item} doit être à deux hauteurs, pour ${quoted(one)} et pour ${quoted(other)}.`,
		reps: (group, skill, performed, prepared, wanted) =>
			`${group} exécute ${quoted(skill)} ${counts.times(performed)} dans la période (et ${number(prepared)} fois en préparation seulement) ; le club en veut ${number(wanted)}.`,
		repsNever: (group, skill, prepared, wanted) =>
			`${group} n'exécute jamais ${quoted(skill)} dans la période (${counts.reps(prepared)} en préparation seulement) ; le club en veut ${number(wanted)}.`,
		notReached: (group, skill) => `${group} ne rencontre jamais ${quoted(skill)}, que son niveau apprend.`,
		landings: (group, week, landings, most, drill) =>
			`${group}, semaine ${week} : ${counts.landings(landings)} pour un gymnaste en une séance ; le club en veut au plus ${number(most)}. La plupart viennent de ${quoted(drill)}.`,
		newDrills: (group, week, fresh, most) =>
			`${group}, semaine ${week} : ${counts.drills(fresh)} que ses gymnastes n'ont pas encore rencontrés ; le club en veut au plus ${number(most)}.`,
		unmatched: (code, reason) => `${code} est accepté (« ${reason} »), et le plan n'a pas de tel constat.`,
		ended: (code, until, reason) =>
			`${code} était accepté jusqu'au ${until} (« ${reason} »), et la période continue.`,
	},
	taught: {
		missed: (who, thing, week, first, missed) =>
			`${who} : ${quoted(thing)} commence en semaine ${week} et s'appuie sur ${quoted(first)}, prévu en semaine ${missed} et non enseigné comme prévu.`,
		teach: (thing, first, week) =>
			`Enseignez ${quoted(first)} avant ${quoted(thing)} en semaine ${week}, ou placez ${quoted(thing)} plus tard.`,
		wasPlanned: (weeks) =>
			weeks.length === 1
				? `C'était prévu en semaine ${weeks[0]}, et n'a pas été enseigné.`
				: `C'était prévu pour les ${inWeeks(weeks)}, et n'a pas été enseigné.`,
		differ: (who, week, things) =>
			`${who}, semaine ${week} : deux entraîneurs ne disent pas la même chose de ${and(things, 4)}.`,
		unplaced: (who, week, apparatus, block) =>
			`${who}, semaine ${week} : un compte rendu de ${apparatus}, bloc ${block}, que le plan n'a plus tel quel.`,
	},
	placing: {
		what: (place, size, parts) =>
			`Semaine ${place.week}, ${place.apparatus}, bloc ${place.block}, sur ${number(size[0], 2)} × ${number(size[1], 2)} m : ${and(parts, 4)}.`,
		station: (number, drill) => `${number} ${quoted(drill)}`,
		overlap: (a, b) => `les ateliers ${a} et ${b} se chevauchent`,
		landing: (a, b, gap, wanted) =>
			`${number(gap, 2)} m entre la zone de réception de l'atelier ${a} et l'atelier ${b}, ${number(wanted, 2)} m voulus`,
		between: (a, b, gap, wanted) =>
			`${number(gap, 2)} m entre les ateliers ${a} et ${b}, ${number(wanted, 2)} m voulus`,
		wall: (a, gap) => `l'atelier ${a} a besoin d'un mur et se trouve à ${number(gap, 2)} m du bord`,
		edge: (a, over) => `l'atelier ${a} dépasse le bord de ${number(over, 2)} m`,
		noWay: (from, to) => `il n'y a pas de passage libre de l'atelier ${from} à l'atelier ${to}`,
		planFewer:
			"Prévoyez moins d'ateliers, ou de plus petits, dans ce bloc, ou corrigez `plan` dans _data/apparatus.yaml.",
	},
};

function inWeeks(weeks: readonly number[]): string {
	return `${weeks.length === 1 ? "semaine" : "semaines"} ${and(weeks.map(String), 8)}`;
}

function translated(
	texts: Readonly<Record<Code, readonly [title: string, why: string, fix: string]>>,
): Words["catalogue"] {
	return Object.fromEntries(
		Object.entries(texts).map(([code, [title, why, fix]]) => [code, { title, why, fix }]),
	) as Record<Code, CatalogueEntry>;
}

export const catalogue: Words["catalogue"] = /* @__PURE__ */ translated({
	H101: [
		"Une page sans en-tête",
		"Les champs entre les deux lignes de trois tirets disent de quoi parle la page ; sans eux, elle ne peut pas être placée.",
		"Commencez le fichier par une ligne de trois tirets, puis les champs, puis une autre ligne de trois tirets.",
	],
	H102: [
		"Du YAML illisible",
		"Une erreur de retrait, de crochet ou de guillemet rend illisible tout ce qui suit.",
		"Regardez la ligne nommée. Un texte qui contient un deux-points suivi d'un espace demande des guillemets.",
	],
	H103: [
		"Un en-tête dans un autre langage que YAML",
		"Seul YAML est lu. Un en-tête qui s'exécuterait comme un programme est refusé.",
		"Écrivez l'en-tête en YAML et ouvrez-le par trois tirets seuls.",
	],
	H104: [
		"Un champ qui n'existe pas",
		"Un champ mal orthographié se perdrait en silence.",
		"Employez un champ de la liste du guide de rédaction ; le nom le plus proche est proposé.",
	],
	H105: [
		"Un champ obligatoire manque",
		"Sans lui, la page ne peut pas être placée dans le manuel.",
		"Ajoutez le champ.",
	],
	H106: [
		"Une valeur de la mauvaise sorte",
		"La valeur ne peut pas être employée telle qu'elle est écrite.",
		"Écrivez la valeur comme le montre le guide de rédaction pour ce champ.",
	],
	H107: [
		"Un nom qui ne peut pas être un identifiant",
		"Les identifiants deviennent des adresses et des noms de fichiers ; ils ne contiennent que des minuscules, des chiffres et des traits d'union.",
		"Renommez-le en mots minuscules reliés par des traits d'union.",
	],
	H108: [
		"Un éducatif dans le dossier d'un autre agrès",
		"On cherche un éducatif dans le dossier d'un agrès qu'il nomme.",
		"Déplacez le fichier, ou ajoutez l'agrès du dossier à `apparatus` de l'éducatif.",
	],
	H109: [
		"Un fichier qui n'est pas du texte simple",
		"Les fichiers sont lus comme du texte UTF-8. Un autre encodage abîmerait noms et consignes.",
		"Enregistrez de nouveau le fichier en UTF-8.",
	],
	H110: [
		"Un fichier qui n'est pas lu",
		"Rien n'est fait de ce fichier ; ce qu'il contient n'est pas dans le manuel.",
		"Déplacez-le ou donnez-lui un des noms du guide de rédaction, ou retirez-le du dossier.",
	],
	H111: [
		"Un dossier de club sans éducatifs",
		"Il n'y a rien dont faire un manuel.",
		"Indiquez avec `--club` un dossier qui contient `content/drills`, ou écrivez-y un premier éducatif.",
	],
	H112: [
		"Un fichier qui contient autre chose que prévu",
		"Certains fichiers de données contiennent une liste et d'autres des champs ; celui-ci fait l'inverse, ou est vide.",
		"Voyez dans le guide de rédaction la forme de ce fichier.",
	],
	H113: [
		"Une période qui ne commence pas un lundi",
		"Les semaines se comptent à partir du lundi, comme dans ISO 8601.",
		"Mettez dans `starts` le lundi de la première semaine.",
	],
	H114: [
		"Un intervalle qui finit avant de commencer",
		"Il ne couvre aucun jour ni aucun âge, et ne ferait donc rien.",
		"Écrivez d'abord le premier des deux.",
	],
	H115: [
		"Ancres, alias et étiquettes YAML",
		"Une seule ligne y tient lieu de beaucoup d'autres, et ils cassent facilement quand on modifie le fichier.",
		"Écrivez la valeur là où elle sert, ou mettez entre guillemets un texte qui commence par & * ou !.",
	],
	H116: [
		"Un fichier ou dossier qui ne peut pas être lu",
		"Ce qu'il contient manquerait dans le manuel.",
		"Vérifiez ses droits, et que les liens du dossier du club mènent à des fichiers de ce dossier.",
	],
	H117: [
		"Un dossier dans un autre format",
		"Le dossier a été écrit pour une autre version de ce programme, où des champs peuvent vouloir dire autre chose.",
		"Lancez `npm run upgrade`, avec `-- --club` et le dossier si c'en est un autre.",
	],
	H118: [
		"Un registre de l'édition qui ne peut pas être lu",
		"Le programme garde dans ce fichier le numéro de la dernière édition ; sans lui, les numéros sur papier recommenceraient à 1, et personne ne saurait quelle feuille est la plus récente.",
		'Si deux versions s\'y rencontrent, gardez en entier celle au plus grand numéro. S\'il est perdu, écrivez le numéro au pied de la feuille la plus récente : `{"number": 7, "date": "2026-11-30", "content": ""}`.',
	],
	H119: [
		"Une bibliothèque qui n'est pas là",
		"Ce que le club en prend manquerait dans le manuel.",
		"Nommez son dossier à partir de celui du club, ou installez le paquet ; ou retirez la ligne de `libraries`.",
	],
	H131: [
		"Une couleur sur laquelle des mots ne se lisent pas",
		"Les têtes des parties du site sont de la couleur du club, avec des mots de la couleur du papier. Un faible contraste exclut les entraîneurs qui voient mal, et tout le monde dans une salle claire.",
		"Écrivez une couleur plus foncée, ou plus claire pour le thème sombre.",
	],
	H132: [
		"Une feuille de style qui ne peut pas servir",
		"`content/style.css` va sur chaque page, chaque feuille et chaque téléphone. Elle se suffit : le site ne charge rien d'ailleurs, et marche sans réseau.",
		"Retirez-la. Une feuille de style règle tailles, couleurs, traits et distances ; les images sont dans les éducatifs, et le `logo` du club dans `_data/club.yaml`.",
	],
	H201: [
		"Un renvoi vers quelque chose qui n'existe pas",
		"La page ne mènerait à rien.",
		"Corrigez l'identifiant, ou écrivez ce qu'il nomme.",
	],
	H202: [
		"Deux choses de même identifiant",
		"Un renvoi pourrait désigner l'une ou l'autre, et toutes deux iraient sur la même page.",
		"Donnez un autre identifiant à l'une d'elles.",
	],
	H203: [
		"Un cercle de choses qui viennent l'une avant l'autre",
		"Rien dans le cercle ne pourrait jamais être enseigné en premier.",
		"Retirez un des liens du cercle.",
	],
	H204: [
		"Un éducatif prévu à un agrès qu'il ne nomme pas",
		"L'entraîneur le trouverait au mauvais agrès, sans sa mise en place.",
		"Prévoyez un autre éducatif, ou ajoutez l'agrès à l'éducatif.",
	],
	H205: [
		"Un bloc nomme un niveau que son éducatif ne propose pas",
		"Ce niveau n'a rien à faire dans ce bloc, et rien n'est compté pour lui.",
		"Ajoutez le niveau à l'éducatif, ou retirez-le du bloc.",
	],
	H206: [
		"Un lien du texte qui ne mène nulle part",
		"Le lecteur serait envoyé vers une page qui n'existe pas.",
		"Corrigez l'identifiant entre les doubles crochets.",
	],
	H207: [
		"Deux plans pour la même semaine",
		"Un seul des deux peut être enseigné.",
		"Donnez à l'un un autre numéro de semaine, ou réunissez les deux fichiers.",
	],
	H208: [
		"Une semaine après la fin de la période",
		"Elle n'a pas de date ; personne ne l'enseignerait.",
		"Augmentez `weeks` dans _data/term.yaml, ou changez le numéro de la semaine.",
	],
	H209: [
		"Un atelier hors de son plan au sol",
		"Il ne peut pas être dessiné là où il se trouve.",
		"Corrigez `at`, en mètres depuis le coin, ou `plan` de l'agrès.",
	],
	H210: [
		"Une chose qui renvoie à elle-même",
		"Un éducatif ne peut pas être son propre équivalent, ni un élément son propre contraire.",
		"Nommez l'autre, ou retirez le champ.",
	],
	H211: [
		"Une image ou vidéo inutilisable",
		"La page montrerait un cadre vide, ou rien là où l'entraîneur la cherche.",
		"Mettez le fichier dans `content/media` sous le nom écrit ici.",
	],
	H213: [
		"Un atelier à un repère que la zone n'a pas",
		"Personne ne saurait où l'installer, et il ne peut pas être dessiné.",
		"Nommez un des `landmarks` de la zone dans _data/apparatus.yaml, ajoutez celui-ci, ou écrivez `[x, y]` en mètres.",
	],
	H212: [
		"Une forme dessinée autrement qu'elle n'est nommée",
		"Les entraîneurs regardent la figure avant de lire son nom, et apprennent la mauvaise forme.",
		"Corrigez `angles` de la forme, ou donnez-lui un autre nom.",
	],
	H216: [
		"Une hauteur de mise en place dont les mots nomment un niveau",
		"Les mots sont pour les lecteurs : la hauteur figure sur les fiches de tous les niveaux, même là où elle est bien trop haute.",
		"Écrivez l'objet une fois et chaque niveau dessous, comme dans `heights: {box: {level-1: knee, level-2: hip}}`.",
	],
	H217: [
		"Une hauteur de mise en place pour un niveau qui ne fait pas l'éducatif",
		"Aucune fiche ne la montre : qui l'a écrite l'attend en vain.",
		"Nommez un niveau de l'éducatif, ou ajoutez le niveau à son champ `levels`.",
	],
	H218: [
		"Un mot que le club ne dit pas",
		"Ce qui a deux noms est deux choses pour un enfant, et une recherche n'en trouve qu'une.",
		"Écrivez le mot que dit le club, ou corrigez _data/words.yaml. Ce que disent les autres va sous `aliases`.",
	],
	H301: [
		"Un élément avant ce qu'il demande",
		"Les gymnastes rencontrent le plus difficile avant le plus facile sur lequel il repose.",
		"Prévoyez plus tôt un éducatif pour l'élément demandé, ou notez-le sous `entry` du niveau si les gymnastes arrivent avec.",
	],
	H302: [
		"Un éducatif avant celui après lequel il vient",
		"L'éducatif dit qu'un autre devrait avoir été enseigné avant lui.",
		"Prévoyez l'autre éducatif plus tôt pour ce niveau, ou celui-ci plus tard ; notez son identifiant sous `entry` du niveau si les gymnastes arrivent avec. Un élément acquis ne dispense pas d'un éducatif.",
	],
	H303: [
		"Une forme entraînée pendant trop peu de semaines",
		"L'objectif du club demande chaque forme pendant plus de semaines que le plan n'en donne.",
		"Prévoyez un des éducatifs de la forme une autre semaine pour ce niveau.",
	],
	H304: [
		"Un élément enseigné pendant trop peu de semaines",
		"L'objectif du club demande chaque élément d'un niveau pendant plus de semaines que le plan n'en donne.",
		"Prévoyez un des éducatifs de l'élément une autre semaine pour ce niveau.",
	],
	H305: [
		"Une forme laissée trop longtemps de côté",
		"L'écart entre deux semaines avec la forme dépasse l'objectif du club.",
		"Prévoyez un des éducatifs de la forme entre les deux semaines.",
	],
	H306: [
		"Un élément laissé trop longtemps de côté",
		"L'écart entre deux semaines avec l'élément dépasse l'objectif du club.",
		"Prévoyez un des éducatifs de l'élément entre les deux semaines.",
	],
	H307: [
		"Du travail vers l'avant sans travail vers l'arrière, ou l'inverse",
		"Il est de pratique courante que le travail vers l'avant ait une version vers l'arrière.",
		"Prévoyez à cet agrès, la même semaine, un éducatif du sens qui manque.",
	],
	H308: [
		"Plus de minutes prévues que le cours n'en a",
		"Quelque chose tombera à la fin, et chaque entraîneur laissera tomber autre chose.",
		"Raccourcissez ou retirez un bloc à l'un des agrès que le cours visite.",
	],
	H309: [
		"Un cours qui attend plus que l'objectif du club",
		"Les gymnastes apprennent en bougeant. Ici, chacun bouge une plus petite part du cours que le club ne le veut.",
		"Répartissez en ateliers l'éducatif où l'on attend le plus, laissez passer plus de gymnastes à la fois, ou donnez une tâche à ceux qui attendent.",
	],
	H310: [
		"Un agrès qui demande plus de matériel que le club n'en possède",
		"Le plan ne peut pas être mis en place tel qu'il est écrit.",
		"Employez moins d'ateliers avec cet objet, choisissez un autre éducatif, ou corrigez `owned` dans _data/equipment.yaml.",
	],
	H311: [
		"Une hausse de réceptions ou d'appuis manuels au-dessus de l'objectif du club",
		"La semaine demande bien plus de réceptions ou d'appuis manuels que les précédentes, trois au plus. C'est un compte pour planifier, pas une mesure médicale.",
		"Répartissez les répétitions sur les semaines, ou préparez-les pendant les semaines précédentes.",
	],
	H312: [
		"Un éducatif que personne n'a relu depuis longtemps",
		"Le club veut que chaque éducatif soit relu après quelques mois ; au début de cette période, ce délai était passé.",
		"Relisez l'éducatif, corrigez ce qui a vieilli, et notez la date du jour sous `reviewed`.",
	],
	H313: [
		"Un cours sans rien de prévu une semaine",
		"Le cours a lieu et ses entraîneurs ne trouvent aucun éducatif pour ses niveaux aux agrès de sa rotation.",
		"Prévoyez un bloc pour le niveau du cours à l'un de ses agrès.",
	],
	H314: [
		"Un trou dans la période : une semaine sans plan",
		"Des semaines suivantes sont prévues, et aucun fichier ne dit ce qui est enseigné dans celle-ci.",
		"Écrivez un fichier dans `content/weeks` pour cette semaine, ou réduisez `weeks` dans _data/term.yaml.",
	],
	H315: [
		"Un cours qu'un jour de fermeture retire d'une semaine",
		"Les autres cours ont lieu cette semaine-là et celui-ci non ; ses gymnastes manquent ce que la semaine enseigne.",
		"Prévoyez aussi la semaine suivante ce qui ne doit pas manquer, ou donnez un autre jour au cours.",
	],
	H316: [
		"Un éducatif trop court pour que chacun passe",
		"Avec autant de gymnastes et un passage aussi long, certains ne passent jamais.",
		"Donnez plus de minutes au bloc, laissez passer plus de gymnastes à la fois, ou répartissez-le en ateliers.",
	],
	H317: [
		"Des cours qui demandent le même matériel au même moment",
		"Des cours se chevauchent dans l'horaire, et demandent ensemble plus que le club ne possède.",
		"Changez l'ordre des agrès d'un cours, ou prévoyez un autre éducatif dans un des blocs.",
	],
	H318: [
		"Des ateliers qui se chevauchent sur le plan au sol",
		"Deux groupes travailleraient au même endroit, et l'un pourrait courir ou tomber sur l'autre.",
		"Déplacez l'un d'eux par son `at`, ou retirez `at` : sans lui, un atelier est placé là où il y a de la place.",
	],
	H319: [
		"Trop peu d'espace libre entre ateliers ou autour d'une zone de réception",
		"Un gymnaste qui se réceptionne mal ou recule a besoin de cet espace, et un entraîneur doit pouvoir passer. La distance est de pratique courante ; les règles locales passent d'abord.",
		"Déplacez l'un d'eux par son `at`, ou retirez `at` : sans lui, un atelier est placé là où il y a de la place.",
	],
	H320: [
		"Un atelier qui dépasse le bord de son plan, ou loin du mur qu'il lui faut",
		"Il ne peut pas être mis en place là où il est prévu : il gênerait l'agrès voisin, ou son mur est ailleurs.",
		"Déplacez-le par son `at`, qui est le milieu de l'atelier, ou retirez `at`, ou corrigez `plan` dans _data/apparatus.yaml.",
	],
	H330: [
		"Un éducatif avant que les gymnastes y soient prêts",
		"L'éducatif dit ce qui doit avoir été fait avant le premier essai, et le plan en a moins.",
		"Prévoyez-en davantage avant, ou l'éducatif plus tard.",
	],
	H331: [
		"Un bloc qui demande plus d'entraîneurs qu'il n'y en a",
		"Un atelier qui demande des mains ou des yeux s'en passerait.",
		"Prévoyez à côté des ateliers qui se passent d'entraîneur, ou augmentez `coaches` du cours dans _data/term.yaml s'ils sont plus nombreux.",
	],
	H332: [
		"Plus de groupes sur un agrès qu'il n'y a de place",
		"Ils partageraient un couloir ou une zone de réception, ou l'un d'eux attendrait.",
		"Changez la rotation de l'un d'eux, ou corrigez `groups` de l'agrès dans _data/apparatus.yaml.",
	],
	H333: [
		"Du matériel porté pendant un cours",
		"Tout ne peut pas être installé avant le cours : quelqu'un le porte pendant que les gymnastes attendent.",
		"Utilisez moins de ce matériel à un des ateliers, ou gardez-le sur un seul agrès.",
	],
	H334: [
		"Une dose qui ne tient pas dans les passages",
		"La fiche demande plus que les minutes ne donnent : chaque entraîneur laisse de côté autre chose.",
		"Donnez plus de minutes au bloc, faites passer plus de gymnastes à la fois, prévoyez moins d'ateliers, ou réduisez la dose.",
	],
	H335: [
		"Un maintien plus long que le passage",
		"Qui lit la fiche ne sait pas si l'on tient chaque répétition, la série ou la dernière.",
		"Dites `hold-of: set` ou `hold-of: last`, raccourcissez le maintien, ou allongez le passage.",
	],
	H336: [
		"Une hauteur que le matériel ne peut pas avoir",
		"L'atelier ne peut pas être installé pour ce cours comme le dit l'éducatif.",
		"Nommez un autre repère pour ce niveau, prenez un autre matériel, ou corrigez `height`, `range` ou `thickness` dans _data/equipment.yaml.",
	],
	H337: [
		"Un matériel à deux hauteurs dans un cours",
		"Il faut le régler à nouveau pendant que les gymnastes attendent, ou un des éducatifs se fait à la mauvaise hauteur.",
		"Prévoyez les éducatifs dans des semaines différentes, ou donnez au niveau le même repère pour les deux.",
	],
	H338: [
		"Un élément que le cours exécute trop peu",
		"L'objectif du club veut que chaque élément d'un niveau soit exécuté plus souvent. Le préparer n'est pas le faire.",
		"Prévoyez un éducatif qui exécute l'élément dans plus de semaines, ou avec plus de passages.",
	],
	H339: [
		"Plus de gymnastes par entraîneur que le club ne veut",
		"Le taux que le club s'est donné pour ces âges n'est pas tenu.",
		"Donnez au cours un entraîneur de plus, ou moins de gymnastes.",
	],
	H340: [
		"Plus de réceptions en une séance que le club ne veut",
		"Un compte pour planifier, pas une mesure médicale.",
		"Réduisez les répétitions de l'éducatif qui en a le plus, ou prévoyez-le un autre jour.",
	],
	H341: [
		"Plus d'éducatifs nouveaux en une semaine que le club ne veut",
		"Chaque éducatif nouveau doit être montré et appris, et son entraîneur doit l'apprendre d'abord.",
		"Gardez dans quelques blocs des éducatifs des semaines précédentes.",
	],
	H342: [
		"Un constat accepté que le plan n'a plus",
		"La raison est gardée pour rien, et cacherait le constat s'il revenait pour une autre cause.",
		"Retirez l'entrée de _data/accepted.yaml, ou corrigez ce dont elle parle.",
	],
	H343: [
		"Un élément du niveau qu'un de ses cours ne rencontre jamais",
		"Le plan a des éducatifs pour lui, là où ce cours ne va jamais.",
		"Prévoyez un de ses éducatifs sur un agrès du cours, ou changez la rotation.",
	],
	H344: [
		"Un bloc dont les changements prennent toutes les minutes",
		"Les gymnastes iraient d'un atelier à l'autre, et personne n'aurait de passage.",
		"Donnez plus de minutes au bloc, prévoyez moins d'ateliers, ou raccourcissez `change` ou `show`.",
	],
	H345: [
		"Un jour de fermeture hors de la période",
		"Il ne ferme aucun cours. Souvent, c'est l'année qui est fausse, et le jour voulu reste ouvert.",
		"Corrigez la date sous `closed` dans _data/term.yaml, ou retirez-la.",
	],
	H346: [
		"Aucun passage libre d'un atelier au suivant",
		"Les gymnastes devraient traverser une course d'élan, une zone de réception ou un autre atelier pour changer.",
		"Déplacez un atelier par son `at` pour qu'il y ait de quoi le contourner, ou prévoyez moins d'ateliers.",
	],
	H350: [
		"Une semaine à venir qui s'appuie sur ce qu'un cours a manqué",
		"Le plan place le plus facile d'abord, mais les entraîneurs ont dit qu'il n'a pas été enseigné, ou pas assez.",
		"Enseignez d'abord ce qui a manqué, ou placez le plus difficile plus tard.",
	],
	H351: [
		"Deux entraîneurs d'un cours qui ne disent pas la même chose",
		"Le plus prudent des deux est compté, ce qui peut être faux.",
		"Demandez-leur, et corrigez le fichier sous _data/taught.",
	],
	H352: [
		"Un compte rendu d'un bloc que le plan n'a pas",
		"Le plan a changé depuis que l'entraîneur l'avait ; ce qui a été dit ne compte donc pas.",
		"Écrivez dans le fichier sous _data/taught les éducatifs du bloc visé, ou retirez l'entrée.",
	],
	H353: [
		"Un écart qui a grandi depuis qu'une semaine a manqué",
		"Le plan respecte l'objectif du club pour les écarts ou les semaines, mais avec ce qui a vraiment été enseigné il est manqué, et il reste des semaines.",
		"Prévoyez-le encore une fois pour ce cours dans les semaines à venir.",
	],
	H401: [
		"Pas de navigateur pour mettre les pages en forme",
		"Les pages imprimées sont mises en forme par Chromium. Tout le reste a été construit, et ce qui a été imprimé auparavant et n'a pas changé est gardé. Chaque page du site s'imprime comme une feuille depuis le navigateur du lecteur.",
		"Installez Chromium, Chrome ou Edge, ou donnez dans HANDBOOK_BROWSER le chemin du programme. Sous Linux x64, `npm install @sparticuz/chromium` en apporte un aussi.",
	],
	H402: [
		"Une section ou une fiche n'a pas pu être mise en forme",
		"Elle manque à ce qui a été imprimé ; tout le reste y est.",
		"Regardez la page nommée ; si elle est saine, relancez la commande.",
	],
	H403: [
		"Des mots ne sont pas à leur place sur la page imprimée",
		"Quelque chose est coupé, se trouve dans la marge perforée, ou manque. Toutes les autres pages sont saines.",
		"Regardez la page imprimée nommée. Raccourcissez le texte ou partagez le tableau à l'endroit nommé.",
	],
	H404: [
		"Un numéro de page imprimé qui est faux",
		"Le sommaire ou un renvoi enverrait le lecteur à une autre page.",
		"C'est une faute du programme : gardez le dossier et signalez-la.",
	],
	H405: [
		"Quelque chose a dû être coupé ou réduit pour être imprimé",
		"C'est imprimé aussi bien que possible, mais plus difficile à lire que le reste.",
		"Raccourcissez-le, ou partagez-le, à l'endroit nommé.",
	],
	H406: [
		"Imprimé en caractères trop petits",
		"Rien ne devrait être plus petit que 8,5 points, ni 9 points pour la sécurité : une fiche se lit à bout de bras, et pas toujours à la lumière.",
		"Regardez la page imprimée nommée et partagez ce qui est trop grand pour elle : un tableau large, le plan d'une salle très longue.",
	],
	H407: [
		"Des mots imprimés les uns sur les autres",
		"Ni les uns ni les autres ne se lisent.",
		"Regardez la page imprimée nommée. Dans un dessin, donnez plus de place à ce qui s'y trouve ; ailleurs, raccourcissez le texte.",
	],
	H408: [
		"Un signe qu'aucune police de cette machine ne possède",
		"Une case vide est imprimée à sa place. Les écrans ont d'ordinaire plus de signes que les polices de la machine qui imprime, les émojis surtout.",
		"Écrivez le mot sans ce signe, ou installez une police qui le possède, puis imprimez de nouveau.",
	],
	H409: [
		"Un dessin plus grand que sa page imprimée",
		"Une partie n'est pas sur le papier. Les mots qui l'accompagnent y sont.",
		"Prévoyez moins d'ateliers, ou de plus petits, dans ce bloc, ou corrigez `plan` dans _data/apparatus.yaml.",
	],
	H410: [
		"Une fiche qui demande plus de faces qu'elle ne devrait",
		"Elle a été imprimée en entier, dans les plus petits caractères lisibles, mais ce n'est plus la feuille unique qu'on accroche au mur ou pose sur une poutre.",
		"Raccourcissez les textes de ce qui y est prévu, ou prévoyez moins d'ateliers pour ce cours.",
	],
	H411: [
		"Un texte de sécurité qui n'est pas sur le papier",
		"Personne ne doit enseigner d'après une fiche à laquelle manquent la parade, les précautions ou les consignes d'urgence : celle-ci n'a pas été imprimée, toutes les autres l'ont été.",
		"C'est une faute du programme : enseignez d'après la page de l'éducatif, gardez le dossier et signalez-la.",
	],
});
