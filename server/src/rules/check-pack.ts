/** What is wrong in the rules of a pack, whoever uses it: rules that ask nothing, twice, or what can never be. */

import type { Finding } from '../findings/finding';
import { AidTable } from '../model/aids';
import { KindTable } from '../model/kinds';
import { nearestName } from '../model/nearest';
import { Report, shown, suggestion } from '../model/report';
import { Cursor, itemsAt, type Library, type OpenDocument } from '../model/source';
import { BUILTINS } from './builtin/registry';
import { checkAsked } from './check-asked';
import { checkSays, factsIn } from './check-says';
import { FAMILIES } from './rule';

/** The findings of a pack's rules, in order of place. For other documents there is nothing to find here. */
export function checkPack(document: OpenDocument, library: Library): Finding[] {
  if (document.kind !== 'rules') return [];
  const report = new Report();
  const at = library.packs.findIndex(({ uri }) => uri === document.uri);
  const before = at < 0 ? library.packs : library.packs.slice(0, at);
  const known = rulesIn(before);
  const packs = at < 0 ? [...library.packs, document] : library.packs;
  const kinds = new KindTable(packs);
  const aids = new AidTable(packs);
  const own = new Map<string, Cursor>();
  for (const rule of itemsAt(Cursor.of(document), 'rules')) {
    checkId(rule, known, own, report);
    const families = FAMILIES.filter((family) => rule.get(family) !== null);
    checkFamilies(rule, families, report);
    const family = families[0] ?? null;
    if (family === 'built-in') checkBuiltin(rule, known, report);
    else if (family !== null) {
      checkAsked(rule, kinds, aids, report);
      checkSays(rule, family, report);
    }
    checkExamples(rule, report);
  }
  return report.findings.sort(
    (a, b) => a.place.span.start - b.place.span.start || a.place.span.end - b.place.span.end,
  );
}

/** The rules of some packs by id, the first of each. */
function rulesIn(packs: readonly OpenDocument[]): Map<string, Cursor> {
  const found = new Map<string, Cursor>();
  for (const pack of packs)
    for (const rule of itemsAt(Cursor.of(pack), 'rules')) {
      const id = rule.get('id')?.text;
      if (id != null && !found.has(id)) found.set(id, rule);
    }
  return found;
}

function checkId(
  rule: Cursor,
  known: ReadonlyMap<string, Cursor>,
  own: Map<string, Cursor>,
  report: Report,
): void {
  const cursor = rule.get('id');
  const id = cursor?.text ?? null;
  if (cursor === null || id === null) return;
  const { place } = cursor;
  if (!isKebab(id)) {
    const fixed = kebab(id);
    report.add(
      'bad-id',
      place,
      `"${shown(id)}" is no id: small letters, figures and hyphens, such as ${isKebab(fixed) ? fixed : 'gloves-before-drilling'}.`,
      { fixes: isKebab(fixed) ? suggestion(place, fixed).fixes : [] },
    );
  }
  const first = own.get(id);
  const overrides = rule.get('overrides');
  if (first !== undefined) {
    report.add(
      'duplicate-rule',
      place,
      `This pack has a rule "${shown(id)}" already; this one never counts.`,
      {
        related: [{ place: first.place, message: 'The first of the id' }],
      },
    );
    return;
  }
  own.set(id, cursor);
  if (known.has(id) && overrides?.value !== true)
    report.add(
      'duplicate-rule',
      place,
      `Another pack has a rule "${shown(id)}" already, so this one never counts; say overrides: true to put it in that one's place, or give it an id of its own.`,
    );
  if (!known.has(id) && overrides?.value === true) {
    const near = nearestName(id, known.keys());
    const { hint, fixes } = suggestion(place, near);
    report.add(
      'overrides-nothing',
      place,
      `No pack before this one has a rule "${shown(id)}" to override${hint}`,
      {
        fixes,
      },
    );
  }
}

function checkFamilies(rule: Cursor, families: readonly string[], report: Report): void {
  const [first, second] = families;
  const place = rule.get('id')?.place ?? rule.header;
  // What was wrong in a family was told, and it was left out.
  const lost = rule.document.lost.get(rule.value as object);
  if (first === undefined) {
    if (FAMILIES.some((family) => lost?.has(family))) return;
    const message = `This rule asks nothing; one of ${FAMILIES.join(', ')} says what it asks.`;
    report.add('no-family', place, message);
    return;
  }
  if (second !== undefined)
    report.add(
      'several-families',
      rule.get(second)!.keyPlace,
      `"${first}" and "${second}" stand in one rule, and only the first counts; give each a rule of its own.`,
    );
  for (const family of ['never', 'at-most-once'] as const)
    if (rule.get(family)?.value === false)
      report.add('no-family', rule.get(family)!.place, `With "${family}: false" this rule asks nothing.`);
  if (first !== 'built-in' && rule.get('with') !== null)
    report.add(
      'no-effect',
      rule.get('with')!.keyPlace,
      '"with" holds the settings of built-in rules; here nothing reads it.',
    );
  if (first === 'built-in' || lost?.has('watch') === true) return;
  if (rule.get('watch') === null)
    report.add(
      'no-watch',
      place,
      'This rule does not say which operations it looks at; write watch: with a verb, or watch: {} for every operation.',
    );
}

function checkBuiltin(rule: Cursor, known: ReadonlyMap<string, Cursor>, report: Report): void {
  const cursor = rule.get('built-in')!;
  const name = cursor.text ?? '';
  const builtin = BUILTINS.find((one) => one.name === name);
  if (builtin === undefined) {
    const near = nearestName(
      name,
      BUILTINS.map((one) => one.name),
    );
    const { hint, fixes } = suggestion(cursor.place, near);
    report.add('unknown-built-in', cursor.place, `The program has no built-in rule "${shown(name)}"${hint}`, {
      fixes,
    });
    return;
  }
  const id = rule.get('id');
  if (id?.text != null && id.text !== name) {
    const { fixes } = suggestion(id.place, name);
    report.add(
      'wrong-id',
      id.place,
      `A built-in rule goes by its own name: this one counts only with the id "${name}".`,
      { fixes },
    );
  }
  for (const key of ['watch', 'unless'])
    if (rule.get(key) !== null)
      report.add(
        'no-effect',
        rule.get(key)!.keyPlace,
        `A built-in rule looks at what it needs; "${key}" has no effect on it.`,
      );
  const settings = builtin.settings ?? {};
  for (const [key, value] of rule.get('with')?.entries() ?? []) {
    const wanted = Object.hasOwn(settings, key) ? settings[key] : undefined;
    if (wanted === undefined) {
      const names = Object.keys(settings);
      const { hint, fixes } = suggestion(value.keyPlace, nearestName(key, names));
      const end =
        names.length === 0 ? '; it has none.' : hint === '.' ? `; it has ${names.join(', ')}.` : hint;
      report.add('unknown-setting', value.keyPlace, `"${name}" has no setting "${shown(key)}"${end}`, {
        fixes,
      });
    } else if (wanted === 'number' && typeof value.value !== 'number') {
      report.add('unknown-setting', value.place, `"${key}" wants a number without a unit, such as 50.`);
    } else if (wanted === 'words' && !value.isList) {
      report.add('unknown-setting', value.place, `"${key}" wants a list of words.`);
    }
  }
  // What the standard pack's own sentence names is what this rule knows to tell.
  const standard = known.get(name)?.get('says')?.text;
  if (standard != null) checkSays(rule, 'built-in', report, factsIn(standard));
}

function checkExamples(rule: Cursor, report: Report): void {
  const [good, bad] = [rule.get('good'), rule.get('bad')];
  if (good === null || bad === null || JSON.stringify(good.value) !== JSON.stringify(bad.value)) return;
  report.add(
    'same-examples',
    bad.keyPlace,
    'The good and the bad example are the same job; one of them is wrong.',
  );
}

const isKebab = (id: string): boolean =>
  id.split('-').every((word) => /^[a-z0-9]+$/.test(word)) && /^[a-z]/.test(id);
const kebab = (id: string): string =>
  id
    .replaceAll(/([a-z0-9])([A-Z])/g, '$1-$2')
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, '-')
    .replaceAll(/^-|-$/g, '');
