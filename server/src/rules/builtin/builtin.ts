/** A rule that the engine works out itself from the assembly graph; its words, harm and parameters stand in a pack. */

import type { Watcher } from '../../simulate/watcher';

export interface Settings {
  /** Strict form of `loosen-before-remove`, from `kitproof.yaml`. */
  readonly strictLoosening: boolean;
  /** Parameters that the pack gives (`with:`), by name. */
  readonly parameter: (name: string) => unknown;
}

export interface Builtin {
  /** Its name and the id of its rule (schemas/semantics.md §5, §6). */
  readonly name: string;
  /** The settings that a pack may give it under `with:`, and what each is. */
  readonly settings?: Readonly<Record<string, 'number' | 'words'>>;
  watch(settings: Settings): Omit<Watcher, 'rule'>;
}
