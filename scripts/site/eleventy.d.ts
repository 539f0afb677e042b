declare module "@11ty/eleventy" {
	/** The parts of Eleventy that are used here; it ships no types of its own for them. */
	export default class Eleventy {
		constructor(
			input: string,
			output: string,
			options: {
				readonly configPath: string;
				readonly config: (config: { addGlobalData(name: string, data: () => unknown): void }) => void;
				readonly quietMode: boolean;
				readonly source: "script";
				readonly runMode: "build";
			},
		);
		disableLogger(): void;
		write(): Promise<unknown>;
	}
}
