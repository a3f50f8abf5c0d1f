/** Every fix that is offered mends: the finding is gone, nothing new stands, and the rest of the text is the same. */

import { afterAll, describe, expect, it } from 'vitest';
import { applyEdits, editsByDocument } from '../../server/src/edit/apply';
import type { Finding, Fix } from '../../server/src/findings/finding';
import { type Checked, checkedGuide } from '../../server/src/workspace/checked-guide';
import { readDocument } from '../../server/src/workspace/document';
import { fixesFor } from '../../server/src/workspace/fixes';
import { type Case, exampleCases, procedureCases, run, sampleCases, withFile } from './corpus';

const TODAY = '2026-03-14';
/** Of the larger sets every so-manieth is tried, another one each day of the week would find no more. */
const STRIDE = Number(process.env.KITPROOF_FIXES_STRIDE ?? 4);

/** Findings by rule: how many there were, and how many have a fix. */
const counted = new Map<string, { all: number; mended: number }>();

/** What a finding is known by when the places have moved. */
const identity = ({ rule, item, sides }: Finding): string => `${rule} ${item ?? ''} ${(sides ?? []).join()}`;

function counts(findings: readonly Finding[]): Map<string, number> {
  const found = new Map<string, number>();
  for (const finding of findings) {
    if (finding.rule === 'draft-step') continue;
    // A fix may leave less of another finding than there was: one side of two.
    found.set(identity(finding), (found.get(identity(finding)) ?? 0) + 1);
  }
  return found;
}

const commentsOf = (text: string): string[] =>
  text
    .split('\n')
    // The mark under an operation that is left out goes with it.
    .filter((line) => line.trim().startsWith('#') && !/^# +\^/.test(line))
    .sort();

async function expectMended(one: Case, before: Checked, finding: Finding, fix: Fix): Promise<void> {
  const why = `${one.name}: ${finding.rule}: ${fix.title}`;
  const byDocument = editsByDocument(fix.edits);
  expect([...byDocument.keys()], why).toEqual([before.closure.document.uri]);
  const { text, uri } = before.closure.document;
  const after = applyEdits(text, byDocument.get(uri)!);
  expect(after, why).not.toBeNull();
  expect(commentsOf(after!), why).toEqual(commentsOf(text));
  expect(readDocument(uri, after!)?.reading.problems.length, why).toBe(
    before.closure.document.reading.problems.length,
  );
  const closure = await withFile(one, after!);
  const checked = run(checkedGuide(closure, TODAY));
  const known = counts(before.findings);
  const now = counts(checked.findings);
  // What a slip of the pen hid may come to light.
  const hidden = finding.harm === null;
  expect(now.get(identity(finding)) ?? 0, `${why}: is gone`).toBeLessThan(known.get(identity(finding))!);
  if (hidden) return;
  for (const other of checked.findings) {
    if (other.rule === 'draft-step' || (now.get(identity(other)) ?? 0) <= (known.get(identity(other)) ?? 0))
      continue;
    const wider = before.findings.some(
      ({ rule, item, sides = [] }) =>
        rule === other.rule &&
        item === other.item &&
        (other.sides ?? []).every((side) => sides.includes(side)),
    );
    expect(wider, `${why}\nbrings ${other.rule}: ${other.message}\n${after}`).toBe(true);
  }
}

/** A line that a fix leaves alone is the same bytes: taking out what is new, and putting back what went, gives the text. */
function expectRestSame(before: string, fix: Fix): void {
  const spans = fix.edits.map(({ place }) => place.span).sort((a, b) => a.start - b.start);
  for (const [index, span] of spans.entries()) {
    expect(span.end).toBeGreaterThanOrEqual(span.start);
    expect(span.start).toBeGreaterThanOrEqual(spans[index - 1]?.end ?? 0);
    expect(span.end).toBeLessThanOrEqual(before.length);
  }
  const touched = spans.reduce((sum, { start, end }) => sum + end - start, 0);
  const lines = before.split('\n').length;
  if (lines > 40) expect(touched).toBeLessThan(before.length / 3);
}

const sets: readonly [string, readonly Case[]][] = [
  ['samples', sampleCases()],
  ['procedures', procedureCases().filter((_, index) => index % STRIDE === 0)],
  ["the packs' examples", exampleCases().filter((_, index) => index % STRIDE === 0)],
];

describe.each(sets)('%s', (_, cases) => {
  it.each(cases.map((one) => [one.name, one] as const))('%s', async (_, one) => {
    const before = run(checkedGuide(await one.closure(), TODAY));
    for (const finding of before.findings) {
      if (finding.rule === 'unchecked-step') continue;
      const fixes = run(fixesFor(before, finding, TODAY));
      const count = counted.get(finding.rule) ?? { all: 0, mended: 0 };
      counted.set(finding.rule, { all: count.all + 1, mended: count.mended + (fixes.length > 0 ? 1 : 0) });
      expect(fixes.length).toBeLessThanOrEqual(4);
      expect(new Set(fixes.map(({ title }) => title)).size).toBe(fixes.length);
      for (const fix of fixes) {
        // What is wrong in a kit is mended there.
        const at = fix.edits[0]!.place.uri;
        expectRestSame((before.closure.documents.get(at) ?? before.closure.document).text, fix);
        await expectMended(one, before, finding, fix);
      }
    }
  });
});

afterAll(() => {
  const all = [...counted.values()];
  const sum = (key: 'all' | 'mended') => all.reduce((total, one) => total + one[key], 0);
  const none = [...counted].flatMap(([rule, { mended }]) => (mended === 0 ? [rule] : [])).sort();
  console.log(`fixes: ${sum('mended')} of ${sum('all')} findings have one; none of: ${none.join(', ')}`);
});
