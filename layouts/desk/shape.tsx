/** A shape's joints: each moved by its slider, with the figure drawn as it moves. */

import { useMemo } from "preact/hooks";
import { drawFigure } from "../../scripts/figures/figure.ts";
import type { Angles, Base } from "../../scripts/model.ts";
import { angles as jointWords, desk as say } from "../../scripts/words/en.ts";
import { withField } from "./fields.tsx";

type Data = Readonly<Record<string, unknown>>;

/** Joints with the degrees that the schema allows, and what they are where nothing is said. */
const JOINTS = [
	["shoulder", -120, 240, 0],
	["elbow", 20, 200, 180],
	["hip", 0, 280, 180],
	["knee", 0, 200, 180],
	["ankle", 40, 200, 90],
	["trunk", -90, 90, 0],
	["spread", 0, 200, 0],
] as const;

/** What the figures may be written with: they are drawn here, of numbers alone. */
const policy = (
	globalThis as {
		trustedTypes?: { createPolicy(name: string, rules: object): { createHTML(text: string): string } };
	}
).trustedTypes?.createPolicy("figures", { createHTML: (svg: string) => svg });

export function ShapeFields({
	value,
	onChange,
}: {
	readonly value: Data;
	readonly onChange: (value: Data) => void;
}) {
	const angles = numbersIn(value.angles);
	const tilt = typeof value.tilt === "number" ? value.tilt : 0;
	const base = typeof value.base === "string" ? value.base : "feet";
	const view = value.view === "front" ? "front" : "side";
	const name = typeof value.name === "string" ? value.name : "";
	const drawn = useMemo(() => {
		try {
			const posture = { angles: angles as Angles, tilt, base: base as Base, view } as const;
			const svg = drawFigure(posture, {
				title: name,
				description: say.figureOf(name),
				idPrefix: "drawn-shape",
				size: 260,
			});
			return policy?.createHTML(svg) ?? svg;
		} catch {
			return "";
		}
	}, [JSON.stringify(angles), tilt, base, view, name]);
	const setAngle = (joint: string, degrees: number): void =>
		onChange(withField(value, "angles", { ...angles, [joint]: degrees }));
	return (
		<section class="shape" aria-label={say.figure}>
			{/* Drawn by scripts/figures of numbers; names are escaped there. */}
			<div class="figure" dangerouslySetInnerHTML={{ __html: drawn }} />
			<div class="joints">
				{JOINTS.map(([joint, least, most, usual]) => (
					<Joint
						key={joint}
						name={nameOfJoint(joint)}
						least={least}
						most={most}
						value={angles[joint] ?? usual}
						onChange={(degrees) => setAngle(joint, degrees)}
					/>
				))}
				<Joint
					name={jointWords.lean.name}
					least={-180}
					most={180}
					value={tilt}
					onChange={(degrees) => onChange(withField(value, "tilt", degrees))}
				/>
			</div>
		</section>
	);
}

function nameOfJoint(joint: (typeof JOINTS)[number][0]): string {
	if (joint === "trunk") return jointWords.trunk.name;
	if (joint === "spread") return jointWords.spread.name;
	return jointWords.joints[joint].name;
}

function Joint(props: {
	readonly name: string;
	readonly least: number;
	readonly most: number;
	readonly value: number;
	readonly onChange: (value: number) => void;
}) {
	const { name, least, most, value, onChange } = props;
	return (
		<label class="joint">
			<span>{name}</span>
			<input
				type="range"
				min={least}
				max={most}
				step={5}
				value={value}
				onInput={(event) => onChange(Number(event.currentTarget.value))}
			/>
			<output>{value}°</output>
		</label>
	);
}

function numbersIn(value: unknown): Readonly<Record<string, number>> {
	return typeof value === "object" && value !== null ? (value as Readonly<Record<string, number>>) : {};
}
