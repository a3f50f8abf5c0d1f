/** The words of a rule that nobody knows: kinds, states, qualifiers, properties of joints, and slips of what always exists. */

import type { AidTable } from '../model/aids';
import { isBuiltIn, SPATIAL, SYSTEMS } from '../model/builtins';
import type { KindTable } from '../model/kinds';
import { nearestName } from '../model/nearest';
import { listed, type Report, shown, suggestion } from '../model/report';
import { type Cursor, itemsAt } from '../model/source';
import { propertiesOfVerb, propertyOfJoint } from '../schema/describe';
import { type Sort, STATES } from './vocabulary';
import { PROPERTIES } from './watching';

export type Sorts = ReadonlySet<Sort>;
export type Properties = ReturnType<typeof propertiesOfVerb>;

export class Words {
  constructor(
    private readonly kinds: KindTable,
    private readonly aids: AidTable,
    private readonly report: Report,
  ) {}

  state(state: Cursor, sorts: Sorts | null): void {
    const word = state.text;
    if (word === null || Object.hasOwn(STATES, word)) return;
    // Of a system any word may be the value of its switch.
    if (sorts === null || [...sorts].every((sort) => sort === 'built-in')) return;
    const { hint, fixes } = suggestion(state.place, nearestName(word, Object.keys(STATES)));
    const end = hint === '.' ? '; the states there are stand in schemas/house-rules.md.' : hint;
    this.report.add(
      'unknown-state',
      state.place,
      `"${shown(word)}" is no state that a rule may ask for${end}`,
      { fixes },
    );
  }

  /** A name is a vehicle's own; only slips of what always exists are told. */
  item(item: Cursor): void {
    const name = item.text;
    if (name === null || isBuiltIn(name)) return;
    const near = nearBuiltIn(name);
    if (near === null) return;
    const { hint, fixes } = suggestion(item.place, near);
    this.report.add('unknown-name', item.place, `No "${shown(name)}" always exists${hint}`, {
      fixes,
      severity: 'warning',
    });
  }

  kindsAt(holder: Cursor): void {
    for (const item of itemsAt(holder, 'kind')) {
      const { text, place } = item;
      if (text === null || this.kinds.ownBody(text) !== null) continue;
      if (this.kinds.has(text)) {
        const name = this.kinds.nameOf(text);
        const { fixes } = suggestion(place, name);
        this.report.add(
          'unknown-part-kind',
          place,
          `"${text}" is another word for the kind "${name}"; a rule goes by the kind.`,
          { fixes },
        );
        continue;
      }
      const near = nearestName(text, this.kinds.written) ?? this.kinds.guess(text)?.name ?? null;
      const { hint, fixes } = suggestion(place, near === null ? null : this.kinds.nameOf(near));
      const end =
        near === null ? '; the words there are stand in schemas/words.md, or declare it under kinds:.' : hint;
      this.report.add('unknown-part-kind', place, `No pack has a kind "${shown(text)}"${end}`, { fixes });
    }
  }

  qualifiers(holder: Cursor, verbs: readonly string[], more: Properties = []): void {
    const allowed = new Map([...verbs.flatMap(propertiesOfVerb), ...more]);
    for (const name of NOT_ASKED) allowed.delete(name);
    for (const [name, value] of holder.get('qualifier')?.entries() ?? []) {
      if (verbs.length === 0) continue;
      const schema = allowed.get(name);
      if (schema === undefined) {
        const { hint, fixes } = suggestion(value.keyPlace, nearestName(name, allowed.keys()));
        this.report.add(
          'unknown-qualifier',
          value.keyPlace,
          `"${shown(name)}" is no qualifier of ${verbs.length > 3 ? 'these verbs' : listed(verbs)}${hint}`,
          { fixes },
        );
        continue;
      }
      if (name === 'with') this.aidsIn(value);
      const words = [...(schema.enum ?? []), ...(schema['x-values'] ?? [])];
      if (words.length === 0) continue;
      for (const one of value.items()) {
        if (one.text === null || ['any', 'none', ...words].includes(one.text)) continue;
        const { hint, fixes } = suggestion(one.place, nearestName(one.text, words));
        const end = hint === '.' ? `; it is one of ${words.join(', ')}.` : hint;
        this.report.add('unknown-value', one.place, `"${name}" is never "${shown(one.text)}"${end}`, {
          fixes,
        });
      }
    }
  }

  /** An operation is seen with the aid's own name, whatever its writer calls it: another word for it in a rule is never seen. */
  private aidsIn(value: Cursor): void {
    for (const one of value.items()) {
      const aid = one.text === null ? null : this.aids.find(one.text);
      if (aid === null || isForm(one.text!, aid.name)) continue;
      const { fixes } = suggestion(one.place, aid.name);
      const message = `"${shown(one.text!)}" is another word for the aid "${aid.name}"; a rule goes by the aid.`;
      this.report.add('unknown-value', one.place, message, { fixes });
    }
  }

  /** What a property of a joint is never; of threads, classes and counts nothing is known beforehand. */
  private values(name: string, value: Cursor): void {
    const schema = propertyOfJoint(name);
    const words = schema?.enum ?? (schema?.type === 'boolean' ? ['true', 'false'] : []);
    if (words.length === 0) return;
    const known = schema?.enum === undefined ? words : [...words, 'none'];
    for (const one of value.items()) {
      if (one.text === null || known.includes(one.text)) continue;
      const { hint, fixes } = suggestion(one.place, nearestName(one.text, known));
      const end = hint === '.' ? `; it is one of ${known.join(', ')}.` : hint;
      this.report.add('unknown-value', one.place, `"${name}" is never "${shown(one.text)}"${end}`, { fixes });
    }
  }

  properties(watch: Cursor): void {
    for (const [name, value] of watch.get('joint')?.entries() ?? []) {
      if (Object.hasOwn(PROPERTIES, name)) {
        this.values(name, value);
        continue;
      }
      const names = Object.keys(PROPERTIES);
      const { hint, fixes } = suggestion(value.keyPlace, nearestName(name, names));
      const end = hint === '.' ? `; there are ${names.join(', ')}.` : hint;
      this.report.add(
        'unknown-property',
        value.keyPlace,
        `A rule cannot ask for "${shown(name)}" of a joint${end}`,
        { fixes },
      );
    }
  }
}

/** The system or place of the vehicle that a name nearly is. */
export const nearBuiltIn = (name: string): string | null => nearestName(name, [...SPATIAL, ...SYSTEMS]);

/** Singular and plural are one. */
const isForm = (word: string, name: string): boolean =>
  word === name || word === `${name}s` || `${word}s` === name;

/** What no rule sees of an operation. */
const NOT_ASKED: ReadonlySet<string> = new Set(['side', 'when', 'waive']);
