import { describe, expect, it } from 'vitest';
import {
  type Allowance,
  type AllowanceBase,
  factorOf,
  printShare,
  readAllowance,
  shareOf,
} from '../../server/src/labour/allowance';
import { find } from '../../server/src/text/access';
import { readText } from '../../server/src/text/read';
import { expectChecked } from '../support/marked';

const allowance = (on: AllowanceBase, ...shares: number[]): Allowance => ({
  on,
  shares: shares.map((share, index) => ({ name: `share ${index}`, share })),
});

describe('an allowance', () => {
  // SEEN: a worked answer of uonbi.ac.ke: observed 20 s, rating 1.20, so normal 24 s; 20 % on job time: 24 × 1.20 = 28.8 s.
  it('on job time multiplies: 24 s with 20 % are 28.8 s', () => {
    expect(20 * 1.2 * factorOf(allowance('job-time', 0.2))).toBeCloseTo(28.8, 9);
  });

  // SEEN: an excerpt at stuvia.com of normal times with 13 %, which speaks of job time and divides: that is the shift form.
  it.each([
    [0.407, 0.468],
    [1.282, 1.474],
    [0.916, 1.053],
    [1.15, 1.322],
    [3.755, 4.316],
  ])('on shift time divides: %d with 13 %% are %d', (normal, standard) => {
    expect(normal * factorOf(allowance('shift-time', 0.13))).toBeCloseTo(standard, 3);
    // The other form would give another figure, so that the words have to say which.
    expect(normal * factorOf(allowance('job-time', 0.13))).not.toBeCloseTo(standard, 3);
  });

  // SEEN: Industrial process plant construction estimating, p. xxxii: personal, fatigue and delay of 15 % give 1.176.
  it('for personal needs, fatigue and delay of 15 % on shift time is 1.176', () => {
    expect(factorOf(allowance('shift-time', 0.05, 0.04, 0.06))).toBeCloseTo(1.176, 3);
  });

  // MEMORY: Introduction to Work Study (ILO), constant relaxation allowances: 5 % personal and 4 % basic fatigue.
  it('adds its shares up', () => {
    expect(shareOf(allowance('job-time', 0.05, 0.04))).toBeCloseTo(0.09, 12);
    expect(factorOf(allowance('job-time', 0.07, 0.04))).toBeCloseTo(1.11, 12);
    expect(factorOf(allowance('job-time'))).toBe(1);
    expect(factorOf(allowance('shift-time', 1.2))).toBe(1);
  });
});

/** What `allowances:` with this text is read as. */
function read(text: string) {
  const reading = readText(`allowances: ${text}\n`);
  return readAllowance('/kitproof.yaml', find(reading.root!, 'allowances', reading)?.value, reading);
}

describe('allowances in a configuration', () => {
  it('are percent or shares, by name, on job time or on shift time', () => {
    expect(
      read('{ personal: 5 %, fatigue: "4%", delay: 0.03, other: "4,5 %", on: shift-time }').allowance,
    ).toEqual({
      on: 'shift-time',
      shares: [
        { name: 'personal', share: 0.05 },
        { name: 'fatigue', share: 0.04 },
        { name: 'delay', share: 0.03 },
        { name: 'other', share: 0.045 },
      ],
    });
    expect(printShare(0.1225)).toBe('12.25 %');
  });

  it('that cannot be are told where they stand, and nothing is added for them', () => {
    const none = (text: string) => {
      const { allowance, findings } = read(text);
      expect(findings, text).toHaveLength(1);
      return allowance.shares.length;
    };
    for (const share of ['-3 %', '5 min', '15', '1', 'much', '"% 5"', '.inf', '5 % 5', '""'])
      expect(none(`{ delay: ${share}, on: job-time }`), share).toBe(0);
    expect(none('{ personal: 5 %, delay: 100 %, on: shift-time }')).toBe(1);
    expect(none('{ personal: 60 %, delay: 50 %, on: shift-time }')).toBe(0);
    // On job time it is much, and it can be.
    expect(read('{ delay: 120 %, on: job-time }').findings).toHaveLength(0);
  });

  it('are findings of their file', async () => {
    await expectChecked(`
      # file: kitproof.yaml
      kitproof: config/1
      allowances:
        personal: -5 %
        #         ^^^^ error[bad-number]: An allowance adds to the working time
        fatigue: 4 min
        #        ^^^^^ error[bad-quantity]: written as 5 % or 0.05
        delay: 15
        #      ^^ error[bad-number]: 15 % was probably meant
        on: job-time
    `);
    await expectChecked(`
      # file: kitproof.yaml
      kitproof: config/1
      allowances: { personal: 60 %, delay: 40 %, on: shift-time }
      #           ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ error[bad-number]: no time is left to work in
    `);
    await expectChecked(`
      # file: kitproof.yaml
      kitproof: config/1
      allowances: { personel: 5 %, on: job-time }
      #             ^^^^^^^^ error[unknown-key]: "personal" was probably meant
    `);
    await expectChecked(`
      # file: kitproof.yaml
      kitproof: config/1
      allowances: { personal: 5 %, on: wages }
      #                                ^^^^^ error[unknown-value]: "wages"
    `);
    await expectChecked(`
      # file: kitproof.yaml
      kitproof: config/1
      allowances: { personal: 5 % }
      #             ^^^^^^^^ error[missing-key]: "on"
    `);
  });
});
