import { describe, expect, test } from 'vitest';
import { kitproof } from '../cli/program';

const guide = (figure: string) => `kitproof: install/1
title: Step plate
sections:
  - title: On
    steps:
      - { text: Look., figure: ${figure}, do: [{ check: plate }] }
`;
const found = async (figure: string) => {
  const { out } = await kitproof(['check', 'plate.install.yaml', '--format', 'json'], {
    files: { 'plate.install.yaml': guide(figure), 'pictures/plate.svg': '<svg/>' },
  });
  const { findings } = JSON.parse(out) as { findings: { rule: string; message: string; severity: string }[] };
  return findings.map(({ rule, severity }) => `${severity} ${rule}`);
};

describe('pictures', () => {
  test('that are there and described are silent', async () => {
    expect(await found('{ file: pictures/plate.svg, alt: The plate. }')).toEqual([]);
  });
  test('that are not there are found', async () => {
    expect(await found('{ file: pictures/plat.svg, alt: The plate. }')).toEqual(['warning missing-picture']);
  });
  test('without words are found', async () => {
    expect(await found('{ file: pictures/plate.svg, caption: The plate. }')).toEqual([
      'info picture-without-words',
    ]);
    expect(await found('{ file: pictures/plate.svg, alt: " " }')).toEqual(['info picture-without-words']);
  });
});
