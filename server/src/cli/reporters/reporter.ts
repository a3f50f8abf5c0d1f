import type { ProjectCheck } from '../../workspace/check';
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
}

/** Turns a check into what is printed. One file each, registered in `registry.ts`. */
export type Reporter = (check: ProjectCheck, context: ReportContext) => string;
