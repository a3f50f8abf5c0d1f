import { REACHED } from '../../model/reached';
import type { Builtin } from './builtin';

/** What is told while a guide is bound, before anything runs: nothing looks on, and a house can still switch it and change its harm. */
export const TOLD_WHILE_BINDING: readonly Builtin[] = REACHED.map((name) => ({
  name,
  watch: () => ({ verbs: [] }),
}));
