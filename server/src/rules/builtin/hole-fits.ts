import { clearanceHoles, type Fit, fitOf, tapDrill } from '../../calc/holes';
import { parseThread, type Thread } from '../../calc/threads';
import type { BoundOperation, Hole } from '../../model/model';
import { flag } from '../../simulate/watcher';
import type { Builtin } from './builtin';
import { ALLOWED_MM } from './drilled-oversize';

/** The size that a hole has after this drill, mm; null for a pilot or a step, and where nothing says it. */
function sizeAfter(hole: Hole, { to }: BoundOperation): number | null {
  if (to === null) return hole.size;
  return hole.size !== null && to.nominal < hole.size - ALLOWED_MM ? null : to.nominal;
}

function holeFits(
  name: string,
  tells: (hole: Hole, size: number) => Readonly<Record<string, string>> | null,
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
        if (facts !== null && size !== null)
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
    if (thread === null || holes === undefined || !fits.includes(fitOf(thread, size))) return null;
    return { bolt: String(bolt), fine: inMm(holes.fine), coarse: inMm(holes.coarse) };
  });

/** A bolt goes through the hole that is drilled for it. */
export const holeTooSmall = clearance('hole-too-small', 'too-small');
/** Between the bolt and the fine clearance: allowed, and noted. */
export const holeCloseFit = clearance('hole-close-fit', 'close');
/** Wider than the coarse clearance: the head has little to bear on. */
export const holeTooWide = clearance('hole-too-wide', 'wide');

/** Threads are cut deeper than this share of the full depth, or strip; and not deeper than all of it. Common practice. */
const LEAST_DEPTH = 0.5;
/** Depth of a full thread over its pitch, both sides (ISO 68-1). */
const FULL_DEPTH = 1.0825;

/** A hole to be tapped has the drill of its thread. */
export const tapDrillWrong = holeFits('tap-drill-wrong', ({ tap }, size) => {
  const thread = threadOf(tap);
  if (thread === null) return null;
  const most = thread.diameter - LEAST_DEPTH * 1.299 * thread.pitch;
  const least = thread.diameter - FULL_DEPTH * thread.pitch - 0.1;
  if (size >= least && size <= most + 0.05) return null;
  return {
    thread: String(tap),
    drill: inMm(tapDrill(thread)),
    what: size > most ? 'leaves too little thread' : 'leaves too much for the tap',
  };
});

function threadOf(text: string | null): Thread | null {
  const read = text === null ? null : parseThread(text);
  return read?.ok === true ? read.thread : null;
}

const inMm = (size: number): string => `${Math.round(size * 100) / 100} mm`;
