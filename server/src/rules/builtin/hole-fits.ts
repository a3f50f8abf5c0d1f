import { clearanceHoles, type Fit, fitOf, suitsTap, tapDrill } from '../../calc/holes';
import { parseThread, type Thread } from '../../calc/threads';
import type { BoundOperation, Hole } from '../../model/model';
import { ask, flag } from '../../simulate/watcher';
import type { Builtin } from './builtin';
import { ALLOWED_MM } from './drilled-oversize';

/** The size that a hole has after this drill, mm; null for a pilot or a step, and where nothing says it. */
function sizeAfter(hole: Hole, { to }: BoundOperation): number | null {
  if (to === null) return hole.size;
  return hole.size !== null && to.nominal < hole.size - ALLOWED_MM ? null : to.nominal;
}

/** @param tells null where the rule is not about this hole, `true` where the hole is as it must be. */
function holeFits(
  name: string,
  tells: (hole: Hole, size: number) => Readonly<Record<string, string>> | true | null,
): Builtin {
  return {
    name,
    watch: () => ({
      verbs: ['drill'],
      before(sim, branch, event) {
        const { subject, operation } = event;
        if (subject.type !== 'hole') return undefined;
        const { hole } = subject;
        const size = sizeAfter(hole, operation);
        const facts = size === null ? null : tells(hole, size);
        if (facts !== null) ask(sim, branch, event, name);
        if (facts !== null && facts !== true && size !== null)
          flag(sim, branch, event, name, hole.full, { facts: { size: inMm(size), ...facts } });
        return undefined;
      },
    }),
  };
}

const clearance = (name: string, ...fits: readonly Fit[]): Builtin =>
  holeFits(name, ({ bolt }, size) => {
    const thread = threadOf(bolt);
    const holes = thread === null ? undefined : clearanceHoles(thread);
    if (thread === null || holes === undefined) return null;
    if (!fits.includes(fitOf(thread, size))) return true;
    return { bolt: String(bolt), fine: inMm(holes.fine), coarse: inMm(holes.coarse) };
  });

/** A bolt goes through the hole that is drilled for it. */
export const holeTooSmall = clearance('hole-too-small', 'too-small');
/** Between the bolt and the fine clearance: allowed, and noted. */
export const holeCloseFit = clearance('hole-close-fit', 'close');
/** Wider than the coarse clearance: the head has little to bear on. */
export const holeTooWide = clearance('hole-too-wide', 'wide');

/** A hole to be tapped has the drill of its thread, for a tap that cuts or one that forms. */
export const tapDrillWrong = holeFits('tap-drill-wrong', ({ tap }, size) => {
  const thread = threadOf(tap);
  if (thread === null) return null;
  if (suitsTap(thread, size)) return true;
  const drill = tapDrill(thread);
  return {
    thread: String(tap),
    drill: inMm(drill),
    what: size > drill ? 'leaves too little thread' : 'is too narrow for the tap',
  };
});

function threadOf(text: string | null): Thread | null {
  const read = text === null ? null : parseThread(text);
  return read?.ok === true ? read.thread : null;
}

const inMm = (size: number): string => `${Math.round(size * 100) / 100} mm`;
