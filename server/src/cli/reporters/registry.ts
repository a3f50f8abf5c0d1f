import { reportGithub } from './github';
import { reportJson } from './json';
import { reportJunit } from './junit';
import { reportMarkdown } from './markdown';
import type { Reporter } from './reporter';
import { reportSarif } from './sarif';
import { reportText } from './text';

/** Every format that `check --format` takes. */
export const reporters: Readonly<Record<string, Reporter>> = {
  text: reportText,
  json: reportJson,
  sarif: reportSarif,
  junit: reportJunit,
  github: reportGithub,
  markdown: reportMarkdown,
};
