/** Things that only have another name: the same data and the same work under it. That is told once, and not at every step. */

import type { Finding } from '../findings/finding';
import type { GuideAccount, StepAccount } from './account';
import { type Change, change } from './change';
import type { ThingAccount } from './data-of';
import type { Version } from './version';

type Data = ReadonlyMap<string, ThingAccount>;

/** Old names to new ones: of parts and lines `rear-shock`, of joints `rear-shock.lower-bolt` with their part as it is called now. */
export type Renames = ReadonlyMap<string, string>;

export function renamesOf(
  [old, now]: readonly [Data, Data],
  [before, after]: readonly [GuideAccount, GuideAccount],
): Renames {
  const things = pairedIn(
    old,
    now,
    ({ sort }) => sort === 'part' || sort === 'line',
    new Map(),
    before,
    after,
  );
  // A joint of a thing that is there in both versions may have another name too.
  const joints = pairedIn(
    renamedData(old, things),
    now,
    ({ sort }) => sort === 'joint',
    things,
    renamedAccount(before, things),
    after,
  );
  return new Map([...things, ...joints]);
}

function pairedIn(
  old: Data,
  now: Data,
  wanted: (thing: ThingAccount) => boolean,
  known: Renames,
  before: GuideAccount,
  after: GuideAccount,
): Map<string, string> {
  const went = [...old].filter(([key, thing]) => wanted(thing) && !now.has(key));
  const came = [...now].filter(([key, thing]) => wanted(thing) && !old.has(key));
  if (went.length === 0 || came.length === 0) return new Map();
  const masked = new Map([...went, ...came].map(([key]) => [key, '*']));
  const groups = new Map<string, { readonly old: string[]; readonly now: string[] }>();
  const add = (side: 'old' | 'now', [key, thing]: readonly [string, ThingAccount], data: Data): void => {
    const signature = signatureOf(thing, data, masked);
    const group = groups.get(signature) ?? { old: [], now: [] };
    groups.set(signature, group);
    group[side].push(key);
  };
  for (const one of went) add('old', one, old);
  for (const one of came) add('now', one, now);
  const found = new Map<string, string>();
  for (const group of groups.values()) {
    // Of several that are alike nobody knows which is which.
    const [from, to] = [group.old[0], group.now[0]];
    if (group.old.length !== 1 || group.now.length !== 1 || from === undefined || to === undefined) continue;
    if (known.has(from) || workOn(before, from) !== workOn(after, to)) continue;
    found.set(from, to);
  }
  return found;
}

/** What is said of a thing and of its joints, without its own name. */
function signatureOf(thing: ThingAccount, data: Data, masked: Renames): string {
  const { item, sort, origin, facts } = thing;
  const own = [...facts].map(([fact, value]) => `${fact}: ${replaced(value, masked)}`).sort();
  const joints =
    sort === 'joint'
      ? [`of ${item.slice(0, item.indexOf('.'))}`]
      : [...data.values()]
          .filter((one) => one.sort === 'joint' && one.item.startsWith(`${item}.`))
          .map(
            (one) =>
              `${one.item.slice(item.length)} ${[...one.facts]
                .map((pair) => replaced(pair.join(': '), masked))
                .sort()
                .join('; ')}`,
          )
          .sort();
  return [sort, origin, ...own, ...joints].join('\n');
}

/** The verbs that a guide has for a thing, in order. */
const workOn = ({ steps }: GuideAccount, name: string): string =>
  steps
    .flatMap(({ operations }) => operations)
    .filter(({ item }) => item === name || item.startsWith(`${name}.`))
    .map(({ verb }) => verb)
    .sort()
    .join(' ');

/** Whole names in a text, one for the other; the longest that fits counts. */
export function replaced(text: string, renames: Renames): string {
  if (renames.size === 0) return text;
  // Plainly linear: names and what stands between them.
  return text.replaceAll(/[\p{L}\p{N}_-]+(?:\.[\p{L}\p{N}_-]+)*/gu, (name) => {
    for (let end = name.length; end > 0; end = name.lastIndexOf('.', end - 1)) {
      const fresh = renames.get(name.slice(0, end));
      if (fresh !== undefined) return fresh + name.slice(end);
    }
    return name;
  });
}

export const renamedData = (data: Data, renames: Renames): Data =>
  renames.size === 0
    ? data
    : new Map(
        [...data].map(([key, thing]) => [
          replaced(key, renames),
          {
            ...thing,
            item: replaced(thing.item, renames),
            facts: new Map([...thing.facts].map(([fact, value]) => [fact, replaced(value, renames)])),
          },
        ]),
      );

/** An account with the names that things have now. Words of a text that stand in no braces are no names. */
export function renamedAccount(account: GuideAccount, renames: Renames): GuideAccount {
  if (renames.size === 0) return account;
  const fresh = (text: string) => replaced(text, renames);
  const steps = account.steps.map(
    (step): StepAccount => ({
      ...step,
      text: step.text.replaceAll(/\{[^{}]*\}/g, fresh),
      title: step.text === '' ? fresh(step.title) : step.title,
      operations: step.operations.map((operation) => ({
        ...operation,
        item: fresh(operation.item),
        words: fresh(operation.words),
        aids: operation.aids.map(fresh),
        qualifiers: new Map(
          [...operation.qualifiers].map(([key, one]) => [
            key,
            { ...one, key: fresh(one.key), shown: fresh(one.shown) },
          ]),
        ),
      })),
    }),
  );
  return { ...account, steps };
}

/** A version whose findings and open ends bear the names that things have now. */
export function renamedVersion(version: Version, renames: Renames): Version {
  if (renames.size === 0) return version;
  const fresh = (text: string) => replaced(text, renames);
  const { coverage } = version;
  return {
    ...version,
    findings: version.findings.map(
      (finding): Finding => ({
        ...finding,
        message: fresh(finding.message),
        ...(finding.item === undefined ? {} : { item: fresh(finding.item) }),
      }),
    ),
    coverage: {
      ...coverage,
      undecided: coverage.undecided.map((one) => ({
        ...one,
        item: fresh(one.item),
        property: fresh(one.property),
      })),
    },
    open: version.open.map((one) => ({ ...one, item: fresh(one.item), message: fresh(one.message) })),
  };
}

/** That a thing that the guide works on has another name, where it is declared. */
export function renameChanges(renames: Renames, old: Data, now: Data): Change[] {
  const touched = [...renames].filter(
    ([from, to]) => old.get(from)?.touched === true || now.get(to)?.touched === true,
  );
  return touched.map(([from, to]) =>
    change({
      kind: 'renamed',
      level: 'work',
      rank: 3,
      sentence: `${from} is now called ${to}, in the data and in the steps.`,
      from,
      to,
      before: old.get(from)?.place ?? null,
      after: now.get(to)?.place ?? null,
    }),
  );
}
