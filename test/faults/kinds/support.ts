/** What holds something up or back and was forgotten, and what was left behind. */
import type { Document } from 'yaml';
import { type Fault, type FaultKind, inWords, leavingOut } from '../fault';

const HOLDING = ['support', 'hold', 'chock', 'compress'];
const TAKING_AWAY = ['unsupport', 'release', 'relax', 'unchock', 'withdraw'];

export const dropSupport: FaultKind = {
  name: 'drop a support',
  faults: (guide) => {
    const lowered: Fault[] = guide.operations
      .filter(({ raw }) => raw.onto !== undefined)
      .map((operation) => ({
        where: operation.step.where,
        says: `${inWords(operation)} onto nothing`,
        change: (document: Document) => {
          document.deleteIn([...operation.path, 'onto']);
        },
      }));
    const alone: Fault[] = guide.steps
      .filter(({ raw }) => Number(raw.people) > 1)
      .map(({ path, where }) => ({
        where,
        says: 'by one person alone',
        change: (document: Document) => {
          document.deleteIn([...path, 'people']);
        },
      }));
    return [...leavingOut(guide, ({ verb }) => HOLDING.includes(verb)), ...lowered, ...alone];
  },
};

export const leaveAid: FaultKind = {
  name: 'leave an aid on',
  faults: (guide) => leavingOut(guide, ({ verb }) => TAKING_AWAY.includes(verb)),
};
