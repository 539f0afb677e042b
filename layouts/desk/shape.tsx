/**
 * A shape's joints: each taken on the figure, by mouse, finger or arrow keys, or moved by its slider, with
 * the figure drawn as it moves.
 */

import { useMemo, useRef, useState } from "preact/hooks";
import { UNITS } from "../../scripts/figures/draw-body.ts";
import { drawFigure } from "../../scripts/figures/figure.ts";
import { type Point, poseOf } from "../../scripts/figures/pose.ts";
import { desk as say } from "../../scripts/words/en.ts";
import type { Field } from "./api.ts";
import { asData, type Data, withField } from "./data.ts";
import { angleTowards, type Joint, jointsOf, postureOf, STEP } from "./joints.ts";
import { speak } from "./talk.ts";

/** What the figures may be written with: they are drawn here, of numbers alone. */
const policy = (
	globalThis as {
		trustedTypes?: { createPolicy(name: string, rules: object): { createHTML(text: string): string } };
	}
).trustedTypes?.createPolicy("figures", { createHTML: (svg: string) => svg });

/** Pixels from the middle of a handle within which a press takes it. */
const NEAR = 32;

export function ShapeFields(props: {
	readonly value: Data;
	/** The form of its angles. */
	readonly field: Field | undefined;
	readonly readOnly: boolean;
	readonly onChange: (value: Data) => void;
}) {
	const { value, field, readOnly, onChange } = props;
	const angles = asData(value.angles);
	const hasSides = angles.left !== undefined || angles.right !== undefined;
	const [wantsSides, setSides] = useState(hasSides);
	const fields = field?.form.is === "group" ? field.form.fields : [];
	const joints = jointsOf(value, fields, wantsSides || hasSides);
	return (
		<section class="shape" aria-label={say.figure}>
			<Figure {...{ value, joints, readOnly, onChange }} />
			<div class="joints">
				{joints.map(({ name, least, most, value: degrees, set }) => (
					<label key={name} class="joint">
						<span>{name}</span>
						<input
							type="range"
							min={least}
							max={most}
							step={STEP}
							value={degrees}
							onInput={(event) => onChange(set(Number(event.currentTarget.value)))}
						/>
						<output>{degrees}°</output>
					</label>
				))}
				<label class="tick">
					<input
						type="checkbox"
						checked={wantsSides || hasSides}
						onChange={(event) => {
							setSides(event.currentTarget.checked);
							const { left: _left, right: _right, ...both } = angles;
							if (hasSides && !event.currentTarget.checked) onChange(withField(value, "angles", both));
						}}
					/>
					{say.sidesDiffer}
				</label>
			</div>
		</section>
	);
}

/** The drawing with a handle at each joint that can be taken on it. Long, since a drag needs what was drawn. */
function Figure(props: {
	readonly value: Data;
	readonly joints: readonly Joint[];
	readonly readOnly: boolean;
	readonly onChange: (value: Data) => void;
}) {
	const { value, joints, readOnly, onChange } = props;
	const name = typeof value.name === "string" ? value.name : "";
	const box = useRef<HTMLDivElement>(null);
	/** What is drawn while a joint is dragged keeps its scale. */
	const [frame, setFrame] = useState<string>();
	const latest = useRef({ value, joints });
	latest.current = { value, joints };
	const drawn = useMemo(() => {
		try {
			const words = { title: name, description: say.figureOf(name), idPrefix: "drawn-shape", size: 420 };
			return drawFigure(postureOf(value), words);
		} catch {
			return "";
		}
	}, [value, name]);
	const own = /viewBox="([^"]*)"/.exec(drawn)?.[1] ?? "0 0 1 1";
	const shown = frame ?? own;
	const [left = 0, top = 0, side = 1] = shown.split(" ").map(Number);
	const svg = drawn.replace(own, shown);
	const pose = drawn === "" ? undefined : poseOf(postureOf(value));
	const handles = joints.flatMap((joint) => {
		const at = pose && joint.taken?.(pose)[1];
		return at === undefined
			? []
			: [{ joint, x: (at.x * UNITS - left) / side, y: (-at.y * UNITS - top) / side }];
	});
	const drag = (event: PointerEvent): void => {
		const area = box.current?.getBoundingClientRect();
		if (area === undefined || readOnly || event.button !== 0) return;
		const away = ({ x, y }: Point) =>
			Math.hypot(area.left + x * area.width - event.clientX, area.top + y * area.height - event.clientY);
		const [taken] = handles.toSorted((a, b) => away(a) - away(b));
		if (taken === undefined || away(taken) > NEAR) return;
		event.preventDefault();
		const handle = box.current?.querySelector<HTMLElement>(`[aria-label="${taken.joint.name}"]`);
		handle?.focus();
		setFrame(own);
		// It is moved by as much as the pointer, wherever it was taken.
		const byX = area.left + taken.x * area.width - event.clientX;
		const byY = area.top + taken.y * area.height - event.clientY;
		const listening = new AbortController();
		const { signal } = listening;
		let last = taken.joint.value;
		const move = (now: PointerEvent): void => {
			const { value: shape, joints: all } = latest.current;
			const joint = all.find((one) => one.name === taken.joint.name);
			if (joint === undefined) return;
			const to = {
				x: (left + ((now.clientX + byX - area.left) / area.width) * side) / UNITS,
				y: -(top + ((now.clientY + byY - area.top) / area.height) * side) / UNITS,
			};
			const degrees = angleTowards(joint, shape, to);
			if (degrees === last) return;
			last = degrees;
			onChange(joint.set(degrees));
		};
		const end = (): void => {
			listening.abort();
			setFrame(undefined);
			if (last !== taken.joint.value) speak(say.jointAt(taken.joint.name, last));
		};
		window.addEventListener("pointermove", move, { signal });
		window.addEventListener("pointerup", end, { signal });
		window.addEventListener("pointercancel", end, { signal });
	};
	return (
		<div class="figure">
			<div class="figure-box" ref={box}>
				{/* Drawn by scripts/figures of numbers; names are escaped there. */}
				<div dangerouslySetInnerHTML={{ __html: policy?.createHTML(svg) ?? svg }} />
				{!readOnly &&
					handles.map(({ joint, x, y }) => (
						<Handle key={joint.name} {...{ joint, x, y, onChange }} onTake={drag} />
					))}
			</div>
			{!readOnly && <p class="help">{say.jointsHint}</p>}
		</div>
	);
}

/** Degrees that a key moves a joint by. */
const KEYS: Readonly<Record<string, number>> = {
	ArrowRight: STEP,
	ArrowUp: STEP,
	ArrowLeft: -STEP,
	ArrowDown: -STEP,
	PageUp: 3 * STEP,
	PageDown: -3 * STEP,
	Home: Number.NEGATIVE_INFINITY,
	End: Number.POSITIVE_INFINITY,
};

function Handle(props: {
	readonly joint: Joint;
	readonly x: number;
	readonly y: number;
	readonly onChange: (value: Data) => void;
	readonly onTake: (event: PointerEvent) => void;
}) {
	const { joint, x, y, onChange, onTake } = props;
	const { name, least, most, value, set } = joint;
	return (
		<div
			class="joint-handle"
			role="slider"
			tabIndex={0}
			aria-label={name}
			aria-valuemin={least}
			aria-valuemax={most}
			aria-valuenow={value}
			aria-valuetext={`${value}°`}
			data-said={`${name} ${value}°`}
			ref={(element) => {
				// A style of its own is a property here: the page allows no style attributes.
				if (element === null) return;
				element.style.left = `${x * 100}%`;
				element.style.top = `${y * 100}%`;
			}}
			onPointerDown={onTake}
			// The handle nearest to the press has the focus, whichever lies on top.
			onMouseDown={(event) => event.preventDefault()}
			onKeyDown={(event) => {
				const by = KEYS[event.key];
				if (by === undefined) return;
				event.preventDefault();
				const degrees = Math.min(most, Math.max(least, value + (event.shiftKey ? Math.sign(by) : by)));
				if (degrees !== value) onChange(set(degrees));
			}}
		/>
	);
}
