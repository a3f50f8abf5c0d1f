import { describe, expect, it } from 'vitest';
import { kitproof } from './program';

const PACK = `kitproof: rules/1
pack: shop
rules:
  - id: gloves-before-drilling
    harm: paperwork
    watch: { verb: [drill] }
    first: { verb: [check], of: { words: [gloves] } }
    says: "{item} is drilled before the gloves were looked at."
    reason: Swarf cuts.
    good: { do: [{ check: gloves }, { drill: frame }] }
    bad: { do: [{ drill: frame }] }
  - id: left-loose
    overrides: true
    harm: rework
    watch: { verb: [loosen] }
    later: { verb: [torque], of: same }
    says: "{item} is left loose."
    reason: It falls off.
`;
const SETTINGS = `kitproof: config/1
packs: [shop.rules.yaml]
rules:
  gloves-before-drilling: warning
  left-unused: off
  reach: { harm: paperwork }
`;
const files = {
  'kitproof.yaml': SETTINGS,
  'shop.rules.yaml': PACK,
  'guides/a.install.yaml': 'kitproof: install/1\n',
};

describe('rules list', () => {
  it('gives programs an array of every rule there is, on or off', async () => {
    const { status, out } = await kitproof(['rules', 'list', '--format', 'json'], { files });
    expect(status).toBe(0);
    const rules: Record<string, unknown>[] = JSON.parse(out);
    expect(rules.length).toBeGreaterThan(90);
    for (const rule of rules) {
      expect(rule).toMatchObject({
        id: expect.any(String),
        pack: expect.any(String),
        core: expect.any(Boolean),
      });
      expect(['injury', 'damage', 'rework', 'paperwork']).toContain(rule.harm);
    }
    const byId = new Map(rules.map((rule) => [rule.id, rule]));
    expect(byId.size).toBe(rules.length);
    expect(byId.get('gloves-before-drilling')).toMatchObject({
      pack: 'shop',
      core: false,
      on: true,
      set: true,
      severity: 'warning',
      file: 'shop.rules.yaml',
    });
    expect(byId.get('left-unused')).toMatchObject({ core: true, on: false, set: true, file: null });
    expect(byId.get('reach')).toMatchObject({ on: true, harm: 'paperwork', severity: null });
    // An override is as core as what it stands for, and of its own pack.
    expect(byId.get('left-loose')).toMatchObject({ pack: 'shop', core: true, on: true, harm: 'rework' });
  });

  it('shows people a table of 80 columns, pack by pack', async () => {
    const { out } = await kitproof(['rules', 'list'], { files });
    for (const line of out.split('\n')) expect(line.length, line).toBeLessThanOrEqual(80);
    expect(out).toMatch(/\nbrakes {2}\d+ rules, \d+ on\n {2}line-stretched +injury +core +on\n/);
    expect(out).toMatch(/\nshop {2}shop\.rules\.yaml {2}2 rules, 2 on\n/);
    expect(out).toMatch(/ gloves-before-drilling +paperwork +house +on +set, warning\n/);
    expect(out).toMatch(/ left-unused +\w+ +core +off +set\n/);
    expect(out).toMatch(/ left-loose +rework +core +on +overrides\n/);
    expect(out).toContain('What kitproof.yaml says is marked "set"');
  });

  it('is of the nearest kitproof.yaml above a path', async () => {
    for (const path of ['guides', 'guides/a.install.yaml', '.'])
      expect((await kitproof(['rules', 'list', path], { files })).out).toContain('gloves-before-drilling');
    const elsewhere = await kitproof(['rules', 'list', '/shop/guides'], {
      files: { ...files, 'guides/kitproof.yaml': 'kitproof: config/1\n' },
    });
    expect(elsewhere.out).not.toContain('gloves-before-drilling');
    expect((await kitproof(['rules', 'list'])).out).toContain('No kitproof.yaml counts here');
  });

  it('says so of a pack that is not there, and shows the rest', async () => {
    const { status, out, err } = await kitproof(['rules', 'list'], {
      files: { 'kitproof.yaml': SETTINGS.replace('shop.rules', 'gone.rules') },
    });
    expect(status).toBe(3);
    expect(err).toBe('kitproof: gone.rules.yaml, which kitproof.yaml lists, is no rule pack or not there.\n');
    expect(out).toContain('brakes');
  });
});

describe('rules explain', () => {
  it('says what a rule looks at and asks, with examples and how to switch it', async () => {
    const { status, out } = await kitproof(['rules', 'explain', 'gloves-before-drilling'], { files });
    expect(status).toBe(0);
    expect(out).toBe(`gloves-before-drilling  paperwork, house, on here, by kitproof.yaml
  {item} is drilled before the gloves were looked at.

  Swarf cuts.

  Looks at  every drill of anything.
  Found     unless a check of "gloves" came earlier.
  Source    common practice.
  Pack      shop (shop.rules.yaml).

  Good: nothing is found
    do:
      - { check: gloves }
      - { drill: frame }

  Bad: this rule is found
    do: [{ drill: frame }]

  To switch it on or off, or to change how it counts, in kitproof.yaml:
    rules: { gloves-before-drilling: off }
    rules: { gloves-before-drilling: { severity: warning, harm: paperwork } }
  To accept it in one place, at the operation, the step or the section:
    waive: [{ rule: gloves-before-drilling, because: …, by: …, until: … }]
  To answer it by a caution of the step that says what the rule is about:
    caution: { signal: warning, covers: [gloves-before-drilling], text: … }
`);
  });

  it('has the examples of every standard rule, and keeps to the page', async () => {
    const { out } = await kitproof(['rules', 'list', '--format', 'json']);
    for (const { id } of JSON.parse(out).slice(0, 200) as { id: string }[]) {
      const one = await kitproof(['rules', 'explain', id]);
      expect(one.status, id).toBe(0);
      expect(one.out, id).toContain('\n  Good: nothing is found\n');
      expect(one.out, id).toContain('\n  Bad: this rule is found\n');
      expect(one.out, id).toContain('\n  Source    ');
    }
  });

  it.each([
    [['rules', 'explain', 'left-lose'], 'did you mean left-loose?'],
    [['rules', 'explain', 'zzzzzz'], 'kitproof rules list names them all.'],
    [['rules', 'explain'], 'takes one rule'],
    [['rules'], 'goes on with list, explain or test.'],
    [['rules', 'lst'], 'did you mean list?'],
    [['rules', 'test', '--format', 'json'], '--format json goes with kitproof rules list.'],
  ])('%j', async (words, sentence) => {
    const { status, out, err } = await kitproof(words);
    expect([status, out]).toEqual([2, '']);
    expect(err).toContain(sentence);
  });
});

describe('rules test', () => {
  const test = (pack: string, more: Record<string, string> = {}) =>
    kitproof(['rules', 'test', 'shop.rules.yaml'], { files: { ...files, ...more, 'shop.rules.yaml': pack } });
  const rule = (lines: string) => `kitproof: rules/1
pack: shop
rules:
  - id: threads-oiled
    harm: rework
    watch: { verb: [torque], what: [joint] }
    first: { verb: [apply], of: same, qualifier: { apply: [oil] } }
    says: "{item} is tightened dry."
    reason: A dry thread cheats the wrench.
${lines}
`;
  const vehicle =
    'vehicle: { parts: { bracket: { kind: bracket, mass: 1 kg, joins: [frame], joints: { bolt: { torque: 20 N·m } } } } }';
  const good = `    good: { ${vehicle}, do: [{ loosen: bracket.bolt }, { apply: oil, to: bracket.bolt }, { torque: bracket.bolt }] }`;
  const bad = `    bad: { ${vehicle}, do: [{ loosen: bracket.bolt }, { torque: bracket.bolt }] }`;

  it('passes what shows what it should, and names what has no example', async () => {
    expect(await test(rule(`${good}\n${bad}`))).toMatchObject({ status: 0, err: '' });
    const { status, out } = await test(PACK);
    expect(status).toBe(0);
    expect(out).toBe(`shop.rules.yaml  2 rules, 2 examples
  Without examples: left-loose.

2 rules, 2 examples: each shows what it should.
`);
    expect((await test(rule(good))).out).toContain('Without examples: threads-oiled (no bad one).');
  });

  it('tells what a good example gets, at its line', async () => {
    const { status, out } = await test(
      rule(`    good:
      ${vehicle}
      do:
        - { loosen: bracket.bolt }
        - { apply: oil, to: bracket.bolt }
        - { snug: bracket.bolt }
        - { torque: bracket.bolt }
        - { loosen: bracket.bolt }
${bad}`),
      { 'kitproof.yaml': 'kitproof: config/1\n' },
    );
    expect(status).toBe(1);
    expect(out).toContain('  threads-oiled  shop.rules.yaml:17\n    The good example gets left-loose: ');
    expect(out).toContain('1 rule, 2 examples: 1 does not show what it should.');
  });

  it('tells what a bad example gets instead', async () => {
    const other = bad.replace(
      '{ loosen: bracket.bolt }, { torque: bracket.bolt }',
      '{ loosen: bracket.bolt }',
    );
    const { status, out } = await test(rule(`${good}\n${other}`), {
      'kitproof.yaml': 'kitproof: config/1\n',
    });
    expect(status).toBe(1);
    expect(out).toContain(
      'The bad example does not get threads-oiled: it never does what the rule\n    looks at. It gets left-loose.',
    );
    const slip = bad.replace('torque: bracket.bolt', 'torque: braket.bolt');
    expect((await test(rule(`${good}\n${slip}`))).out).toContain('The bad example gets ');
  });

  it('a good example that never asks the rule anything shows nothing', async () => {
    const idle = good.replace(', { torque: bracket.bolt }', '').replace('{ loosen: bracket.bolt }, ', '');
    expect((await test(rule(`${idle}\n${bad}`))).out).toContain('The good example shows nothing');
  });

  it('obeys the house settings of standard rules, and leaves the other rules of the house aside', async () => {
    const loose = good.replace(
      ', { torque: bracket.bolt }',
      ', { torque: bracket.bolt }, { loosen: bracket.bolt }',
    );
    const other = `  - id: never-loosen
    core: true
    harm: rework
    watch: { verb: [loosen] }
    needs: { state: [out] }
    says: "{item} is loosened."
    reason: Nothing is loosened here.
`;
    const { status, out } = await test(rule(`${loose}\n${bad}\n${other}`), {
      'kitproof.yaml': 'kitproof: config/1\npacks: [shop.rules.yaml]\nrules: { left-loose: off }\n',
    });
    expect([status, out]).toEqual([0, expect.stringContaining('2 rules, 2 examples: each shows')]);
  });

  it('takes the examples of a rule that has several, and points at mistakes in the pack itself', async () => {
    const several = `    good: [${good.slice(10)}, ${good.slice(10)}]\n${bad}\n  - id: broken\n    harm: injry`;
    const { status, out } = await test(rule(several));
    expect(status).toBe(1);
    expect(out).toContain('1 rule, 3 examples');
    expect(out).toContain('; kitproof check shop.rules.yaml tells them.');
  });

  it('says what it cannot test', async () => {
    const of = async (words: string[], more: Record<string, string> = {}) => {
      const { status, err } = await kitproof(['rules', 'test', ...words], { files: { ...files, ...more } });
      return [status, err];
    };
    expect(await of(['guides/a.install.yaml'])).toEqual([
      3,
      'kitproof: guides/a.install.yaml is no rule pack: a rule pack begins with "kitproof: rules/1".\n',
    ]);
    expect(await of(['guides'])).toEqual([3, 'kitproof: There is no rule pack in guides.\n']);
    expect(await of([], { 'kitproof.yaml': 'kitproof: config/1\npacks: [gone.rules.yaml]\n' })).toEqual([
      3,
      'kitproof: gone.rules.yaml, which kitproof.yaml lists, is no rule pack or not there.\n',
    ]);
  });
});
