/** What a change does to what the measures find, and, before it is made, what it would write. */

import type { ComponentChildren } from "preact";
import { desk as say } from "../../scripts/words/en.ts";
import type { Outcome } from "./api.ts";
import { withoutCode } from "./findings.tsx";
import { Reading } from "./parts.tsx";

/** Findings that came and went: how many, and which. */
export function ComeAndGone({ come, gone }: Pick<Outcome, "come" | "gone">) {
	return (
		<>
			<p>{say.findingsAfter(come.length, gone.length)}</p>
			{come.length + gone.length > 0 && (
				<details>
					<summary>{say.whichOnes}</summary>
					<ul>
						{come.map((one) => (
							<li key={one.key} class="come">
								<b aria-hidden="true">+</b> <span class="sr">{say.cameOne}</span> {withoutCode(one.what)}
							</li>
						))}
						{gone.map((one) => (
							<li key={one.key} class="gone">
								<b aria-hidden="true">−</b> <span class="sr">{say.wentOne}</span> {withoutCode(one.what)}
							</li>
						))}
					</ul>
				</details>
			)}
		</>
	);
}

/** A change before it is made; what can be done with it stands in it. */
export function Tried(props: { readonly outcome: Outcome; readonly children: ComponentChildren }) {
	const { come, gone, lines = [] } = props.outcome;
	return (
		<section class="tried" aria-label={say.wouldWrite}>
			<ComeAndGone come={come} gone={gone} />
			<Reading label={say.wouldWrite} text={lines.join("\n")} />
			{props.children}
		</section>
	);
}
