/** What binding an operation needs of the guide it stands in. */

import type { Condition } from '../variants/condition';
import type { Diagram } from '../variants/diagram';
import type { World } from '../variants/world';
import type { AidTable } from './aids';
import type { ConditionReader } from './conditions';
import type { Guards } from './guards';
import type { QuantityReader } from './measures';
import type { Report } from './report';
import type { Frame } from './runs';
import type { Targets } from './targets';

export interface OperationScope {
  readonly world: World;
  /** The variants that the guide covers. */
  readonly universe: Diagram;
  /** What the guide that it follows covers; null where it follows none. */
  readonly before: Condition | null;
  readonly reader: ConditionReader;
  readonly guards: Guards;
  readonly targets: Targets;
  readonly aids: AidTable;
  readonly report: Report;
  readonly quantities: QuantityReader;
  /** Keys of `places`, each with the places there are. */
  readonly placeKeys: ReadonlyMap<string, readonly string[]>;
  readonly withoutVehicle: boolean;
  /** The guide itself. */
  readonly main: Frame;
}
