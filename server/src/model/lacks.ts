/** Parts that a guide fits and nobody has: neither the kit, nor the vehicle from which they could have come off. */

import type { BoundStep, Part, StateEntry } from './model';
import { type Report, shown } from './report';

const FITS: ReadonlySet<string> = new Set(['fit', 'bolt-up']);

/** A warning at the first operation that fits such a part, in guides that name a kit. */
export function checkKitLacks(
  steps: readonly BoundStep[],
  given: readonly StateEntry[],
  withoutVehicle: boolean,
  report: Report,
): void {
  const seen = new Set<Part>();
  for (const { target } of given) if (target.type === 'part') seen.add(target.part);
  for (const step of steps) {
    for (const operation of step.operations) {
      for (const target of operation.targets) {
        const part =
          target.type === 'part' ? target.part : target.type === 'joint' ? target.joint.part : null;
        if (part === null || part.origin !== 'implied' || seen.has(part)) continue;
        seen.add(part);
        // What the guide took off before, it may put back.
        if (!FITS.has(operation.verb) || step.path.includes('/')) continue;
        const who = withoutVehicle ? 'The kit does not have' : 'Neither the kit nor the vehicle has';
        const place = { uri: operation.place.uri, span: target.span };
        report.add('kit-lacks-part', place, `${who} "${shown(part.name)}", which is fitted here.`, {
          severity: 'warning',
          item: part.name,
        });
      }
    }
  }
}
