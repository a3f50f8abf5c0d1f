/** What the sentence of a rule fills in: every name in braces is one that the rule knows. */

import { nearestName } from '../model/nearest';
import { type Report, shown, writeInstead } from '../model/report';
import type { Cursor } from '../model/source';
import type { Family } from './rule';

/** What every rule knows to tell. */
export const FACTS = ['item', 'part', 'verb'] as const;
/** Families that ask about a related item, and can name the first. */
const RELATING: ReadonlySet<Family> = new Set(['needs', 'never-while', 'first', 'later', 'next']);

/** The names that the sentence of a rule of a family may hold. */
export const factsOf = (family: Family): readonly string[] =>
  RELATING.has(family) ? [...FACTS, 'related'] : FACTS;

/** The names in braces of a sentence. */
export const factsIn = (says: string): string[] => placeholders(says).map(({ name }) => name);

/** @param more what a built-in rule knows beside what every rule does. */
export function checkSays(rule: Cursor, family: Family, report: Report, more: readonly string[] = []): void {
  const cursor = rule.get('says');
  const says = cursor?.text ?? null;
  if (cursor === null || says === null) return;
  const known = [...new Set([...factsOf(family), ...more])];
  for (const { name, start, closed } of placeholders(says)) {
    const from = cursor.offsetOf(start);
    const place =
      from === null
        ? cursor.place
        : { uri: cursor.place.uri, span: { start: from, end: from + name.length + 2 - (closed ? 0 : 1) } };
    if (!closed) {
      report.add('unknown-fact', place, 'This brace is never closed; write {item}, or leave it out.');
      continue;
    }
    if (known.includes(name)) continue;
    const near = nearestName(name, known);
    const hint = near === null ? `; it may be ${known.join(', ')}` : `; did you mean "${near}"?`;
    report.add(
      'unknown-fact',
      place,
      `This rule has nothing to put in for "{${shown(name)}}"${near === null ? `${hint}.` : hint}`,
      {
        fixes: near === null || from === null ? [] : [writeInstead(place, `{${near}}`)],
      },
    );
  }
}

function placeholders(
  says: string,
): { readonly name: string; readonly start: number; readonly closed: boolean }[] {
  const found: { name: string; start: number; closed: boolean }[] = [];
  for (let open = says.indexOf('{'); open >= 0; open = says.indexOf('{', open + 1)) {
    const close = says.indexOf('}', open);
    const again = says.indexOf('{', open + 1);
    const closed = close >= 0 && (again < 0 || close < again);
    found.push({ name: closed ? says.slice(open + 1, close) : '', start: open, closed });
  }
  return found;
}
