import { reportJson } from './json';
import type { Reporter } from './reporter';
import { reportText } from './text';

/** Every format that `check --format` takes. */
export const reporters: Readonly<Record<string, Reporter>> = {
  text: reportText,
  json: reportJson,
};
