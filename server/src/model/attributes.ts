/** What a kind or a part says beside its places in the graph. */

import { type Body, cursorOf, flagOf, textOf } from './body';
import type { Attributes } from './model';

/** @param line the kind and its ancestors; a wheel is what descends from the kind `wheel`. */
export function attributesOf(body: Body, line: readonly string[]): Attributes {
  return {
    system: textOf(body, 'system'),
    axle: flagOf(body, 'axle'),
    arm: flagOf(body, 'arm'),
    wheel: line.includes('wheel'),
    bushed: flagOf(body, 'bushed'),
    structural: flagOf(body, 'structural'),
    limitsDrop: flagOf(body, 'limits-drop'),
    storesEnergy: flagOf(body, 'stores-energy'),
    inflates: flagOf(body, 'inflates'),
    hub: flagOf(body, 'hub'),
    adjusted: flagOf(body, 'adjusted'),
    reach: cursorOf(body, 'reach')?.value === 'outside' ? 'outside' : 'beneath',
  };
}
