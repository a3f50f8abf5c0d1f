/** Ids of what is told while a guide is bound, or of a kit by itself, and may be meant so: rules of the pack `writing`, which a house can switch, change and waive. */
export const TOLD_WHILE_BINDING: readonly string[] = [
  'never-done',
  'always-so',
  'figure-never-used',
  'figure-gap',
  'choice-gap',
  'choice-overlap',
  'setting-replaced',
  'words-against-data',
  'side-against-words',
  'name-against-words',
  'one-side-alone',
  'picture-without-words',
  'line-too-short',
  'clearance-gap',
  'clearance-overlap',
  'clearance-falls',
];
