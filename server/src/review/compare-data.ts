/** What vehicle and kit say otherwise beneath the guide: a figure that changed there changes what a step means. */

import { listed } from '../findings/words';
import type { Joint, Model } from '../model/model';
import type { GuideAccount } from './account';
import { nameOfStep } from './account';
import { type Change, change } from './change';
import { SERIOUS, type ThingAccount } from './data-of';

type Data = ReadonlyMap<string, ThingAccount>;

export interface ComparedData {
  readonly changes: readonly Change[];
  /** What changed and is nothing to the guide. */
  readonly untouched: number;
}

export function compareData(
  [old, now]: readonly [Data, Data],
  later: Model,
  account: GuideAccount,
): ComparedData {
  const facts: FactChange[] = [];
  const found: Change[] = [];
  let untouched = 0;
  for (const [key, thing] of now) {
    const was = old.get(key);
    if (was === undefined) {
      // A joint comes with its part.
      if (thing.sort === 'joint' && !old.has(partOf(thing.item))) continue;
      if (thing.touched) found.push(cameOrWent(thing, 'came'));
      else untouched++;
      continue;
    }
    const changed = changedFacts(was, thing);
    if (thing.touched || was.touched) facts.push(...changed);
    else untouched += changed.length;
  }
  for (const [key, thing] of old) {
    if (now.has(key) || (thing.sort === 'joint' && !now.has(partOf(thing.item)))) continue;
    if (thing.touched) found.push(cameOrWent(thing, 'went'));
    else untouched++;
  }
  return { changes: [...found, ...told(facts, later, account)], untouched };
}

const partOf = (item: string): string => item.split('.')[0]!;
const fileOf = ({ place }: ThingAccount): string => place.uri.slice(place.uri.lastIndexOf('/') + 1);

function cameOrWent(thing: ThingAccount, how: 'came' | 'went'): Change {
  const { item, sort, origin, facts, place } = thing;
  const count = facts.get('quantity');
  const what = sort === 'hardware' ? `The hardware ${item}` : sort === 'joint' ? `The joint ${item}` : item;
  const served = facts.get('for');
  const box = origin === 'kit' ? 'in the kit' : `in ${fileOf(thing)}`;
  const more = [...(count === undefined ? [] : [count]), ...(served === undefined ? [] : [`for ${served}`])];
  return change({
    kind: sort === 'hardware' ? 'hardware' : origin === 'kit' ? 'parts' : 'data',
    level: 'work',
    rank: 55,
    sentence:
      how === 'came'
        ? `${what} is new ${box}${more.length === 0 ? '' : ` (${more.join(' ')})`}.`
        : `${what} is no longer ${box}.`,
    variants: facts.get('fitted to') ?? null,
    ...(how === 'came' ? { after: place } : { before: place }),
  });
}

interface FactChange {
  readonly was: ThingAccount;
  readonly is: ThingAccount;
  readonly fact: string;
  readonly from: string | null;
  readonly to: string | null;
}

function changedFacts(was: ThingAccount, is: ThingAccount): FactChange[] {
  return [...new Set([...was.facts.keys(), ...is.facts.keys()])].flatMap((fact) => {
    const [from, to] = [was.facts.get(fact) ?? null, is.facts.get(fact) ?? null];
    const same = from === to || (fact === 'fitted to' && was.fitted === is.fitted);
    return same ? [] : [{ was, is, fact, from, to }];
  });
}

/** Things of which the same fact changed in the same way are told together. */
function told(facts: readonly FactChange[], model: Model, account: GuideAccount): Change[] {
  const groups = new Map<string, FactChange[]>();
  for (const one of facts) {
    const key = [one.fact, one.from, one.to, one.is.place.uri].join('\n');
    groups.set(key, [...(groups.get(key) ?? []), one]);
  }
  return [...groups.values()].map((group) => {
    const { fact, from, to, is, was } = group[0]!;
    const items = listed(group.map((one) => one.is.item).sort());
    const vital = group.some((one) => one.is.vital);
    const serious = SERIOUS.has(fact);
    const amount = fact === 'quantity';
    const each = group.length > 1 ? 'each of ' : '';
    const what = amount
      ? `The box holds ${to ?? 'no figure'} ${each}${items} instead of ${from ?? 'no figure'}`
      : `${factInWords(items, fact, from, to)} in ${fileOf(is)}`;
    const means = fact === 'torque' ? torqueMeans(group, model, account) : null;
    return change({
      kind: is.sort === 'hardware' ? 'hardware' : amount ? 'parts' : fact === 'torque' ? 'torque' : 'data',
      // What no step tightens is not done otherwise.
      level: serious && means !== '' ? 'first' : 'work',
      rank: fact === 'torque' ? (vital ? 20 : 24) : serious ? 33 : amount ? 56 : 60,
      sentence: `${what}${means ?? ''}.`,
      from,
      to,
      before: was.place,
      after: is.place,
    });
  });
}

function factInWords(items: string, fact: string, from: string | null, to: string | null): string {
  if (from === null) return to === 'yes' ? `${items}: now "${fact}"` : `${items}: ${fact} is now said, ${to}`;
  if (to === null)
    return from === 'yes'
      ? `${items}: no longer "${fact}"`
      : `${items}: ${fact} is no longer said; it was ${from}`;
  return `${items}: ${fact} is ${to} instead of ${from}`;
}

/** Which steps tighten by the figure of the data, and which say one of their own. */
function torqueMeans(group: readonly FactChange[], { steps, things }: Model, account: GuideAccount): string {
  const joints = new Set<Joint>();
  for (const { is } of group) {
    const [part = '', joint = ''] = is.item.split('.');
    const thing = things.get(part);
    const found = thing?.type === 'part' ? thing.joints.get(joint) : undefined;
    if (found !== undefined) joints.add(found);
  }
  const byData = new Set<string>();
  const byItself = new Set<string>();
  for (const { operations, path } of steps)
    for (const { verb, targets, figure } of operations) {
      const meant = targets.some(
        (target) =>
          (target.type === 'joint' && joints.has(target.joint)) ||
          (target.type === 'part' && [...target.part.joints.values()].some((joint) => joints.has(joint))),
      );
      if (verb === 'torque' && meant) (figure.length > 0 ? byItself : byData).add(path);
    }
  const named = (paths: ReadonlySet<string>) =>
    listed(account.steps.flatMap((step) => (paths.has(step.path) ? [nameOfStep(step)] : [])));
  const meaning = [
    ...(byData.size === 0 ? [] : [`${named(byData)} ${byData.size === 1 ? 'tightens' : 'tighten'} by it`]),
    ...(byItself.size === 0
      ? []
      : [
          `${named(byItself)} ${byItself.size === 1 ? 'says a figure of its own' : 'say figures of their own'}`,
        ]),
  ];
  return meaning.length === 0 ? '' : `; ${meaning.join(', ')}`;
}
