import { describe, expect, it } from 'vitest';
import { BARE, CLEAN, findings, guideOf, PLUG, VEHICLE, world } from './moorhen';
import { kitproof } from './program';

describe('exit status', () => {
  it.each([
    [CLEAN, [], 0],
    [CLEAN, ['--fail-on', 'info'], 0],
    [PLUG, [], 0],
    [PLUG, ['--fail-on', 'warning'], 1],
    [PLUG, ['--fail-on', 'info'], 1],
    [PLUG, ['--fail-on', 'never'], 0],
    [BARE, ['--fail-on', 'warning'], 0],
    [BARE, ['--fail-on', 'info'], 1],
    [BARE, ['--require-cover', '50'], 0],
    [BARE, ['--require-cover', '50.1'], 1],
    [BARE, ['--require-cover', '95%', '--fail-on', 'never'], 1],
    [`${CLEAN}  - steps: 1\n`, [], 1],
  ])('%#', async (guide, words, status) => {
    expect((await kitproof(['check', 'g.install.yaml', ...words], world(guide))).status).toBe(status);
  });
});

describe('the day', () => {
  const guide = guideOf(
    '      - do: [{ disconnect: locker-plug }]\n        waive: [{ rule: left-disconnected, because: Shipped so., by: A. Fitter, until: 2026-03-20 }]\n',
  );
  it('is today, or what --as-of says', async () => {
    const rules = async (...words: string[]) =>
      findings((await kitproof(['check', '--format', 'json', ...words], world(guide))).out).map(
        (one) => one.rule,
      );
    expect(await rules()).toEqual([]);
    expect(await rules('--as-of', '2026-03-20')).toEqual([]);
    expect(await rules('--as-of', '2026-03-21')).toContain('left-disconnected');
  });

  it('a waiver is counted in the summary', async () => {
    const { out } = await kitproof(['check', 'g.install.yaml'], world(guide));
    expect(out).toContain('waived: 1 (list them with --waived).');
  });

  it('what is waived is listed on demand, with who accepts it, why and until when', async () => {
    const text = await kitproof(['check', 'g.install.yaml', '--waived'], world(guide));
    expect(text.out).toContain(`Waived
  g.install.yaml:7:16  left-disconnected
    locker-plug is unplugged or opened and never connected again. (only with lockers: fitted)
    A. Fitter, until 2026-03-20: Shipped so.

No findings in 1 file.
Steps checked: 1 of 1 (100 %); undecided: 0; waived: 1.
`);
    const json = await kitproof(['check', 'g.install.yaml', '--waived', '--format', 'json'], world(guide));
    expect(JSON.parse(json.out).waived).toMatchObject([
      {
        file: 'g.install.yaml',
        line: 7,
        column: 16,
        rule: 'left-disconnected',
        message: 'locker-plug is unplugged or opened and never connected again.',
        variants: [{ lockers: ['fitted'] }],
        because: 'Shipped so.',
        by: 'A. Fitter',
        until: '2026-03-20',
        waiver: { file: 'g.install.yaml', line: 8, column: 25 },
      },
    ]);
    const none = await kitproof(['check', 'g.install.yaml', '--waived'], world(CLEAN));
    expect(none.out).toContain('Nothing is waived.\n');
    const plain = await kitproof(['check', 'g.install.yaml', '--format', 'json'], world(guide));
    expect(JSON.parse(plain.out)).not.toHaveProperty('waived');
  });
});

it('an unknown kind or aid says where the words are', async () => {
  const files = {
    'm.vehicle.yaml': `${VEHICLE}  flux: { kind: zorblax, spans: [frame, front-axle] }\n`,
    'g.install.yaml': guideOf('      - do: [{ raise: vehicle, with: zorblax }, { lower: vehicle }]\n'),
  };
  const { out } = await kitproof(['check', '--format', 'json'], { files });
  const messages = JSON.parse(out).findings.map((one: { message: string }) => one.message);
  expect(messages).toContain(
    'Neither the rule packs nor this file have a kind "zorblax"; the words there are stand in schemas/words.md, or declare it under kinds:.',
  );
  expect(messages).toContain(
    'No rule pack knows the aid "zorblax"; the words there are stand in schemas/words.md, or declare it under aids: in a rules file.',
  );
});
