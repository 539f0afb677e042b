/** A thread that fails, at once or later, is told to who asks, and nobody waits for it for ever. */

import { expect, it } from "vitest";
import { PostedThread } from "../../scripts/render/posts.ts";

const POSTS = new URL("../../scripts/render/posts.ts", import.meta.url).href;

/** A thread with a program of its own. */
function threadOf(program: string): PostedThread<string, string> {
	return new PostedThread(new URL(`data:text/javascript,${encodeURIComponent(program)}`));
}

it("answers in the order of asking", async () => {
	const thread = threadOf(
		`import { takePosts } from ${JSON.stringify(POSTS)}; await takePosts(async () => ({ take: (post) => post === "" ? undefined : post.toUpperCase() }));`,
	);
	const first = thread.ask("a");
	for (let i = 0; i < 40; i++) thread.post("");
	expect(await Promise.all([first, thread.ask("b"), thread.ask("c")])).toEqual(["A", "B", "C"]);
	await thread.close();
});

it("tells what taking a post failed with, and what that was caused by", async () => {
	const thread = threadOf(
		`import { takePosts } from ${JSON.stringify(POSTS)}; await takePosts(async () => ({ take() { throw new Error("not written", { cause: Object.assign(new Error("full"), { code: "ENOSPC", errno: -28 }) }); } }));`,
	);
	const failed = await thread.ask("a").catch((error: unknown) => error);
	expect(failed).toMatchObject({
		message: "not written",
		cause: { message: "full", code: "ENOSPC", errno: -28 },
	});
	await thread.close();
});

it("goes on where the thread died without a word, and says so when asked", { timeout: 30_000 }, async () => {
	const thread = threadOf('throw new Error("gone")');
	for (let i = 0; i < 18; i++) thread.post("a");
	await expect(thread.ask("b")).rejects.toThrow("gone");
	// By now it is known: no post waits any more.
	for (let i = 0; i < 100; i++) thread.post("a");
	await thread.close();
});
