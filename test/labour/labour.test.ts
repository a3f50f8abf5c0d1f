import { describe, expect, it } from 'vitest';
import { labourOfGuide } from '../../server/src/workspace/labour';
import { memoryFiles } from '../../server/src/workspace/memory';
import { standardPacks } from '../../server/src/workspace/packs';
import { Project } from '../../server/src/workspace/project';
import { expectChecked } from '../support/marked';

const VEHICLE = `kitproof: vehicle/1
name: Moorhen
traits: { wheelbase: [short, long], lockers: [none, fitted] }
parts:
  front-axle: { kind: live-axle }
  front-wheel: { kind: wheel, sided: true, joins: [front-axle], joints: { nut: { bolts: 5, thread: M14x1.5 } } }
  front-shock: { kind: shock, sided: true, joins: [frame, front-axle], joints: { top: { thread: M12x1.25 }, bottom: { bolts: 2, thread: M12x1.75 } } }
  beam: { sided: true, joins: [frame], places: { station: [front, middle, rear] }, joints: { bolt: { bolts: 3 } } }
  guard: { kind: undertray, joins: [frame], joints: { bolt: { bolts: 4 } } }
lines:
  locker-plug: { kind: plug, spans: [frame, front-axle], when: { lockers: fitted } }
`;

/**
 * Labour of a guide whose one section has these steps, written as YAML flow maps one a line; `---` begins another section.
 * @param times entries of the nearest file of times, and what stands after them.
 */
async function labourOf(
  steps: string,
  times = '',
  more: { config?: string; section?: string; vehicle?: string } = {},
) {
  const files = new Map([
    ['/m.vehicle.yaml', more.vehicle ?? VEHICLE],
    ['/kitproof.yaml', `kitproof: config/1\ntimes: [near.times.yaml, far.times.yaml]\n${more.config ?? ''}`],
    ['/near.times.yaml', `kitproof: times/1\ntimes:\n${times === '' ? '  []' : times}`],
    ['/far.times.yaml', 'kitproof: times/1\ntimes:\n  - { verb: chock, time: 99 min }\n'],
    [
      '/g.yaml',
      `kitproof: install/1\ntitle: G\nvehicle: m.vehicle.yaml\nsections:\n  - title: S\n${more.section ?? ''}    steps:\n${steps
        .trim()
        .split('\n')
        .map((line) => (line.trim() === '---' ? '  - title: T\n    steps:' : `      - ${line.trim()}`))
        .join('\n')}\n`,
    ],
  ]);
  const project = new Project(memoryFiles(files), standardPacks());
  const guide = (await project.open('/g.yaml'))!;
  const { labour } = await labourOfGuide(project, guide);
  const { lowest, highest, elapsed } = labour.total;
  const round = (figure: number) => Number(figure.toFixed(6));
  return {
    lowest: round(lowest),
    highest: round(highest),
    elapsed: round(elapsed),
    unknown: labour.unknown.map((one) => one.step),
    labour,
  };
}

describe('the time a step says', () => {
  it('is for the whole step, and people multiply the labour only', async () => {
    expect(await labourOf(`{ do: [{ loosen: front-wheel.nut }], time: 10 min, people: 2 }`)).toMatchObject({
      lowest: 20,
      highest: 20,
      elapsed: 10,
      unknown: [],
    });
  });

  it('counts for each side where it says so', async () => {
    const time = 'time: { each-side: 5 min }';
    const minutes = async (step: string) => (await labourOf(step)).highest;
    expect(await minutes(`{ do: [{ loosen: front-wheel.nut }], ${time} }`)).toBe(10);
    expect(await minutes(`{ do: [{ loosen: front-wheel.nut }], side: left, ${time} }`)).toBe(5);
    expect(await minutes(`{ do: [{ loosen: front-wheel.nut, side: right }], ${time} }`)).toBe(5);
    expect(await minutes(`{ do: [{ loosen: front-wheel.nut }], side: each, ${time} }`)).toBe(10);
    expect(await minutes(`{ do: [{ loosen: front-wheel.nut }], side: each, time: 5 min }`)).toBe(5);
  });

  it('may be low, likely and high', async () => {
    const { highest, labour } = await labourOf(
      `{ do: [{ loosen: guard.bolt }], time: { low: 5 min, likely: 8 min, high: 14 min }, people: 2 }`,
    );
    // 5/8/14 gives 8.5 with a deviation of 1.5 (course notes at bms.co.in), here of two people.
    expect(highest).toBe(17);
    expect(labour.total.atHighest.deviation).toBeCloseTo(3, 9);
  });

  it('has waiting within it where it is as long', async () => {
    const elapsed = async (step: string) => (await labourOf(step)).elapsed;
    expect(await elapsed(`{ do: [{ loosen: guard.bolt }, { wait: 20 min }], time: 30 min }`)).toBe(30);
    expect(await elapsed(`{ do: [{ wait: 20 min }, { wait: 10 min }], time: 30 min }`)).toBe(30);
    expect(await elapsed(`{ do: [{ wait: 20 min }, { wait: 20 min }], time: 30 min }`)).toBe(50);
    const some = `{ do: [{ loosen: guard.bolt }, { wait: 20 min, when: { lockers: none } }, { wait: 25 min, when: { lockers: fitted } }], time: 30 min }`;
    expect(await elapsed(some)).toBe(30);
    expect((await labourOf(`{ do: [{ wait: 20 min }], time: 30 min, people: 2 }`)).highest).toBe(60);
  });

  it('has waiting beside it, which is on the clock and no labour', async () => {
    expect(
      await labourOf(`{ do: [{ loosen: guard.bolt }, { wait: 30 min, for: glue }], time: 4 min, people: 2 }`),
    ).toMatchObject({
      highest: 8,
      elapsed: 34,
    });
    expect(await labourOf(`{ do: [{ wait: 1 h, for: paint }] }`)).toMatchObject({
      highest: 0,
      elapsed: 60,
      unknown: [],
    });
  });

  it('is not taken where nothing of the step is done', async () => {
    expect(await labourOf(`{ do: [{ disconnect: locker-plug }], time: 3 min }`)).toMatchObject({
      lowest: 0,
      highest: 3,
    });
    expect(await labourOf(`{ text: Think., time: 3 min }`)).toMatchObject({ lowest: 3, highest: 3 });
  });
});

describe('standard times', () => {
  it('are taken per operation or bolt, for each side, place and joint', async () => {
    const times = `
  - { verb: torque, per: bolt, time: 1 min }
  - { verb: loosen, time: 1 min }
  - { verb: unbolt, per: bolt, time: 1 min }
  - { verb: bolt-up, time: 1 min }`;
    const minutes = async (operation: string, step = '') =>
      (await labourOf(`{ do: [{ ${operation} }]${step} }`, times)).highest;
    expect(await minutes('torque: front-wheel.nut')).toBe(10);
    expect(await minutes('torque: front-wheel.nut, side: left')).toBe(5);
    expect(await minutes('torque: front-wheel.nut', ', side: each')).toBe(10);
    expect(await minutes('torque: front-shock')).toBe(6);
    expect(await minutes('loosen: front-shock')).toBe(4);
    expect(await minutes('torque: guard.bolt')).toBe(4);
    expect(await minutes('torque: guard.bolt', ', side: each')).toBe(8);
    expect(await minutes('unbolt: front-shock')).toBe(6);
    expect(await minutes('bolt-up: front-shock')).toBe(2);
    expect(await minutes('torque: beam.bolt')).toBe(18);
    expect(await minutes('torque: beam.bolt, station: front')).toBe(6);
    expect(await minutes('loosen: [guard.bolt, front-wheel.nut]')).toBe(3);
  });

  it('are the most specific that match: the nearest kind, then the thread, then the first', async () => {
    const times = `
  - { verb: torque, time: 100 min }
  - { verb: torque, thread: "M12 x 1,25", time: 10 min }
  - { verb: torque, kind: shock, time: 1 min }
  - { verb: torque, kind: shock, thread: M12x1.75, time: 2 min }
  - { verb: [torque], kind: [shock], time: 50 min }
  - { verb: chock, time: 7 min }`;
    const minutes = async (operation: string) =>
      (await labourOf(`{ do: [{ ${operation} }] }`, times)).highest;
    expect(await minutes('torque: front-shock.top, side: left')).toBe(1);
    expect(await minutes('torque: front-shock.bottom, side: left')).toBe(2);
    expect(await minutes('torque: guard.bolt')).toBe(100);
    expect(await minutes('chock: front-wheel, side: left')).toBe(7);
  });

  it('are multiplied by the people of the step or of the entry, whichever is more', async () => {
    const times = `\n  - { verb: remove, people: 2, time: 3 min }\n  - { verb: fit, time: 3 min }`;
    const of = async (verb: string, people: number) =>
      labourOf(`{ do: [{ ${verb}: guard }], people: ${people} }`, times);
    expect(await of('remove', 1)).toMatchObject({ highest: 6, elapsed: 3 });
    expect(await of('remove', 3)).toMatchObject({ highest: 9, elapsed: 3 });
    expect(await of('fit', 2)).toMatchObject({ highest: 6, elapsed: 3 });
  });

  it('may name a kind by one of its words; what looks like a slip is told', async () => {
    const times = '\n  - { verb: check, kind: damper, time: 4 min }';
    expect((await labourOf('{ do: [{ check: front-shock, side: left }] }', times)).highest).toBe(4);
    await expectChecked(`
      # file: shop.times.yaml
      kitproof: times/1
      times:
        - { verb: check, kind: [wheel, shok], time: 1 min }
        #                              ^^^^ warning[unknown-part-kind]: did you mean "shock"?
        - { verb: check, kind: our-own-thing, time: 1 min }
        #                      ^^^^^^^^^^^^^ info[unknown-part-kind]: No pack has a kind "our-own-thing", so this counts only where a vehicle or kit file has it under kinds
        - { verb: torque, thread: M12x1.75, time: 1 min }
        - { verb: torque, thread: M12x9, time: 1 min }
        #                         ^^^^^ warning[unknown-thread]: A pitch of 9 mm does not fit on a diameter of 12 mm
        - { verb: bleed, time: 1000000000 min }
        #                      ^^^^^^^^^^^^^^ error[bad-quantity]: is no time that a job takes; write 1000 h at most.
    `);
  });

  it('know a thread by its coarse pitch and without it', async () => {
    const torque = async (thread: string) =>
      (
        await labourOf(
          '{ do: [{ torque: front-shock.bottom, side: left }] }',
          `\n  - { verb: torque, thread: ${thread}, time: 7 min }\n  - { verb: torque, time: 1 min }`,
        )
      ).highest;
    expect(await torque('M12')).toBe(7);
    expect(await torque('"M12 × 1,75"')).toBe(7);
    expect(await torque('M12x1.5')).toBe(1);
  });

  it('of a length that no job has do not count', async () => {
    const times = '\n  - { verb: check, time: 1000000000 min }';
    expect((await labourOf('{ id: s, do: [{ check: guard }] }', times)).unknown).toEqual(['s']);
    expect((await labourOf('{ id: s, do: [{ check: guard }], time: 1000000000 min }')).unknown).toEqual([
      's',
    ]);
  });

  it('do not hide that the time a step says cannot be read', async () => {
    const times = '\n  - { verb: check, time: 4 min }';
    const found = await labourOf('{ id: s, do: [{ check: guard }], time: 5 apples }', times);
    expect(found).toMatchObject({ highest: 4, unknown: ['s'] });
    expect(
      await labourOf('{ id: s, do: [{ check: guard }], time: { low: 1 min, high: 3 min } }', times),
    ).toMatchObject({
      unknown: ['s'],
    });
  });

  it('one unknown operation makes the step at least, and lists it', async () => {
    const found = await labourOf(
      `{ id: known, do: [{ torque: guard.bolt }] }
       { id: half, do: [{ torque: guard.bolt }, { coat: guard }] }
       { id: bare, text: Nothing said. }
       { id: own, do: [{ coat: guard }], time: 1 min }`,
      '\n  - { verb: torque, time: 2 min }',
    );
    expect(found).toMatchObject({ highest: 5, unknown: ['half', 'bare'] });
    expect(found.labour.atLeast).toBe(true);
    expect(found.labour.sections[0]).toMatchObject({ title: 'S', atLeast: true });
  });
});

describe('lowest and highest', () => {
  it('run over traits, optional steps and found branches', async () => {
    const { lowest, highest, labour } = await labourOf(`
      { do: [{ loosen: guard.bolt }], time: 10 min }
      { do: [{ disconnect: locker-plug }], when: { lockers: fitted }, time: 1 min }
      { do: [{ loosen: guard.bolt }], when: { lockers: none }, time: 4 min }
      { id: wax, do: [{ coat: guard }], optional: true, time: 20 min }
      { do: [{ clean: guard }], when: { done: wax }, time: 5 min }
      { do: [{ measure: guard, expect: sound, else: worn }], time: 2 min }
      { do: [{ renew: guard }], when: { found: worn }, time: 30 min }`);
    expect([lowest, highest]).toEqual([13, 71]);
    expect(labour.total.lowestWith).toContainEqual({ name: 'lockers', value: 'fitted' });
    expect(labour.total.highestWith).toContainEqual({ name: 'lockers', value: 'none' });
    expect(labour.total.exact).toBe(true);
  });

  it('keep to what the guide covers', async () => {
    const files = new Map([
      ['/m.vehicle.yaml', VEHICLE],
      [
        '/g.yaml',
        'kitproof: install/1\ntitle: G\nvehicle: m.vehicle.yaml\ncovers: { lockers: [none] }\nsections:\n  - title: S\n    steps:\n' +
          '      - { do: [{ loosen: guard.bolt }], when: { lockers: fitted }, time: 50 min }\n' +
          '      - { do: [{ loosen: guard.bolt }], when: { lockers: none }, time: 3 min }\n',
      ],
    ]);
    const project = new Project(memoryFiles(files), standardPacks());
    const { labour } = await labourOfGuide(project, (await project.open('/g.yaml'))!);
    expect(labour.total).toMatchObject({ lowest: 3, highest: 3, elapsed: 3 });
  });
});

describe('a step that uses another section', () => {
  const guide = (first: string) =>
    `kitproof: install/1
title: G
vehicle: m.vehicle.yaml
sections:
  - title: A
    steps:
      - ${first}
  - title: B
    id: b
    when: { lockers: fitted }
    steps:
      - { do: [{ check: guard }], time: 2 min }
      - { do: [{ check: guard }, { wait: 10 min, for: glue }], time: 3 min, people: 2 }
`;
  const of = async (first: string) => {
    const files = new Map([
      ['/m.vehicle.yaml', VEHICLE],
      ['/g.yaml', guide(first)],
    ]);
    const project = new Project(memoryFiles(files), standardPacks());
    const { labour } = await labourOfGuide(project, (await project.open('/g.yaml'))!);
    const [a] = labour.sections;
    return {
      lowest: a!.lowest,
      highest: a!.highest,
      unknown: labour.unknown.map((one) => one.step),
      elapsed: labour.total.elapsed,
    };
  };

  it('takes what that section takes, where it is done', async () => {
    expect(await of('{ id: u, do: [{ use: { section: b } }] }')).toMatchObject({ highest: 8, unknown: [] });
  });

  it('may say a time of its own, which is then for all of it, waiting beside', async () => {
    // On the clock: 4 and 10 here, then 2, 3 and 10 in the section itself.
    const own = await of(
      '{ do: [{ check: guard }, { use: { section: b } }, { check: guard }], time: 4 min }',
    );
    expect(own).toMatchObject({ highest: 4, elapsed: 29, unknown: [] });
  });

  it('lists what of its own is not known', async () => {
    expect(await of('{ id: u, do: [{ check: guard }, { use: { section: b } }] }')).toMatchObject({
      highest: 8,
      unknown: ['u'],
    });
  });
});

describe('quoted hours', () => {
  const steps = `{ do: [{ loosen: guard.bolt }], time: { low: 5 min, likely: 8 min, high: 14 min } }
    { do: [{ torque: guard.bolt }, { wait: 30 min, for: glue }], time: 10 min }`;

  it('say how many steps have a low and a high, and keep within what can be', async () => {
    const { labour } = await labourOf(steps);
    expect(labour).toMatchObject({ timed: 2, ranged: 1 });
    // 5/8/14 gives 8.5 with a deviation of 1.5 (course notes at bms.co.in).
    expect(labour.total.atHighest).toMatchObject({ least: 15, most: 24, expected: 18.5 });
    expect(labour.total.atHighest.deviation).toBeCloseTo(1.5, 9);
    expect(labour.total.atHighest.at90).toBeGreaterThan(20);
    expect(labour.total.atHighest.at90).toBeLessThan(21);
  });

  // SEEN: the six lettered activities of the exercise at wizedu.com, question 717873: means and variances add up.
  it('add up the means and the variances of printed activities', async () => {
    const times = ['5 5 7', '4 8 13', '1 10 17', '2 6 9', '2 7 10', '7 7 12'];
    const { labour } = await labourOf(
      times
        .map((one) => one.split(' '))
        .map(
          ([a, m, b]) =>
            `{ do: [{ check: guard }], time: { low: ${a} min, likely: ${m} min, high: ${b} min } }`,
        )
        .join('\n'),
    );
    const means = [5.33, 8.17, 9.67, 5.83, 6.67, 7.83];
    const deviations = [0.33, 1.5, 2.67, 1.17, 1.33, 0.83];
    const { expected, deviation, least, most } = labour.total.atHighest;
    expect(expected).toBeCloseTo(
      means.reduce((sum, mean) => sum + mean, 0),
      1,
    );
    expect(deviation).toBeCloseTo(Math.hypot(...deviations), 1);
    expect([least, most]).toEqual([21, 68]);
  });

  it('add the allowance to the work, on the clock too, and not to waiting', async () => {
    const on = async (base: string) =>
      (await labourOf(steps, '', { config: `allowances: { personal: 5 %, delay: 8 %, on: ${base} }\n` }))
        .labour;
    const job = await on('job-time');
    expect(job.total.highest).toBeCloseTo(18.5, 9);
    expect(job.quoted.highest).toBeCloseTo(18.5 * 1.13, 9);
    expect(job.quoted.elapsed).toBeCloseTo(18.5 * 1.13 + 30, 9);
    expect(job.quoted.atHighest.at90).toBeCloseTo(job.total.atHighest.at90 * 1.13, 9);
    const shift = await on('shift-time');
    expect(shift.quoted.highest).toBeCloseTo(18.5 / 0.87, 9);
    expect((await labourOf(steps)).labour.quoted.highest).toBeCloseTo(18.5, 9);
  });

  // SEEN: normal times .407 1.282 .916 1.150 with 13 % of the shift are .468 1.474 1.053 1.322, 4.316 in all (an excerpt at
  // stuvia.com). Here they are minutes.
  it('give the printed standard times of normal ones, a total rounded once', async () => {
    const { labour } = await labourOf(
      ['0.407', '1.282', '0.916', '1.150']
        .map((time) => `{ do: [{ check: guard }], time: ${time} min }`)
        .join('\n'),
      '',
      { config: 'allowances: { delay: 13 %, on: shift-time }\n' },
    );
    expect(labour.total.highest).toBeCloseTo(3.755, 9);
    expect(labour.quoted.highest).toBeCloseTo(4.316, 3);
  });
});

describe('hours by skill', () => {
  it('are those of the step, else of its standard time, else of its section, people and all', async () => {
    const { labour } = await labourOf(
      `{ do: [{ clean: guard }], skill: apprentice }
       { do: [{ clean: guard }] }
       { do: [{ check: guard }], time: 7 min, people: 2 }
       { do: [{ coat: guard }] }
       ---
       { do: [{ check: guard }], time: 5 min }`,
      '\n  - { verb: clean, time: 3 min, skill: brake fitter }',
      { section: '    skill: mechanic\n' },
    );
    expect(labour.skills.map(({ skill, highest, atLeast }) => [skill, highest, atLeast])).toEqual([
      ['apprentice', 3, false],
      ['brake fitter', 3, false],
      ['mechanic', 14, true],
      [null, 5, false],
    ]);
  });

  it('are none where nobody is named', async () => {
    expect((await labourOf('{ do: [{ check: guard }], time: 5 min }')).labour.skills).toEqual([]);
  });
});

describe('access', () => {
  const times = `
  - { verb: check, time: 1 min, access: undertray }
  - { verb: coat, time: 1 min, access: arch }
  - { verb: [unbolt, bolt-up, loosen, clean], time: 2 min }
access:
  undertray: 6 min
  arch: { each-side: 10 min }`;
  const minutes = async (steps: string) => (await labourOf(steps, times)).highest;
  const look = '{ do: [{ check: front-shock, side: left }] }';

  it('counts once for all that need it', async () => {
    expect(await minutes(look)).toBe(7);
    expect(await minutes(`${look}\n${look}`)).toBe(8);
    expect(
      await minutes('{ do: [{ check: front-shock, side: left }, { check: front-shock, side: right }] }'),
    ).toBe(8);
    // Something else in between leaves it open.
    expect(await minutes(`${look}\n{ do: [{ clean: front-axle }] }\n${look}`)).toBe(10);
  });

  it('closes when what covers it is put back, and not before', async () => {
    expect(await minutes(`${look}\n{ do: [{ bolt-up: guard }] }\n${look}`)).toBe(16);
    expect(await minutes(`${look}\n---\n${look}`)).toBe(8);
  });

  it('is free where the guide takes off what covers it, until it puts it back, over sections too', async () => {
    expect(await minutes(`{ do: [{ unbolt: guard }] }\n${look}\n---\n${look}`)).toBe(4);
    expect(await minutes(`{ do: [{ unbolt: guard }] }\n${look}\n{ do: [{ bolt-up: guard }] }\n${look}`)).toBe(
      12,
    );
  });

  it('is within the time that a step says itself, and open after it', async () => {
    expect(await minutes('{ do: [{ check: front-shock }], time: 9 min }')).toBe(9);
    expect(await minutes(`{ do: [{ check: front-shock }], time: 9 min }\n${look}`)).toBe(10);
  });

  it('may be opened side by side', async () => {
    const coat = (side: string) => `{ do: [{ coat: front-shock }], side: ${side} }`;
    expect(await minutes(coat('both'))).toBe(22);
    expect(await minutes(coat('each'))).toBe(22);
    expect(await minutes(`${coat('left')}\n${coat('right')}`)).toBe(22);
    expect(await minutes(`${coat('left')}\n${coat('both')}`)).toBe(23);
  });

  it('counts in each variant for the first that needs it there', async () => {
    const { lowest, highest } = await labourOf(
      `{ do: [{ check: front-shock, side: left }], when: { lockers: fitted } }
       { do: [{ check: front-shock, side: left }] }`,
      times,
    );
    expect([lowest, highest]).toEqual([7, 8]);
  });

  it('takes the people of the step', async () => {
    expect(await minutes('{ do: [{ check: front-shock, side: left }], people: 2 }')).toBe(14);
  });

  it('that no file has is a finding of the file of times', async () => {
    await expectChecked(`
      # file: shop.times.yaml
      kitproof: times/1
      access: { undertray: 6 min }
      times:
        - { verb: check, time: 1 min, access: undertrey }
        #                                     ^^^^^^^^^ error[unknown-access]: did you mean "undertray"?
    `);
  });
});

it('standard times may be for a width across flats, which counts after the thread', async () => {
  const times = `
  - { verb: torque, time: 100 min }
  - { verb: torque, hex: 21 mm, time: 10 min }
  - { verb: torque, hex: 21mm, thread: M14x1.5, time: 1 min }`;
  const vehicle = VEHICLE.replace('bolts: 5, thread', 'bolts: 5, hex: 21 mm, thread').replace(
    'joints: { bolt: { bolts: 4 } }',
    'joints: { bolt: { bolts: 4, hex: 21 mm } }',
  );
  const of = async (joint: string) =>
    (await labourOf(`{ do: [{ torque: ${joint}, side: left }] }`, times, { vehicle })).highest;
  expect(await of('front-wheel.nut')).toBe(1);
  expect((await labourOf('{ do: [{ torque: guard.bolt }] }', times, { vehicle })).highest).toBe(10);
  expect(await of('front-shock.top')).toBe(100);
});

describe('every variant by itself', () => {
  it('lies between lowest and highest, which are those of such variants, all their figures too', async () => {
    const times = `
  - { verb: check, time: { low: 1 min, likely: 2 min, high: 6 min }, access: undertray }
  - { verb: [unbolt, bolt-up], time: 3 min }
access:
  undertray: { low: 4 min, likely: 5 min, high: 12 min }`;
    const steps = [
      '{ do: [{ check: front-axle }], when: { lockers: fitted }, skill: a }',
      '{ id: wax, optional: true, do: [{ check: front-axle }], skill: b }',
      '{ do: [{ unbolt: guard }], when: { wheelbase: long } }',
      '{ do: [{ check: front-axle }] }',
      '{ do: [{ bolt-up: guard }], when: { wheelbase: long } }',
      '{ do: [{ check: front-axle }], when: { done: wax } }',
    ];
    const files = new Map([
      ['/m.vehicle.yaml', VEHICLE],
      ['/kitproof.yaml', 'kitproof: config/1\ntimes: [t.times.yaml]\n'],
      ['/t.times.yaml', `kitproof: times/1\ntimes:${times}\n`],
      [
        '/g.yaml',
        `kitproof: install/1\ntitle: G\nvehicle: m.vehicle.yaml\nsections:\n  - title: S\n    steps:\n${steps.map((step) => `      - ${step}\n`).join('')}`,
      ],
    ]);
    const project = new Project(memoryFiles(files), standardPacks());
    const guide = (await project.open('/g.yaml'))!;
    const of = async (words: Record<string, string>) =>
      (await labourOfGuide(project, guide, new Map(Object.entries(words)))).labour.total;
    const whole = await of({});
    const single: Awaited<ReturnType<typeof of>>[] = [];
    for (const lockers of ['none', 'fitted'])
      for (const wheelbase of ['short', 'long'])
        for (const wax of ['yes', 'no']) single.push(await of({ lockers, wheelbase, 'done:wax': wax }));
    for (const one of single) expect(one.atLowest).toEqual(one.atHighest);
    expect(Math.min(...single.map(({ lowest }) => lowest))).toBeCloseTo(whole.lowest, 9);
    expect(Math.max(...single.map(({ highest }) => highest))).toBeCloseTo(whole.highest, 9);
    const near = (one: (typeof single)[number], figures: typeof whole.atLowest) =>
      Math.abs(one.atLowest.expected - figures.expected) < 1e-9 &&
      Math.abs(one.atLowest.at90 - figures.at90) < 1e-9;
    expect(single.some((one) => near(one, whole.atLowest))).toBe(true);
    expect(single.some((one) => near(one, whole.atHighest))).toBe(true);
    // By hand: fitted, long, not waxed is 2.5 and its access 6, then 3, 2.5 and 3.
    expect((await of({ lockers: 'fitted', wheelbase: 'long', 'done:wax': 'no' })).lowest).toBeCloseTo(17, 9);
    // Short and not fitted, waxed: the access counts once for three looks.
    expect((await of({ lockers: 'none', wheelbase: 'short', 'done:wax': 'yes' })).lowest).toBeCloseTo(
      13.5,
      9,
    );
  });
});
