import { describe, expect, it } from 'vitest';
import { BARE, findings, guideOf, PLUG, world } from './moorhen';
import { kitproof } from './program';

describe('json', () => {
  it('has exactly its fields, in order', async () => {
    const { out } = await kitproof(['check', '--format', 'json'], world(PLUG));
    const report = JSON.parse(out);
    expect(Object.keys(report)).toEqual(['version', 'findings', 'summary']);
    expect(Object.keys(report.summary)).toEqual(['files', 'errors', 'warnings', 'infos', 'coverage']);
    expect(report.findings).toHaveLength(1);
    expect(Object.keys(report.findings[0])).toEqual(
      'file line column endLine endColumn rule severity harm message variants related fixes fingerprint'.split(
        ' ',
      ),
    );
    expect(report.findings[0]).toMatchObject({
      file: 'g.install.yaml',
      line: 7,
      column: 16,
      endLine: 7,
      endColumn: 39,
      rule: 'left-disconnected',
      severity: 'warning',
      variants: [{ lockers: ['fitted'] }],
    });
    expect(report.summary).toEqual({
      files: 2,
      errors: 0,
      warnings: 1,
      infos: 0,
      coverage: { steps: 1, checkedSteps: 1, undecided: 0, waived: 0 },
    });
  });

  it('has no harm where the mistake is in the writing, and the titles of fixes', async () => {
    const { out } = await kitproof(
      ['check', '--format', 'json'],
      world(guideOf('      - do: [{ lowr: vehicle }]\n')),
    );
    expect(JSON.parse(out).findings[0]).toMatchObject({
      harm: null,
      severity: 'error',
      fixes: [{ title: expect.any(String) }],
    });
  });

  it('counts columns in UTF-16 units', async () => {
    const guide = guideOf('      - { text: "🔧", do: [{ disconnect: locker-plug }] }\n');
    const { out } = await kitproof(['check', '--format', 'json'], world(guide));
    expect(findings(out)[0]!.column).toBe('      - { text: "🔧", do: [{ '.length + 1);
  });

  it('is the same whatever order the files are asked in', async () => {
    const files = { ...world(PLUG).files, 'a.install.yaml': BARE };
    const a = await kitproof(['check', 'g.install.yaml', 'a.install.yaml', '--format', 'json'], { files });
    const b = await kitproof(
      ['check', 'a.install.yaml', 'g.install.yaml', 'a.install.yaml', '--format', 'json'],
      { files },
    );
    expect(a.out).toBe(b.out);
  });
});
