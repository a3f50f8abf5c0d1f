/** What is told while a guide is bound is ruled like everything else: switched off, of another harm, waived, overridden by a house. */

import { describe, expect, it } from 'vitest';
import { checkFiles, type EngineConfig } from '../support/engine';

const guide = (more = '') => ({
  'g.install.yaml': `kitproof: install/1
title: Bellows
sections:
  - title: Work
    steps:
      - text: Fill both bellows to 1 bar.
${more}        do: [{ inflate: bellows, to: 2 bar }]
`,
});

async function told(files: Record<string, string>, config: EngineConfig = {}): Promise<string[]> {
  const { findings } = await checkFiles(files, config);
  return findings.map(({ rule, severity, harm }) => `${severity} ${rule} ${harm}`);
}

describe('what binding tells', () => {
  it('has the harm of its rule', async () => {
    expect(await told(guide())).toEqual(['warning words-against-data damage']);
  });

  it('is switched off', async () => {
    expect(await told(guide(), { rules: { 'words-against-data': 'off' } })).toEqual([]);
  });

  it('counts as the house says', async () => {
    expect(await told(guide(), { rules: { 'words-against-data': 'error' } })).toEqual([
      'error words-against-data damage',
    ]);
  });

  it('is waived where it stands', async () => {
    const waived =
      '        waive: [{ rule: words-against-data, because: The words are being translated., by: A. Writer, until: 2099-01-01 }]\n';
    expect(await told(guide(waived))).toEqual([]);
  });
});
