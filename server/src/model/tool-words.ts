/** Sizes of spanners and keys in the words of a step, against those that its joints take. */

import { parseQuantity } from '../units/quantity';
import { spokenFigures } from '../units/spoken';
import { jointsOfStep } from './joints-of-step';
import type { BoundStep, Joint } from './model';
import type { Report } from './report';
import type { Cursor } from './source';

const RULE = 'words-against-data';

/** What a size stands before, in the words, and which sizes of a joint are of that sort. */
const SPANNERS: ReadonlySet<string> = new Set('socket sockets spanner spanners ring wrench'.split(' '));
const KEYS: ReadonlySet<string> = new Set('key keys hex'.split(' '));
/** Sizes of inch and metric tools are taken for one another within this, mm (common practice: 13 mm and 1/2 in are not). */
const ALIKE = 0.15;

/** Reports `an 18 mm socket` where every joint that the step turns says its size, and none has this one. */
export function checkToolWords(words: Cursor, bound: BoundStep, report: Report): void {
  const text = words.text!;
  const said = toolSizesIn(text);
  if (said.length === 0) return;
  const turned = jointsOfStep(bound);
  for (const { size, sort, start, end } of said) {
    const wanted = turned.map(({ joint }) => sizesOf(joint, sort));
    // Where one joint says nothing, the tool may be for that.
    if (wanted.length === 0 || wanted.some((sizes) => sizes.length === 0)) continue;
    // A counterhold is a spanner too.
    const all = turned.flatMap(({ joint }) => [...sizesOf(joint, 'spanner'), ...sizesOf(joint, 'key')]);
    if (all.some((one) => Math.abs(one.mm - size) <= ALIKE)) continue;
    const from = words.offsetOf(start);
    const place =
      from === null ? words.place : { uri: words.place.uri, span: { start: from, end: from + end - start } };
    const { joint, operation } = turned[0]!;
    const [first] = wanted[0]!;
    report.add(
      RULE,
      place,
      `The words say ${text.slice(start, end)}, and ${joint.full} takes ${first!.written}.`,
      {
        severity: 'info',
        operation: operation.path,
        item: joint.full,
        related:
          joint.declared === null
            ? []
            : [{ place: joint.declared, message: `${joint.full} is declared here` }],
      },
    );
  }
}

/** The sizes of tools that a text says: mm, and whether it is a spanner or a key. */
export function toolSizesIn(text: string) {
  return spokenFigures(text).flatMap(({ quantity, start, end }) => {
    if (quantity.dimension !== 'length' || quantity.low !== quantity.high) return [];
    const next = /^[\s-]*([A-Za-z]+)/.exec(text.slice(end, end + 30));
    const word = next?.[1]?.toLowerCase() ?? '';
    const sort = SPANNERS.has(word) ? ('spanner' as const) : KEYS.has(word) ? ('key' as const) : null;
    if (sort === null) return [];
    return [{ size: quantity.nominal, sort, start, end: end + next![0].length }];
  });
}

function sizesOf({ hex, key, counterhold }: Joint, sort: 'spanner' | 'key') {
  const holds = counterhold === null ? [] : [counterhold];
  const isKey = (text: string) => / key$/.test(text);
  const written =
    sort === 'spanner'
      ? [...(hex === null ? [] : [hex]), ...holds.filter((one) => !isKey(one))]
      : [...(key === null ? [] : [key]), ...holds.filter(isKey)];
  return written.flatMap((text) => {
    const read = parseQuantity(text.replace(/ key$/, ''), 'length');
    return read.ok ? [{ mm: read.quantity.nominal, written: text }] : [];
  });
}
