import { TOLD_WHILE_BINDING } from '../../model/told-while-binding';
import type { Builtin } from './builtin';

/** What is told while a guide is bound, before anything runs: nothing looks on, and a house can still switch it and change its harm. */
export const toldWhileBinding: readonly Builtin[] = TOLD_WHILE_BINDING.map((name) => ({
  name,
  watch: () => ({ verbs: [] }),
}));
