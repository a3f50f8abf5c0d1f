import type { Harm } from '../findings/finding';
import { severityOf } from '../findings/finding';
import { resolvePath } from '../workspace/paths';
import type { Project } from '../workspace/project';
import type { Colours } from './colours';
import { type Io, ReadError } from './io';

/** What the works of `kitproof rules` have in common. */
export interface RulesPage {
  readonly io: Io;
  readonly project: Project;
  readonly colours: Colours;
  readonly format: 'text' | 'json';
}

/** The name that stands for a path of the command line: of a folder, something in it. */
export async function nameFor(io: Io, path: string | undefined): Promise<string> {
  const name = resolvePath(io.folder, path ?? '.');
  const kind = await io.files.kind(name);
  if (kind === null && path !== undefined)
    throw new ReadError(`Cannot read ${path}: there is no such file or folder.`);
  return kind === 'file' ? name : resolvePath(name, 'any');
}

/** Cells across. */
export const widthOfPage = (io: Io): number => Math.max(60, Math.min(io.columns ?? 80, 100));

/** A harm in its colour: that of the severity it has of itself. */
export function harmIn(colours: Colours, harm: Harm, text: string = harm): string {
  const severity = severityOf(harm);
  return severity === 'error' ? colours.red(text) : severity === 'warning' ? colours.yellow(text) : text;
}
