/** Two guides of one job, the second going on from the first: that both speak of the same vehicle, and of the same state of it. */

import { declaredIn, firstOf } from './bindings';
import type { StateEntry, Target } from './model';
import { listed, shown } from './report';
import { bound, type Runs } from './runs';
import type { OperationScope } from './scope';
import { Cursor, type Library, type OpenDocument, textAt } from './source';
import { thingOfTarget } from './target';
import { declares } from './usage';
import { VERBS } from './verbs';

interface HandOver {
  /** `follows` of the guide at hand, and the guide it names. */
  readonly path: Cursor;
  readonly first: OpenDocument;
  /** What that leaves, as it is written there, and what the guide at hand says it is given. */
  readonly left: readonly StateEntry[];
  readonly given: readonly StateEntry[];
  /** Names that it fits, connects or scraps, and that the guide at hand does not know. */
  readonly unknown: ReadonlySet<string>;
  /** Its steps. */
  readonly last: Runs;
}

/**
 * Reports what does not fit, at the guide that follows.
 * @returns what the first guide leaves and the second says it is given in another state.
 */
export function checkHandOver(
  handOver: HandOver,
  scope: OperationScope,
  library: Library,
): ReadonlySet<StateEntry> {
  if (isOtherVehicle(handOver, scope, library)) return new Set();
  reportUncovered(handOver, scope);
  reportLost(handOver, scope, library);
  return reportGiven(handOver, scope);
}

function isOtherVehicle({ path, first }: HandOver, { report }: OperationScope, library: Library): boolean {
  const [here, there] = [path.document, first].map((guide) => {
    const written = textAt(Cursor.of(guide), 'vehicle');
    return written === null ? null : library.document(library.resolve(guide.uri, written));
  });
  if (here?.kind !== 'vehicle' || there?.kind !== 'vehicle' || here.uri === there.uri) return false;
  const names = [there, here].map((one) => textAt(Cursor.of(one), 'name') ?? '');
  const [theirs = '', ours = ''] = names;
  const message =
    theirs === ours
      ? `"${shown(path.text!)}" is for a ${shown(ours)} of another vehicle file than this guide.`
      : `"${shown(path.text!)}" is for the ${shown(theirs)}, and this guide is for the ${shown(ours)}.`;
  const related = [{ place: Cursor.of(first).get('vehicle')!.place, message: 'Its vehicle' }];
  report.add('follows-other-vehicle', path.place, message, { related });
  return true;
}

/** The guide at hand covers vehicles that the one before does not. */
function reportUncovered({ path, first }: HandOver, scope: OperationScope): void {
  const { world, universe, before, report, main } = scope;
  if (before === null) return;
  const { set, understood } = scope.reader.set(world, before, null);
  const beyond = world.diagrams.minus(universe, set);
  if (!understood || beyond === 0) return;
  const covers = main.outline.root.get('covers') ?? path;
  const theirs = Cursor.of(first);
  const related = [
    { place: (theirs.get('covers') ?? theirs.get('when') ?? theirs).place, message: 'What it covers' },
  ];
  report.add(
    'follows-uncovered',
    covers.keyPlace,
    `This guide covers vehicles that "${shown(path.text!)}", which it follows, does not cover.`,
    { severity: 'warning', variants: world.cubesOf(beyond, universe), related },
  );
}

/** What the first guide fits, of files that the second does not name. */
function reportLost({ path, first, unknown, left }: HandOver, scope: OperationScope, library: Library): void {
  if (scope.withoutVehicle) return;
  const implied = left.flatMap(({ target }) => {
    const thing = thingOfTarget(target);
    return thing?.origin === 'implied' ? [thing.name] : [];
  });
  const declared = declaredIn(first, library);
  const lost = [...new Set([...unknown, ...implied])].filter((name) => declared.has(name));
  if (lost.length === 0) return;
  scope.report.add(
    'follows-other-kit',
    path.place,
    `"${shown(path.text!)}" works on ${listed(lost, 4)}, which neither vehicle nor kit of this guide has: name its kit here too.`,
    { severity: 'warning' },
  );
}

/** States that are open: what is so was undone and not closed. */
const OPEN: ReadonlySet<string> = new Set(
  'loose out started snug off swung discarded boxed compressed empty drained raised disconnected unclipped freed'.split(
    ' ',
  ),
);

function reportGiven(
  { path, left, given, last }: HandOver,
  { report }: OperationScope,
): ReadonlySet<StateEntry> {
  const leaves = new Map(left.map((entry) => [keyOf(entry.target), entry]));
  const worked = workedOn(last);
  const otherwise = new Set<StateEntry>();
  for (const { target, state, place } of given) {
    const entry = leaves.get(keyOf(target));
    if (entry?.state === state) continue;
    const item = target.written;
    const name = shown(item);
    const before = `"${shown(path.text!)}"`;
    if (entry !== undefined) {
      otherwise.add(entry);
      const related = [{ place: entry.place, message: `leaves ${name} ${entry.state}` }];
      const message = `${before} leaves ${name} ${entry.state}, and here it is given as ${state}.`;
      report.add('given-not-left', place, message, { related, item });
    } else if (
      OPEN.has(state) &&
      worked.has(firstOf(item)) &&
      !(state === 'discarded' && worked.has(`${item} discard`))
    ) {
      const message = `${before} works on ${name} and does not leave it ${state}: its leaves: says nothing of it.`;
      report.add('given-not-left', place, message, { item });
    }
  }
  return otherwise;
}

/** The first names of what a guide works on; with ` discard` what it scraps. */
function workedOn({ steps }: Runs): Set<string> {
  const names = new Set<string>();
  for (const { frame, operations } of steps)
    for (const { verb, target } of operations) {
      if (!declares(VERBS.get(verb)!)) continue;
      for (const item of target.items()) {
        if (item.text === null) continue;
        const name = bound(frame.bindings, item.text);
        names.add(firstOf(name));
        if (verb === 'discard') names.add(`${name} discard`);
      }
    }
  return names;
}

function keyOf(target: Target): string {
  switch (target.type) {
    case 'joint':
      return target.joint.full;
    case 'end':
      return target.end.full;
    case 'line':
      return `${target.lines[0]?.name} ${target.end ?? ''}`;
    case 'part':
      return target.part.name;
    default:
      return target.written;
  }
}
