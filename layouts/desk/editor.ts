/**
 * The editor of texts: Markdown with `[[links]]` completed by name, and a file's own text with its problems
 * marked where they stand. CodeMirror, without its languages: what matters here is the words.
 */

import {
	autocompletion,
	type CompletionContext,
	type CompletionResult,
	completionKeymap,
} from "@codemirror/autocomplete";
import { defaultKeymap, history, historyKeymap } from "@codemirror/commands";
import { type Diagnostic, lintGutter, setDiagnostics } from "@codemirror/lint";
import { EditorState } from "@codemirror/state";
import { EditorView, keymap, lineNumbers } from "@codemirror/view";
import type { Names, ProblemLine } from "./api.ts";

export interface EditorOptions {
	readonly parent: HTMLElement;
	readonly label: string;
	readonly text: string;
	readonly names: Names;
	readonly numbered: boolean;
	readonly readOnly: boolean;
	readonly onChange: (text: string) => void;
}

export interface Editor {
	/** Puts another text in, where it is another. */
	readonly take: (text: string) => void;
	readonly mark: (problems: readonly ProblemLine[]) => void;
	readonly end: () => void;
}

/** Kinds that a link can lead to, in the order in which an id alone is looked up. */
const LINKED = ["drill", "skill", "shape", "apparatus", "level", "week", "equipment", "guide"];

export function openEditor(options: EditorOptions): Editor {
	const { parent, label, text, names, numbered, readOnly, onChange } = options;
	const nonce = document.querySelector<HTMLElement>("[data-nonce]")?.dataset.nonce ?? "";
	const view = new EditorView({
		parent,
		state: EditorState.create({
			doc: text,
			extensions: [
				EditorView.cspNonce.of(nonce),
				EditorView.contentAttributes.of({ "aria-label": label, spellcheck: numbered ? "false" : "true" }),
				EditorView.lineWrapping,
				EditorState.readOnly.of(readOnly),
				history(),
				autocompletion({ override: [(context) => links(context, names)], icons: false }),
				// Tab goes on to the next field, as everywhere else.
				keymap.of([...completionKeymap, ...defaultKeymap, ...historyKeymap]),
				...(numbered ? [lineNumbers(), lintGutter()] : []),
				EditorView.updateListener.of((update) => {
					if (update.docChanged) onChange(update.state.doc.toString());
				}),
			],
		}),
	});
	return {
		take: (now) => {
			const before = view.state.doc.toString();
			if (now !== before) view.dispatch({ changes: { from: 0, to: before.length, insert: now } });
		},
		mark: (problems) => {
			const { doc } = view.state;
			const marks = problems.map(({ line, column, what, fix, severity }): Diagnostic => {
				const at = doc.line(Math.max(1, Math.min(line, doc.lines)));
				const from = Math.min(at.from + Math.max(0, column - 1), at.to);
				return { from, to: at.to, severity, message: `${what} ${fix}` };
			});
			view.dispatch(setDiagnostics(view.state, marks));
		},
		end: () => view.destroy(),
	};
}

/** What can stand between the brackets before the cursor. */
function links(context: CompletionContext, names: Names): CompletionResult | null {
	const before = context.matchBefore(/\[\[[^\]|]*$/);
	if (before === null) return null;
	const seen = new Set<string>();
	const options = LINKED.flatMap((kind) =>
		(names[kind] ?? []).map(({ id, name }) => {
			const label = seen.has(id) ? `${kind}:${id}` : id;
			seen.add(id);
			return { label: name, detail: label, apply: `${label}]]` };
		}),
	);
	return { from: before.from + 2, options, validFor: /^[^\]|]*$/ };
}
