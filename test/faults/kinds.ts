/** Every kind of fault. A fault that two kinds can make counts under the one that stands first. */
import type { FaultKind } from './fault';
import { dropCondition } from './kinds/conditions';
import { dropOperation } from './kinds/drop-operation';
import { changeFigure, loseTorque, stretchLowering } from './kinds/figures';
import { moveStep, swapSteps } from './kinds/order';
import { replacePart, undoNew } from './kinds/parts';
import { dropSide, swapSides } from './kinds/sides';
import { dropSupport, leaveAid } from './kinds/support';

export const FAULT_KINDS: readonly FaultKind[] = [
  dropSupport,
  leaveAid,
  loseTorque,
  undoNew,
  stretchLowering,
  changeFigure,
  dropCondition,
  dropSide,
  swapSides,
  replacePart,
  swapSteps,
  moveStep,
  dropOperation,
];
