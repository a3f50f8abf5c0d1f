/** Many findings mended in one go, each after the other, with the guide checked anew between. */

import { DEBTS } from '../check/repairs/debts';
import type { PlanKind } from '../check/repairs/repair';
import { applyEdits, editsByDocument } from '../edit/apply';
import type { Edit, Finding } from '../findings/finding';
import { type Checked, checkedGuide, editsBetween } from './checked-guide';
import { fixesFor } from './fixes';
import { withTexts } from './rebound';

/** What mending many came to. */
export interface Mended {
  readonly edits: readonly Edit[];
  /** What was done, in order. */
  readonly titles: readonly string[];
  /** The findings that were mended. */
  readonly findings: readonly Finding[];
  /** How many of those that were wanted are left. */
  readonly left: number;
}

export interface Many {
  /** Which findings are to be mended. */
  readonly wanted: (finding: Finding) => boolean;
  /** Take the last that stands in the guide first: debts are closed in reverse order of opening. */
  readonly lastFirst?: boolean;
  readonly kinds?: readonly PlanKind[] | undefined;
  /** What may be mended in halves where nothing else goes on: what such a half leaves is mended later. */
  readonly brings?: ((fresh: Finding, mended: Finding) => boolean) | undefined;
}

/** Findings that are mended in one go, at most, and runs of the check for each and for all. */
const MOST_FINDINGS = 60;
const RUNS_EACH = 24;
const MOST_ROUNDS = 80;

/** A guide while it is mended. */
interface State {
  readonly checked: Checked;
  readonly titles: readonly string[];
  readonly findings: readonly Finding[];
}

/** What was put in is mended where it stands, or by more work: never by moving the writer's own steps. */
const OTHER_HALF: Pick<Many, 'kinds'> = { kinds: ['in place', 'insert'] };

/** Mends the findings that are wanted, as far as that can be; null where none can. */
export function* mendMany(
  checked: Checked,
  today: string,
  many: Many,
): Generator<unknown, Mended | null, void> {
  const { brings, lastFirst = false } = many;
  let state: State = { checked, titles: [], findings: [] };
  /** As it was before something was mended in halves: it counts where the other half cannot be done. */
  let whole: State | null = null;
  const brought = new Set<string>();
  const given = new Set<string>();
  const isBrought = (one: Finding) => brought.has(matterOf(one));
  let before = 0;
  let inHalves = false;
  for (let round = 0; round < MOST_ROUNDS && state.findings.length < MOST_FINDINGS; round++) {
    const current = state.checked;
    const isNew = (one: Finding) => !given.has(keyOf(current, one));
    // The other halves come last: what they wait for may be among the rest.
    const target =
      next(current, (one) => many.wanted(one) && isNew(one), lastFirst) ??
      next(current, (one) => isBrought(one) && isNew(one), lastFirst);
    if (target === null) {
      // What could not be mended by itself may be, now that others are.
      const stuck = state.findings.length === before;
      if (stuck && (inHalves || brings === undefined)) break;
      inHalves = stuck;
      before = state.findings.length;
      given.clear();
      continue;
    }
    given.add(keyOf(current, target));
    const how = isBrought(target) ? OTHER_HALF : inHalves ? many : { kinds: many.kinds };
    const mended = yield* mendOne(state, target, today, how);
    if (mended === null) continue;
    if (inHalves) {
      whole ??= state;
      for (const one of mended.checked.findings) if (brings?.(one, target)) brought.add(matterOf(one));
    }
    state = mended;
  }
  const isLeft = state.checked.findings.some(isBrought);
  const { titles, findings, checked: after } = isLeft && whole !== null ? whole : state;
  if (findings.length === 0) return null;
  return {
    edits: editsBetween(checked, after),
    titles,
    findings,
    left: after.findings.filter(many.wanted).length,
  };
}

/** The first fix of a finding made, and the guide checked anew; null where there is none. */
function* mendOne(
  { checked, titles, findings }: State,
  target: Finding,
  today: string,
  { kinds, brings }: Pick<Many, 'kinds' | 'brings'>,
): Generator<unknown, State | null, void> {
  const own: Checked = { ...checked, texts: new Map() };
  const [fix] = yield* fixesFor(own, target, today, { runs: RUNS_EACH, fixes: 1, kinds, brings });
  if (fix === undefined) return null;
  const texts = new Map(checked.texts);
  for (const [uri, edits] of editsByDocument(fix.edits)) {
    const text = checked.closure.documents.get(uri)?.text;
    const made = text === undefined ? null : applyEdits(text, edits);
    if (made !== null) texts.set(uri, made);
  }
  const closure = withTexts(checked.closure, texts);
  if (closure === null) return null;
  return {
    checked: yield* checkedGuide(closure, today, texts),
    titles: [...titles, fix.title],
    findings: [...findings, target],
  };
}

const matterOf = ({ rule, item }: Finding): string => `${rule}\n${item ?? ''}`;

/** All findings of a rule in one document. */
export const ofRule = (rule: string, uri: string): Many => ({
  wanted: (finding) => finding.rule === rule && finding.place.uri === uri,
});

/** The open list, closed in reverse order of opening. */
export const openList: Many = {
  wanted: ({ rule }) => DEBTS.has(rule),
  lastFirst: true,
  // A part goes back on in the air; its bushed joints are tightened later once there is a step that lowers the vehicle.
  brings: (fresh, { rule, item = '' }) =>
    (rule === 'left-off' || rule === 'left-loose') &&
    fresh.rule === 'torque-off-ride-height' &&
    fresh.item?.split('.')[0] === item.split('.')[0],
};

/** Steps moved into an order in which less is found. */
export const order: Many = { wanted: ({ operation }) => operation !== undefined, kinds: ['move'] };

function next(
  { findings }: Checked,
  wanted: (finding: Finding) => boolean,
  lastFirst: boolean,
): Finding | null {
  const found = findings.filter(wanted).sort((a, b) => a.place.span.start - b.place.span.start);
  return (lastFirst ? found[found.length - 1] : found[0]) ?? null;
}

/** What a finding is known by while the text around it changes: the words where it stands are part of it. */
function keyOf({ closure }: Checked, { rule, item, place, sides }: Finding): string {
  const words = closure.documents.get(place.uri)?.text.slice(place.span.start, place.span.end) ?? '';
  return [rule, item ?? '', (sides ?? []).join(), words].join('\n');
}
