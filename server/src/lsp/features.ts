import { actions } from './actions';
import { checkWorkspace } from './check-workspace';
import { completion } from './completion';
import type { Feature } from './context';
import { folding } from './folding';
import { hints } from './hints';
import { hover } from './hover';
import { lens } from './lens';
import { links } from './links';
import { navigation } from './navigation';
import { preview } from './preview';
import { symbols } from './symbols';

/** Every feature of the editor beside findings; a new one is a file beside this one and a place in this list. */
export const features: readonly Feature[] = [
  preview,
  checkWorkspace,
  hover,
  completion,
  actions,
  navigation,
  symbols,
  links,
  folding,
  lens,
  hints,
];
