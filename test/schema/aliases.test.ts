import { expect, test } from 'vitest';
import type { Place } from '../../server/src/findings/finding';
import { type OpenDocumentOf, openDocument } from '../../server/src/schema/document';
import { dedent } from '../support/fixture';

function openGuide(text: string) {
  const document = openDocument('a.install.yaml', text) as OpenDocumentOf<'install'>;
  const shown = (place: Place | null) => place && text.slice(place.span.start, place.span.end);
  return { ...document, shown };
}

const guide = (operations: string) =>
  dedent(`
    kitproof: install/1
    title: T
    sections:
      - title: S
        steps:
          - do:
    `) + operations;

test('an alias: where it is used, and where its anchor is written', () => {
  const text = guide(
    '          - &off { unbolt: &wheels [front-wheel, rear-wheel] }\n          - *off\n          - remove: *wheels\n',
  );
  const { value, at, shown, findings } = openGuide(text);
  expect(findings).toEqual([]);
  const list = value.sections[0]!.steps[0]!.do!;
  expect(list[1]).toEqual(list[0]);
  expect(list[1]).not.toBe(list[0]);
  expect(shown(at.value(list, 0))).toBe('{ unbolt: &wheels [front-wheel, rear-wheel] }');
  expect(at.origin(list, 0)).toBeNull();
  expect(shown(at.value(list, 1))).toBe('*off');
  expect(at.origin(list, 1)).toEqual(at.value(list, 0));
  expect(at.use(list[0]!)).toBeNull();
  expect(shown(at.use(list[1]!))).toBe('*off');
  expect(shown(at.key(list[1]!, 'unbolt'))).toBe('unbolt');
  const remove = list[2] as { remove: string[] };
  expect(shown(at.value(remove, 'remove'))).toBe('*wheels');
  expect(shown(at.origin(remove, 'remove'))).toBe('[front-wheel, rear-wheel]');
  expect(shown(at.value(remove.remove, 1))).toBe('rear-wheel');
  expect(shown(at.use(remove.remove))).toBe('*wheels');
});

test('a merge: its own keys win, and its place is where it is merged', () => {
  const text = guide(
    '          - &base { torque: a.b, to: 90 N·m, with: bar }\n          - <<: *base\n            to: 100 N·m\n',
  );
  const { value, at, shown, findings } = openGuide(text);
  expect(findings).toEqual([]);
  const merged = value.sections[0]!.steps[0]!.do![1]!;
  expect(merged).toEqual({ torque: 'a.b', to: '100 N·m', with: 'bar' });
  expect(shown(at.value(merged, 'to'))).toBe('100 N·m');
  expect(at.origin(merged, 'to')).toBeNull();
  expect(shown(at.key(merged, 'torque'))).toBe('*base');
  expect(shown(at.value(merged, 'torque'))).toBe('*base');
  expect(shown(at.origin(merged, 'torque'))).toBe('a.b');
  expect(at.keys(merged)).toEqual(['to', 'torque', 'with']);
});

test('a mistake behind an alias is told once, at its anchor', () => {
  const text = guide(
    '          - &off { unbolt: a, to: 4 }\n          - *off\n          - *off\n          - unbolt: b\n            when: &w { x: {} }\n          - { unbolt: c, when: *w }\n',
  );
  const { findings, shown } = openGuide(text);
  expect(findings.map((finding) => [finding.rule, shown(finding.place)])).toEqual([
    ['unknown-key', 'to'],
    ['bad-condition', '{}'],
  ]);
});

test('an alias that names nothing is told of by the reader alone', () => {
  const { value, findings } = openGuide(
    guide('          - *nothing\n          - { torque: *none, to: *none }\n          - fit: a\n'),
  );
  expect(new Set(findings.map((finding) => finding.rule)).size).toBe(1);
  expect(value.sections[0]!.steps[0]!.do).toEqual([{ invalid: true }, { invalid: true }, { fit: 'a' }]);
});

test('aliases that name themselves or grow without measure end with a finding', () => {
  const circular = openGuide(guide('          - &a { unbolt: [*a] }\n          - &b [*b]\n'));
  expect(circular.findings.length).toBeGreaterThan(0);
  const lines = ['          - &a0 { unbolt: a }'];
  for (let index = 1; index < 30; index++)
    lines.push(`          - &a${index} [*a${index - 1}, *a${index - 1}]`);
  const started = performance.now();
  const bomb = openGuide(guide(`${lines.join('\n')}\n`));
  expect(bomb.findings.length).toBeGreaterThan(0);
  expect(performance.now() - started).toBeLessThan(5000);
});

test('many uses of a large anchor stay within bounds', () => {
  const wheels = Array.from({ length: 900 }, (_, index) => `w${index}`).join(', ');
  const uses = Array.from({ length: 900 }, () => '          - { unbolt: *w }\n').join('');
  const started = performance.now();
  const { findings, value } = openGuide(
    guide(`          - unbolt: &w [${wheels}]\n${uses}          - fit: last\n`),
  );
  expect(findings.map((finding) => finding.rule)).toEqual(['too-many-values']);
  const list = value.sections[0]!.steps[0]!.do!;
  expect(list).toHaveLength(902);
  expect(list[901]).toEqual({ fit: 'last' });
  expect(performance.now() - started).toBeLessThan(8000);
});
