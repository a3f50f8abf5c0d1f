/** An operation that was forgotten. */
import { type FaultKind, leavingOut } from '../fault';

export const dropOperation: FaultKind = {
  name: 'drop an operation',
  faults: (guide) => leavingOut(guide, () => true),
};
