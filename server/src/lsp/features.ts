import { actions } from './actions';
import { calls } from './calls';
import { checkWorkspace } from './check-workspace';
import { compare } from './compare';
import { completion } from './completion';
import type { Feature } from './context';
import { folding } from './folding';
import { format } from './format';
import { highlights } from './highlights';
import { hints } from './hints';
import { hover } from './hover';
import { lens } from './lens';
import { links } from './links';
import { navigation } from './navigation';
import { overview } from './overview';
import { preview } from './preview';
import { print } from './print';
import { rename } from './rename';
import { renamedFiles } from './renamed-files';
import { selection } from './selection';
import { semanticTokens } from './semantic-tokens';
import { symbols } from './symbols';
import { workspaceSymbols } from './workspace-symbols';

/** Every feature of the editor beside findings; a new one is a file beside this one and a place in this list. */
export const features: readonly Feature[] = [
  preview,
  print,
  compare,
  overview,
  checkWorkspace,
  hover,
  completion,
  actions,
  navigation,
  highlights,
  rename,
  renamedFiles,
  symbols,
  workspaceSymbols,
  selection,
  semanticTokens,
  calls,
  links,
  folding,
  format,
  lens,
  hints,
];
