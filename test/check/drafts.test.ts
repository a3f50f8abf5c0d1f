import { expect, it } from 'vitest';
import { checkFiles } from '../support/engine';
import { expectFindings, parseFixture } from '../support/fixture';

const FIXTURE = `
  kitproof: install/1
  title: Bracket
  sections:
    - title: S
      steps:
        - text: Take it off.
          draft: true
          #^^^^^^^^^^ warning[draft-step]: This step is a draft
          do: [{ unbolt: old-bracket }, { discard: old-bracket }]
        - { text: Read and cleared., draft: false, do: [{ check: paint }] }
`;

it('a draft is a warning until a person takes the mark away', async () => {
  const { files } = parseFixture(FIXTURE);
  const { findings } = await checkFiles(Object.fromEntries(files.map(({ name, text }) => [name, text])));
  const named = findings.map((one) => ({
    ...one,
    place: { ...one.place, uri: one.place.uri.slice('/project/'.length) },
  }));
  expectFindings(FIXTURE, () => named);
  expect(named[0]).toMatchObject({ harm: 'paperwork', operation: '1.1' });
});
