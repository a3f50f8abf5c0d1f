import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { checkDocuments } from '../../server/src/workspace/check';
import { Checker } from '../../server/src/workspace/checker';
import { readDocument } from '../../server/src/workspace/document';
import { OpenText } from '../../server/src/workspace/editor';
import { memoryFiles } from '../../server/src/workspace/memory';
import { standardPacks } from '../../server/src/workspace/packs';
import { Project } from '../../server/src/workspace/project';
import { filesBelow } from '../../server/src/workspace/scan';
import { GUIDE, VEHICLE } from './world';

const TODAY = '2026-03-14';

/** All samples, as they stand on the disk. */
function samples(): Map<string, string> {
  const contents = new Map<string, string>();
  const read = (folder: string, name: string): void => {
    for (const entry of readdirSync(folder, { withFileTypes: true })) {
      const path = join(folder, entry.name);
      if (entry.isDirectory()) read(path, `${name}/${entry.name}`);
      else contents.set(`${name}/${entry.name}`, readFileSync(path, 'utf8'));
    }
  };
  read(join(process.cwd(), 'samples'), '/samples');
  return contents;
}

it('what the editor shows of all samples is what a check of all at once gives', async () => {
  const contents = samples();
  const names = await filesBelow(memoryFiles(contents), '/samples');
  const whole = await checkDocuments(new Project(memoryFiles(contents), standardPacks()), names, {
    today: TODAY,
  });
  const project = new Project(memoryFiles(contents), standardPacks());
  const checker = new Checker(
    project,
    () => TODAY,
    () => false,
    () => undefined,
  );
  for (const name of names) if ((await project.open(name)) !== null) checker.add(name);
  await checker.whenAll();
  const shown = checker.documents().flatMap((name) => checker.findingsOf(name));
  expect(shown).toEqual(whole!.findings);
}, 120_000);

it('edits in any of three files leave what a fresh check gives', async () => {
  const start: Readonly<Record<string, string>> = {
    '/shop/a.install.yaml': GUIDE,
    '/shop/b.install.yaml': GUIDE.replace('          - loosen: bracket.bolt\n', '').replace(
      'title: Bracket off',
      'title: B',
    ),
    '/shop/moorhen.vehicle.yaml': VEHICLE,
  };
  const edit = fc.record({
    file: fc.constantFrom(...Object.keys(start)),
    at: fc.nat(1400),
    deleted: fc.nat(12),
    text: fc.constantFrom(
      '',
      'x',
      '\n',
      ': ',
      '- ',
      'bracket',
      '{',
      ']',
      '"',
      '&a ',
      '*a',
      '#',
      '\t',
      'when: { lockers: fitted }',
      '\u{1F600}',
    ),
  });
  await fc.assert(
    fc.asyncProperty(fc.array(edit, { minLength: 1, maxLength: 8 }), async (edits) => {
      const contents = new Map(Object.entries(start));
      const project = new Project(memoryFiles(contents), standardPacks());
      const checker = new Checker(
        project,
        () => TODAY,
        () => true,
        () => undefined,
      );
      const texts = new Map(
        [...contents].map(([name, text]) => [name, new OpenText(name, `file://${name}`, 1, text)] as const),
      );
      for (const name of contents.keys()) checker.add(name);
      await checker.whenAll();
      for (const { file, at, deleted, text } of edits) {
        const open = texts.get(file)!;
        const lines = (readDocument(file, open.text)?.lines ?? null) as {
          positionAt(at: number): never;
        } | null;
        const position = (offset: number) => lines?.positionAt(offset) ?? { line: 0, character: offset };
        open.change(
          [{ range: { start: position(at), end: position(at + deleted) }, text }],
          open.version + 1,
        );
        contents.set(file, open.text);
        project.hold(file, open.text, open.document());
        checker.touch(file);
      }
      await checker.whenAll();
      const fresh = new Project(memoryFiles(contents), standardPacks());
      const whole = await checkDocuments(fresh, [...contents.keys()], { today: TODAY });
      expect(checker.documents().flatMap((name) => checker.findingsOf(name))).toEqual(whole!.findings);
    }),
    { numRuns: 15, seed: 4711 },
  );
}, 120_000);

it('edits of prose, times, comments and layout leave what a fresh check gives', async () => {
  const contents = samples();
  const name = '/samples/faulty/axle-not-carried.install.yaml';
  const project = new Project(memoryFiles(contents), standardPacks());
  const checker = new Checker(
    project,
    () => TODAY,
    () => true,
    () => undefined,
  );
  const open = new OpenText(name, `file://${name}`, 1, contents.get(name)!);
  checker.add(name);
  await checker.whenAll();
  const found = () => checker.documents().flatMap((one) => checker.findingsOf(one));
  expect(found().length).toBeGreaterThan(0);
  const words = fc.constantFrom(
    'x',
    ' ',
    'and so',
    '{',
    '}',
    '{part:x}',
    "'",
    ' #',
    '\n',
    '# remark\n',
    ':',
    ': ',
    '1',
    '\n    time: 5 min',
  );
  await fc.assert(
    fc.asyncProperty(fc.nat(3000), fc.nat(2), words, async (at, deleted, text) => {
      const from = at % open.text.length;
      const lines = readDocument(name, open.text)?.lines;
      if (lines === undefined) return;
      const range = { start: lines.positionAt(from), end: lines.positionAt(from + deleted) };
      const before = open.text;
      open.change([{ range, text }], open.version + 1);
      const check = async (): Promise<void> => {
        contents.set(name, open.text);
        project.hold(name, open.text, open.document());
        checker.touch(name);
        await checker.whenAll();
        const fresh = new Project(memoryFiles(contents), standardPacks());
        expect(found()).toEqual((await checkDocuments(fresh, [name], { today: TODAY }))!.findings);
      };
      await check();
      open.change([{ text: before }], open.version + 1);
      await check();
    }),
    { numRuns: 25, seed: 815 },
  );
}, 120_000);
