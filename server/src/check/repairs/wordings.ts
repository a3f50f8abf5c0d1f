/** An operation said another way: its verb, its side, its condition, its people; or left out where it does nothing. */

import { find } from '../../text/access';
import { inPlace } from './figures';
import { eventsOn, type Fault, outerStep, type Plan } from './repair';

/** `loosen-before-remove`: a part that is bolted on is unbolted. */
export function* unboltInstead({ path, guide, event }: Fault): Generator<Plan | null> {
  if (path !== null && event?.operation.verb === 'remove' && event.subject.type === 'part')
    yield inPlace('Unbolt it (unbolt instead of remove)', guide.renameKey(path, 'remove', 'unbolt'));
}

/** `unsupport-carrying`: what carries is let down. */
export function* lowerInstead({ path, guide }: Fault): Generator<Plan | null> {
  if (path !== null)
    yield inPlace('Let it down (lower instead of unsupport)', guide.renameKey(path, 'unsupport', 'lower'));
}

/** `wrong-hand`: the piece of its own side. */
export function* ownHand({ path, guide }: Fault): Generator<Plan | null> {
  if (path !== null) yield inPlace('Fit the piece of its own side', guide.removeKey(path, 'article'));
}

/** `do-done`, `undo-undone` and the like: an operation that has no effect is left out. */
export function* leftOut({ path, guide }: Fault): Generator<Plan | null> {
  const plan = path === null ? null : inPlace('Leave this operation out', guide.removeOperation(path));
  if (plan !== null) yield { ...plan, takesOut: true };
}

/** `fit-discarded`: the operation that scrapped it is left out. */
export function* notScrapped(fault: Fault): Generator<Plan | null> {
  for (const { operation } of eventsOn(fault, ['discard'], [fault.finding.item ?? '']))
    if (!operation.path.includes('/') && operation.targets.length === 1) {
      const plan = inPlace('Do not scrap it', fault.guide.removeOperation(operation.path));
      if (plan !== null) yield { ...plan, takesOut: true };
    }
}

/** Work that a second person helps with. */
export function* twoPeople(fault: Fault): Generator<Plan | null> {
  const { step, guide } = fault;
  if (step !== null && guide.step(step) !== null)
    yield inPlace(
      'Do this step with two people',
      guide.setKey(step, 'people', 2, ['id', 'when', 'text', 'caution']),
    );
}

/** What is wrong on one side only, or in some variants only, because a like operation elsewhere is narrowed. */
export function* widened(fault: Fault): Generator<Plan | null> {
  const { guide, finding } = fault;
  const item = finding.item ?? '';
  const names = [item, item.split('.')[0]!];
  const verbs = new Set(fault.simulation.events.map(({ verb }) => verb));
  const seen = new Set<string>();
  const narrowed = (key: string, path: string): boolean => {
    const map = path.split('.').length === 3 ? guide.operation(path) : guide.step(path);
    return map !== null && find(map, key, guide.source.reading) !== undefined;
  };
  for (const { operation } of eventsOn(fault, [...verbs], names)) {
    if (operation.path.includes('/') || seen.has(operation.path)) continue;
    seen.add(operation.path);
    const step = outerStep(operation.path)!;
    for (const path of [operation.path, step]) {
      const where = path === step ? `step ${step}` : `${operation.verb} in step ${step}`;
      if ((finding.sides?.length ?? 0) === 1 && narrowed('side', path) && !seen.has(`side ${path}`)) {
        seen.add(`side ${path}`);
        yield inPlace(`Do ${where} on both sides`, guide.removeKey(path, 'side'));
      }
      if (finding.variants.length > 0 && narrowed('when', path) && !seen.has(`when ${path}`)) {
        seen.add(`when ${path}`);
        yield inPlace(`Do ${where} in every variant`, guide.removeKey(path, 'when'));
      }
    }
  }
}

/** A rule that nothing excuses, of a qualifier: the qualifier goes, or another stands in its place. */
export function* otherQualifier(fault: Fault): Generator<Plan | null> {
  const { path, guide, rule, operation } = fault;
  if (path === null || rule === undefined || operation === null) return;
  for (const [key, values] of rule.watch.qualifier) {
    if (key === operation.verb) continue;
    if (values.includes('none')) {
      if (key === 'pattern')
        yield inPlace('Tighten crosswise (pattern: star)', guide.setKey(path, key, 'star'));
      continue;
    }
    if (key === 'pattern')
      yield inPlace('Tighten crosswise (pattern: star)', guide.setKey(path, key, 'star'));
    yield inPlace(`Take out ${key}`, guide.removeKey(path, key));
  }
}

/** `draft-step`: a person has read it. */
export function* cleared({ step, guide }: Fault): Generator<Plan | null> {
  if (step !== null)
    yield inPlace('I have read this step: take the mark away', guide.removeKey(step, 'draft'));
}
