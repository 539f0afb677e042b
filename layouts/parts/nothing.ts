/**
 * What is left of a view once a rendering has taken its fields. `rest satisfies Nothing` after
 * `const { …, ...rest } = view` makes a field that a view gains a type error in every rendering of it: on
 * a page and on paper. A field that a rendering leaves out is taken as `_field`, with the reason beside it;
 * one that is taken and not used is an error of lint.
 */
export type Nothing = Readonly<Record<string, never>>;
