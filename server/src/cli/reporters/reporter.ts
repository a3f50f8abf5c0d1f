import type { ProjectCheck } from '../../workspace/check';
import type { Made } from '../../workspace/mend';
import type { Colours } from '../colours';

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
}

/** Turns a check into what is printed. One file each, registered in `registry.ts`. */
export type Reporter = (check: ProjectCheck, context: ReportContext) => string;
