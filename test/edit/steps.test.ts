import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { applyEdits } from '../../server/src/edit/apply';
import { type Entry, GuideText } from '../../server/src/edit/steps';
import type { Edit } from '../../server/src/findings/finding';
import { readText } from '../../server/src/text/read';
import { dedent } from '../support/fixture';
import { type Data, type Guide, type Step, said, type Written, written } from './written';

const guideText = (text: string) => new GuideText({ uri: 'g', text, reading: readText(text) });
const OPERATION: Entry = { support: 'front-axle', with: ['pole-jack', "jack's: no. 2"] };
const STEP: Entry = { text: 'Support it: with #2.', draft: true, do: [OPERATION, { unbolt: 'x' }] };

/** Some step of a guide, by numbers that may be too large. */
function stepIn(guide: Guide, section: number, step: number) {
  const s = section % guide.sections.length;
  const t = step % guide.sections[s]!.steps.length;
  return { s, t, path: `${s + 1}.${t + 1}`, steps: guide.sections[s]!.steps };
}

const copy = (guide: Guide): Guide => JSON.parse(JSON.stringify(guide)) as Guide;
const whole = (guide: Guide, text: string): Data => ({
  kitproof: 'install/1',
  title: guide.title,
  sections: guide.sections as unknown as Data,
  ...(text.includes('owes: []') ? { owes: [] } : {}),
});

/** The edits give the guide that was meant, and leave every line outside of them and every comment as it was. */
function expectGuide(before: Written, edits: Edit[] | null, meant: Guide, gone: readonly string[] = []) {
  if (edits === null) return false;
  const after = applyEdits(before.text, edits);
  expect(after).not.toBeNull();
  expect(said(after!), after!).toEqual(whole(meant, before.text));
  for (const comment of before.comments)
    expect(after!.split(comment).length, `${comment} in\n${after}`).toBe(gone.includes(comment) ? 1 : 2);
  for (const step of meant.sections.flatMap(({ steps }) => steps)) {
    const own = before.above.get(String(step.id)) ?? [];
    const lines = after!.split(/\r?\n/);
    const head = lines.findIndex((line) => new RegExp(`id: ["']?${String(step.id)}["']?\\b`).test(line));
    if (own.length > 0 && head >= own.length)
      expect(
        lines.slice(head - own.length, head).map((line) => line.trim()),
        after!,
      ).toEqual(own);
  }
  if (before.text.includes('\r\n')) expect(after!.replaceAll('\r\n', '')).not.toContain('\n');
  return true;
}

const runs = { numRuns: 100 };
const some = fc.nat(50);
const side = fc.constantFrom('before' as const, 'behind' as const);

describe('a guide written at random', () => {
  it('reads as it was meant', () => {
    fc.assert(
      fc.property(written, (one) => {
        expect(said(one.text)).toEqual(whole(one.guide, one.text));
      }),
      runs,
    );
  });

  it('takes a step in at any place', () => {
    fc.assert(
      fc.property(written, some, some, side, (one, a, b, at) => {
        const meant = copy(one.guide);
        const { path, steps, t } = stepIn(meant, a, b);
        steps.splice(at === 'before' ? t : t + 1, 0, JSON.parse(JSON.stringify(STEP)) as Step);
        expect(expectGuide(one, guideText(one.text).insertStep(path, at, STEP), meant)).toBe(true);
      }),
      runs,
    );
  });

  it('takes an operation in at any place, and first ones', () => {
    fc.assert(
      fc.property(written, some, some, some, side, (one, a, b, c, at) => {
        const meant = copy(one.guide);
        const { path, steps, t } = stepIn(meant, a, b);
        const list = steps[t]!.do as Data[] | undefined;
        const text = guideText(one.text);
        if (list === undefined) {
          steps[t]!.do = [JSON.parse(JSON.stringify(OPERATION)) as Data];
          expect(expectGuide(one, text.setOperations(path, [OPERATION]), meant)).toBe(true);
          return;
        }
        const o = c % list.length;
        list.splice(at === 'before' ? o : o + 1, 0, JSON.parse(JSON.stringify(OPERATION)) as Data);
        expect(expectGuide(one, text.insertOperation(`${path}.${o + 1}`, at, OPERATION), meant)).toBe(true);
      }),
      runs,
    );
  });

  it('moves steps, with their comments, to any place that is written alike', () => {
    let moved = 0;
    fc.assert(
      fc.property(written, some, some, some, some, fc.nat(2), side, (one, a, b, c, d, more, at) => {
        const meant = copy(one.guide);
        const from = stepIn(meant, a, b);
        const to = stepIn(meant, c, d);
        const count = Math.min(more + 1, from.steps.length - from.t);
        const edits = guideText(one.text).moveSteps(from.path, count, to.path, at);
        const target = to.steps[to.t]!;
        const run = from.steps.splice(from.t, count);
        if (run.includes(target)) {
          expect(edits).toBeNull();
          return;
        }
        const index = to.steps.indexOf(target);
        to.steps.splice(at === 'before' ? index : index + 1, 0, ...run);
        if (expectGuide(one, edits, meant)) moved++;
      }),
      runs,
    );
    expect(moved).toBeGreaterThan(10);
  });

  it('loses a step, or an operation, and no other comment', () => {
    fc.assert(
      fc.property(written, some, some, some, (one, a, b, c) => {
        const meant = copy(one.guide);
        const { path, steps, t } = stepIn(meant, a, b);
        const text = guideText(one.text);
        const list = steps[t]!.do as Data[] | undefined;
        const edits =
          list !== undefined && list.length > 1
            ? text.removeOperation(`${path}.${(c % list.length) + 1}`)
            : text.removeStep(path);
        if (edits === null) return;
        if (list !== undefined && list.length > 1) list.splice(c % list.length, 1);
        else steps.splice(t, 1);
        const removed = edits.map(({ place }) => one.text.slice(place.span.start, place.span.end)).join();
        const gone = one.comments.filter((comment) => removed.includes(comment));
        expectGuide(one, edits, meant, gone);
      }),
      runs,
    );
  });

  it('takes keys: new, in place of a value, and out again', () => {
    fc.assert(
      fc.property(
        written,
        some,
        some,
        fc.constantFrom('people', 'text', 'note', 'when', 'do'),
        fc.constantFrom<Data>(3, 'a: b', ['x', 'y, z'], { lockers: 'none' }),
        (one, a, b, key, value) => {
          const meant = copy(one.guide);
          const { path, steps, t } = stepIn(meant, a, b);
          const text = guideText(one.text);
          const old = one.guide.sections;
          expect(old).toEqual(meant.sections);
          steps[t]![key] = value;
          const set = text.setKey(path, key, value as never);
          const inside =
            set === null
              ? ''
              : set.map(({ place }) => one.text.slice(place.span.start, place.span.end)).join();
          expect(
            expectGuide(
              one,
              set,
              meant,
              one.comments.filter((comment) => inside.includes(comment)),
            ),
          ).toBe(true);
          delete steps[t]![key];
          const removed = text.removeKey(path, key);
          if (removed === null) return;
          const out = removed.map(({ place }) => one.text.slice(place.span.start, place.span.end)).join();
          expectGuide(
            one,
            removed,
            meant,
            one.comments.filter((comment) => out.includes(comment)),
          );
        },
      ),
      runs,
    );
  });
});

describe('what is repeated, or written in a strange way', () => {
  const changed = (text: string, change: (guide: GuideText) => Edit[] | null): string | null => {
    const edits = change(guideText(text));
    return edits === null ? null : applyEdits(text, edits);
  };
  const REPEATED = dedent(`
    sections:
      - title: A
        steps:
          - &lift
            text: Lift it.
            do: &ops
              - raise: vehicle
          - *lift
          - <<: *lift
            text: Once more.
          - text: And on.
            do: *ops
          - text: Alone.
            do: [{ lower: vehicle }]
  `);

  it('is not changed where an alias or a merge repeats it', () => {
    for (const step of ['1.1', '1.2', '1.3', '1.4']) {
      expect(
        changed(REPEATED, (guide) => guide.insertOperation(`${step}.1`, 'before', OPERATION)),
      ).toBeNull();
      expect(changed(REPEATED, (guide) => guide.setKey(`${step}.1`, 'with', 'x'))).toBeNull();
    }
    expect(changed(REPEATED, (guide) => guide.setKey('1.1', 'people', 2))).toBeNull();
    expect(changed(REPEATED, (guide) => guide.setKey('1.2', 'people', 2))).toBeNull();
    expect(changed(REPEATED, (guide) => guide.setOperations('1.3', [OPERATION]))).toBeNull();
    expect(changed(REPEATED, (guide) => guide.removeStep('1.1'))).toBeNull();
    expect(changed(REPEATED, (guide) => guide.setKey('1.3', 'people', 2))).toContain(
      'text: Once more.\n        people: 2',
    );
  });

  it('moves an anchor and its aliases only so that they keep their order', () => {
    expect(changed(REPEATED, (guide) => guide.moveSteps('1.1', 1, '1.2', 'behind'))).toBeNull();
    expect(changed(REPEATED, (guide) => guide.moveSteps('1.4', 1, '1.1', 'before'))).toBeNull();
    expect(said(changed(REPEATED, (guide) => guide.moveSteps('1.5', 1, '1.1', 'before'))!)).not.toBeNull();
    expect(said(changed(REPEATED, (guide) => guide.moveSteps('1.2', 1, '1.5', 'behind'))!)).not.toBeNull();
    expect(said(changed(REPEATED, (guide) => guide.insertStep('1.2', 'before', STEP))!)).not.toBeNull();
  });

  it('keeps away from a text that keeps the empty lines behind it', () => {
    const text = 'sections:\n  - steps:\n      - text: |+\n          Lift.\n\n      - text: Lower.\n';
    expect(changed(text, (guide) => guide.insertStep('1.1', 'behind', STEP))).toBeNull();
    expect(changed(text, (guide) => guide.moveSteps('1.2', 1, '1.1', 'before'))).toBeNull();
    expect(changed(text, (guide) => guide.setKey('1.1', 'people', 2))).toBeNull();
    expect(changed(text, (guide) => guide.insertStep('1.2', 'before', STEP))).toContain(
      'Lift.\n\n      - text: "Support',
    );
  });

  it('leaves maps without braces and marked keys alone', () => {
    const text =
      'sections:\n  - steps:\n      - text: x\n        do: [raise: vehicle]\n      - ? text\n        : y\n';
    expect(changed(text, (guide) => guide.setKey('1.1.1', 'with', 'jack'))).toBeNull();
    expect(changed(text, (guide) => guide.setKey('1.2', 'people', 2))).toBeNull();
    expect(changed(text, (guide) => guide.insertOperation('1.1.1', 'behind', { lower: 'x' }))).toContain(
      'do: [raise: vehicle, { lower: x }]',
    );
  });

  it('finds nothing where there is no such step', () => {
    for (const path of ['9.1', '1.9', '0', '', '1.1/2.1', 'x.y'])
      expect(guideText(REPEATED).insertStep(path, 'before', STEP)).toBeNull();
  });

  it('adds words to a key', () => {
    const text =
      'sections:\n  - steps:\n      - do:\n          - torque: a\n          - { torque: b, new: nut }\n          - { torque: c, new: [nut] }\n';
    const after = [1, 2, 3].reduce<string>(
      (one, number) => changed(one, (guide) => guide.addWord(`1.1.${number}`, 'new', 'pin'))!,
      text,
    );
    expect(after).toBe(
      'sections:\n  - steps:\n      - do:\n          - torque: a\n            new: [pin]\n          - { torque: b, new: [nut, pin] }\n          - { torque: c, new: [nut, pin] }\n',
    );
  });
});
