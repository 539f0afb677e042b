// Eleventy looks for no configuration in TypeScript by itself.
export { default } from "./eleventy.config.ts";
