/** Words in braces that a text prints from the model: `{part:front-coil}`, `{torque:front-shock.lower-bolt}`, `{step:lift}`. */

import type { Place } from '../findings/finding';
import type { Names } from './names';
import { nearestName } from './nearest';
import type { GuideOutline } from './outline';
import { type Report, shown, suggestion } from './report';
import { type Cursor, itemsAt } from './source';
import { NAMED } from './verbs';

export interface TextReference {
  readonly kind: string;
  readonly name: string;
  /** In the text, UTF-16 units, braces included; `nameStart` is where the name begins. */
  readonly start: number;
  readonly nameStart: number;
  readonly end: number;
}

const KINDS = ['part', 'torque', 'step'];

/** Every `{word:name}` of a text; one pass. */
export function textReferences(text: string): TextReference[] {
  const found: TextReference[] = [];
  for (let start = text.indexOf('{'); start >= 0; start = text.indexOf('{', start + 1)) {
    let colon = start + 1;
    while (colon < text.length && isLetter(text.charCodeAt(colon))) colon++;
    if (text[colon] !== ':' || colon === start + 1) continue;
    const close = text.indexOf('}', colon);
    if (close < 0) break;
    const inner = text.slice(colon + 1, close);
    const name = inner.trim();
    if (name === '' || name.length > 120 || name.includes('{')) continue;
    const nameStart = colon + 1 + (inner.length - inner.trimStart().length);
    found.push({ kind: text.slice(start + 1, colon), name, start, nameStart, end: close + 1 });
  }
  return found;
}

const isLetter = (code: number): boolean => (code >= 97 && code <= 122) || (code >= 65 && code <= 90);

/** Texts of a guide in which references are bound. */
export function textsOf(guide: GuideOutline): Cursor[] {
  const texts: (Cursor | null)[] = [guide.root.get('note')];
  for (const section of guide.sections) {
    texts.push(section.cursor.get('note'));
    for (const step of section.steps) {
      texts.push(step.cursor.get('text'), step.cursor.get('note'));
      for (const caution of itemsAt(step.cursor, 'caution')) texts.push(caution.get('text'));
      for (const operation of step.operations) texts.push(operation.cursor.get('note'));
    }
  }
  return texts.flatMap((text) => (text?.text?.includes('{') ? [text] : []));
}

/** Reports what the texts of a guide name and nothing has. */
export function checkTexts(guide: GuideOutline, names: Names, report: Report): void {
  for (const cursor of textsOf(guide)) {
    for (const reference of textReferences(cursor.text!))
      checkReference(reference, cursor, guide, names, report);
  }
}

function checkReference(
  reference: TextReference,
  cursor: Cursor,
  guide: GuideOutline,
  names: Names,
  report: Report,
): void {
  const { kind, name } = reference;
  const place = placeOf(reference, cursor);
  const add = (rule: string, what: string, near: string | null, exact: Place | null): void => {
    const { hint, fixes } = suggestion(exact ?? cursor.place, near);
    report.add(rule, exact ?? cursor.place, `${what}${hint}`, {
      fixes: exact === null ? [] : fixes,
      item: name,
    });
  };
  if (!KINDS.includes(kind)) {
    const near = nearestName(kind, KINDS);
    add(
      'unknown-in-text',
      `A text can print part, torque and step, not "${shown(kind)}"`,
      near === null ? null : `${near}:${name}`,
      place,
    );
    return;
  }
  if (kind === 'step') {
    if (!guide.byId.has(name))
      add('unknown-step', `No step has the id "${shown(name)}"`, nearestName(name, guide.byId.keys()), place);
    return;
  }
  const [first = '', sub] = name.split('.');
  const found = names.find(first, NAMED, sub !== undefined);
  if (found === null || found.type === 'loose') {
    if (found !== null && kind === 'part') return;
    const near =
      names.nearest(first, NAMED) ?? (names.complete ? null : nearestName(first, names.things.keys()));
    const what = kind === 'torque' ? 'joint' : 'part';
    add(
      'unknown-in-text',
      `The text names a ${what} "${shown(name)}" that nothing has`,
      near === null ? null : [near, ...name.split('.').slice(1)].join('.'),
      place,
    );
    return;
  }
  if (found.type !== 'thing') {
    if (kind === 'torque') add('unknown-in-text', `"${shown(name)}" has no torque to print`, null, place);
    return;
  }
  const { thing } = found;
  if (thing.type === 'line') {
    if (kind === 'torque') add('unknown-in-text', `"${shown(name)}" has no torque to print`, null, place);
    else if (sub !== undefined && !thing.ends.includes(sub))
      add(
        'unknown-in-text',
        `"${first}" has no end "${shown(sub)}"`,
        within(first, nearestName(sub, thing.ends)),
        place,
      );
    return;
  }
  if (sub === undefined) {
    if (kind === 'torque' && thing.joints.size === 0)
      add('unknown-in-text', `"${shown(name)}" has no joint whose torque could be printed`, null, place);
    return;
  }
  if (thing.joints.has(sub)) return;
  const others = [...thing.ends.keys(), ...thing.holes.keys(), ...thing.faces.keys()];
  if (kind === 'part' && others.includes(sub)) return;
  const known = kind === 'part' ? [...thing.joints.keys(), ...others] : [...thing.joints.keys()];
  if (thing.joints.size === 0 && thing.origin === 'implied') return;
  add('unknown-in-text', `"${first}" has no "${shown(sub)}"`, within(first, nearestName(sub, known)), place);
}

const within = (part: string, sub: string | null): string | null => (sub === null ? null : `${part}.${sub}`);

/** Where the name stands in the document; null where the text is written with escapes or folded, so that it cannot be found. */
function placeOf(reference: TextReference, cursor: Cursor): Place | null {
  const offset = cursor.offsetOf(reference.nameStart);
  if (offset === null) return null;
  const { uri } = cursor.place;
  const start =
    reference.kind === 'part' || reference.kind === 'torque' || reference.kind === 'step'
      ? offset
      : offset - (reference.nameStart - reference.start - 1);
  return { uri, span: { start, end: offset + reference.name.length } };
}
