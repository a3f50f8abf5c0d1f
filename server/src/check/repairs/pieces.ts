/** Pieces that come new with a joint. */

import { together } from '../../edit/apply';
import { inPlace } from './figures';
import { eventsOn, type Fault, type Plan } from './repair';

/** `new-locking-nut`, `new-seal`, `new-stretch-bolt`: the piece is new where the joint gets its final torque. */
export function* newPiece(fault: Fault): Generator<Plan | null> {
  const { path, guide, operation } = fault;
  const piece = fault.fact('piece');
  if (path === null || piece === '') return;
  yield inPlace(
    `Take a new ${piece.replaceAll('-', ' ')} (new: [${piece}])`,
    guide.addWord(path, 'new', piece),
  );
  const pieces = fault.raw.map(({ facts }) => facts.piece ?? '').filter((one) => one !== '');
  const all = [...new Set(pieces)];
  if (all.length > 1 && operation !== null) {
    const list = [...new Set([...operation.newPieces, ...all])];
    yield inPlace(`Take new pieces (new: [${list.join(', ')}])`, guide.setKey(path, 'new', list));
  }
}

/** `left-without-pin`: a new pin with the last torque of the joint. */
export function* newPin(fault: Fault): Generator<Plan | null> {
  const torqued = eventsOn(fault, ['torque'], [fault.finding.item ?? '']);
  const last = torqued[torqued.length - 1];
  if (last === undefined || last.operation.path.includes('/')) return;
  yield inPlace(
    'Put a new pin in after the torque (new: [pin])',
    fault.guide.addWord(last.operation.path, 'new', 'pin'),
  );
}

/** `pin-after-torque`: the pin comes with the torque, and the operation that brought it too early goes. */
export function* pinWithTorque(fault: Fault): Generator<Plan | null> {
  const { path, guide, event } = fault;
  if (path === null || event?.subject.type !== 'piece') return;
  const later = eventsOn(fault, ['torque'], [event.subject.joint.full]).find(({ run }) => run > event.run);
  if (later === undefined || later.operation.path.includes('/')) return;
  const added = later.operation.newPieces.includes('pin')
    ? []
    : guide.addWord(later.operation.path, 'new', 'pin');
  yield inPlace('Put the pin in with the torque (new: [pin])', together(guide.removeOperation(path), added));
}
