import { describe, expect, it } from 'vitest';
import { kitproof } from './program';
import { FILES, GUIDE } from './reporters/support';

async function report(format: string): Promise<string> {
  return (await kitproof(['check', 'guides', '--format', format], { files: FILES })).out;
}

const against = async (text: string, baseline: string, ...words: string[]) =>
  kitproof(['check', 'guides', '--baseline', 'old.json', ...words], {
    files: { ...FILES, 'guides/b.install.yaml': text, 'old.json': baseline },
  });

describe.each(['sarif', 'json'])('against an earlier report, as %s', (format) => {
  it('what was known is left out, though its lines have moved, and the exit status is that of the rest', async () => {
    const moved = GUIDE.replace('title: Bracket', '# A line.\n# Another.\ntitle: Bracket');
    const { out, status } = await against(moved, await report(format));
    expect(status).toBe(0);
    expect(out).toContain('No new findings in 2 files.');
    expect(out).toContain('Left out, as the baseline has them: 2 findings.');
  });

  it('what is new is told', async () => {
    const worse = GUIDE.replace('- snug: brackett\n', '- snug: brackett\n          - snug: brackettt\n');
    const { out, status } = await against(worse, await report(format), '--format', 'json');
    expect(status).toBe(1);
    const { findings, summary } = JSON.parse(out);
    expect(findings.map(({ line }: { line: number }) => line)).toEqual([16]);
    expect(summary).toMatchObject({ errors: 1, before: 2 });
  });

  it('a second one of a kind that was known once is new', async () => {
    const twice = GUIDE.replace('- snug: brackett\n', '- snug: brackett\n          - snug: brackett\n');
    const { status } = await against(twice, await report(format));
    expect(status).toBe(1);
  });
});

describe('a baseline that is none', () => {
  it.each([
    ['{', 'is no report'],
    ['[]', 'is no report'],
    ['{"runs": 3}', 'is no report'],
    ['null', 'is no report'],
  ])('%s', async (text, sentence) => {
    const { status, err } = await against(GUIDE, text);
    expect(status).toBe(3);
    expect(err).toContain(sentence);
  });

  it('a file that is not there', async () => {
    const { status, err } = await kitproof(['check', 'guides', '--baseline', 'no.json'], { files: FILES });
    expect(status).toBe(3);
    expect(err).toContain('no.json could not be read');
  });

  it('one with odd things in it knows nothing of them', async () => {
    const { status } = await against(
      GUIDE,
      '{"runs": [1, {"results": [null, {}, {"partialFingerprints": 3}]}]}',
    );
    expect(status).toBe(1);
  });
});
