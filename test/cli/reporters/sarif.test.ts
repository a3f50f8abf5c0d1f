import { createRequire } from 'node:module';
import { expect, it } from 'vitest';
import { kitproof } from '../program';
import { FILES, GUIDE, reported } from './support';

/** The standard's schema as one package carries it (2.1.0-rtm.5, draft 4), with the validator that it brings. */
const own = createRequire(import.meta.url);
const beside = createRequire(own.resolve('@microsoft/jest-sarif/lib/schemas/sarif-2.1.0-rtm.5.json'));
const Ajv = beside('ajv');
const ajv = new Ajv({ schemaId: 'auto', validateSchema: false, unknownFormats: 'ignore', allErrors: true });
ajv.addMetaSchema(beside('ajv/lib/refs/json-schema-draft-04.json'));
const validate = ajv.compile(beside('@microsoft/jest-sarif/lib/schemas/sarif-2.1.0-rtm.5.json'));

async function log(files: Readonly<Record<string, string>> = FILES) {
  const { out } = await reported('sarif', [], files);
  const value = JSON.parse(out);
  expect(validate(value) ? [] : validate.errors).toEqual([]);
  return value.runs[0];
}

it('is what the standard asks for', async () => {
  const { tool, results, columnKind, properties } = await log();
  expect(tool.driver.name).toBe('Kitproof');
  expect(columnKind).toBe('utf16CodeUnits');
  expect(properties.coverage).toMatchObject({ steps: 3, checkedSteps: 2, waived: 1 });
  const [loose] = results.filter(({ ruleId }: { ruleId: string }) => ruleId === 'left-loose');
  expect(loose).toMatchObject({
    level: 'error',
    message: { text: 'bracket.bolt never gets its final torque. Only with lockers: fitted.' },
    locations: [
      {
        physicalLocation: {
          artifactLocation: { uri: 'guides/b.install.yaml', uriBaseId: 'SRCROOT' },
          region: { startLine: 11, startColumn: 13, endLine: 11, endColumn: 33 },
        },
      },
    ],
    properties: { harm: 'injury', item: 'bracket.bolt', variants: [{ lockers: ['fitted'] }] },
  });
  expect(tool.driver.rules[loose.ruleIndex]).toMatchObject({
    id: 'left-loose',
    help: { text: expect.stringContaining('Source: ') },
  });
});

it('tells of fixes as replacements, and of what is waived with its reason', async () => {
  const { results } = await log();
  const by = (rule: string) => results.find(({ ruleId }: { ruleId: string }) => ruleId === rule);
  expect(by('unknown-name').fixes[0].artifactChanges[0].replacements[0]).toEqual({
    deletedRegion: { startLine: 15, startColumn: 19, endLine: 15, endColumn: 27 },
    insertedContent: { text: 'bracket' },
  });
  expect(by('left-isolated').suppressions).toEqual([
    { kind: 'inSource', status: 'accepted', justification: 'The next shop connects it. (A. Fitter)' },
  ]);
});

it('tells of fixes that mend what they are for, applied as they are written', async () => {
  const { results } = await log();
  const mended = results.filter(({ fixes }: { fixes?: unknown[] }) => fixes !== undefined);
  expect(mended.length).toBeGreaterThan(0);
  for (const { ruleId, fixes } of mended) {
    for (const { artifactChanges } of fixes) {
      const files: Record<string, string> = { ...FILES };
      for (const { artifactLocation, replacements } of artifactChanges) {
        const lines = files[artifactLocation.uri]!.split('\n');
        for (const { deletedRegion, insertedContent } of [...replacements].reverse()) {
          const { startLine, startColumn, endLine, endColumn } = deletedRegion;
          expect(endLine).toBe(startLine);
          const line = lines[startLine - 1]!;
          lines[startLine - 1] =
            line.slice(0, startColumn - 1) + insertedContent.text + line.slice(endColumn - 1);
        }
        files[artifactLocation.uri] = lines.join('\n');
      }
      const rules = (await log(files)).results.map((one: { ruleId: string }) => one.ruleId);
      expect(rules).not.toContain(ruleId);
    }
  }
});

it('knows a finding again where lines have moved, and tells equal ones apart', async () => {
  const prints = async (text: string) =>
    (await log({ ...FILES, 'guides/b.install.yaml': text })).results.map(
      ({ ruleId, partialFingerprints }: { ruleId: string; partialFingerprints: Record<string, string> }) =>
        `${ruleId} ${partialFingerprints['kitproofFinding/v1']}`,
    );
  const before = await prints(GUIDE);
  expect(await prints(GUIDE.replace('title: Bracket', '# One more line.\n\ntitle: Bracket'))).toEqual(before);
  const twice = await prints(
    GUIDE.replace('- snug: brackett\n', '- snug: brackett\n          - snug: brackett\n'),
  );
  expect(new Set(twice).size).toBe(twice.length);
  expect(twice).toEqual(expect.arrayContaining(before));
});

it('holds for every sample, faulty ones among them', async () => {
  const { readdirSync, readFileSync } = await import('node:fs');
  const folder = `${import.meta.dirname}/../../../samples`;
  const files: Record<string, string> = {};
  for (const name of readdirSync(folder, { recursive: true, encoding: 'utf8' }))
    if (name.endsWith('.yaml')) files[`guides/${name}`] = readFileSync(`${folder}/${name}`, 'utf8');
  const { results } = await log(files);
  expect(results.length).toBeGreaterThan(50);
  const again = await kitproof(['check', 'guides', '--format', 'sarif'], { files });
  expect(JSON.parse(again.out).runs[0].results).toEqual(results);
});
