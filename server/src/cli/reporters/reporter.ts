import type { Severity } from '../../findings/finding';
import type { Rule } from '../../rules/rule';
import type { ProjectCheck } from '../../workspace/check';
import type { Made } from '../../workspace/mend';
import type { Colours } from '../colours';
import type { Sharded, Since } from '../merge';

export interface ReportContext {
  /** The folder that file names are shown from. */
  readonly folder: string;
  readonly colours: Colours;
  /** Cells across. */
  readonly columns: number;
  /** List what was not decided. */
  readonly undecided: boolean;
  /** List what is waived. */
  readonly waived: boolean;
  /** What was fixed before the check; null where nothing was to be. */
  readonly fixed: readonly Made[] | null;
  /** How many findings an earlier report knew, which are left out; null where none was given. */
  readonly before: number | null;
  /** The revision since which something changed in what was checked; null where all was. */
  readonly since: Since | null;
  /** Of which share this is; null where it is the whole. */
  readonly sharded: Sharded | null;
  /** Whether findings so severe make the exit status. */
  fails(severity: Severity): boolean;
  /** What is known of a rule; undefined of findings of reading, of names and of binding. */
  rule(id: string): Rule | undefined;
  /** Of the program. */
  readonly version: string;
}

/** Turns a check into what is printed. One file each, registered in `registry.ts`. */
export type Reporter = (check: ProjectCheck, context: ReportContext) => string;
