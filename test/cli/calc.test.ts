import { describe, expect, it } from 'vitest';
import { kitproof } from './program';

const calc = (line: string) => kitproof(['calc', ...line.split(' ')]);
const figures = async (line: string) => JSON.parse((await calc(`${line} --format json`)).out).figures;

/** Every example that help shows. */
async function examples(): Promise<string[]> {
  const { out } = await calc('--help');
  const block = out.slice(out.indexOf('Examples\n'), out.indexOf('Exit status'));
  return [...block.matchAll(/^ {2}kitproof calc (.+)$/gm)].map((match) => match[1]!);
}

describe('every calculator', () => {
  it('has an example in help, and answers it with what it assumes, its sources and whose figure comes first', async () => {
    const lines = await examples();
    const { err } = await calc('nothing');
    const named = err.slice(err.indexOf('goes on with ') + 13, err.indexOf(';')).split(/, | or /);
    expect(lines.map((line) => line.split(' ')[0]).sort()).toEqual(named.sort());
    for (const line of lines) {
      const { status, out, err: none } = await calc(line);
      expect(status, line).toBe(0);
      expect(none).toBe('');
      expect(out).toMatch(/\nAssumed\n {2}- .+/);
      expect(out).toMatch(/\nSources\n {2}- .+/);
      expect(out.endsWith("\nThe figure of the vehicle's or kit's maker comes first.\n")).toBe(true);
      for (const part of out.split('\n')) expect(part.length).toBeLessThanOrEqual(100);
      const json = await calc(`${line} --format json`);
      expect(json.status).toBe(0);
      const report = JSON.parse(json.out);
      expect(Object.keys(report)).toEqual([
        'version',
        'calculator',
        'of',
        'figures',
        'notes',
        'assumptions',
        'sources',
        'caution',
      ]);
      expect(report.calculator).toBe(line.split(' ')[0]);
      expect(report.assumptions.length * report.sources.length).toBeGreaterThan(0);
      expect(Object.keys(report.figures).length).toBeGreaterThan(0);
      // Nothing in the answer is no number.
      expect(`${out}${json.out}`).not.toMatch(/NaN|Infinity|undefined/);
    }
  });

  it('keeps to the width of a terminal', async () => {
    for (const line of await examples()) {
      const { out } = await kitproof(['calc', ...line.split(' ')], { io: { columns: 60 } });
      for (const part of out.split('\n')) expect(part.length, part).toBeLessThanOrEqual(60);
    }
  });
});

describe('torque', () => {
  // 133 N·m and 70.5 kN: the published fine-thread table of VDI 2230, SEEN at mastik.pt.
  it('answers with the published torque', async () => {
    const { torque, tension, expected } = await figures('torque M12x1.25 10.9 --friction 0.12');
    expect(Math.abs(torque / 133 - 1)).toBeLessThan(0.01);
    expect(Math.abs(tension / 70500 - 1)).toBeLessThan(0.01);
    expect(expected.low).toBeLessThan(133);
    expect(expected.high).toBeGreaterThan(133);
    const { out } = await calc('torque M12x1.25 10.9 --friction 0.12');
    expect(out).toContain('Torque            132 N·m (98 lbf·ft)');
    expect(out).toContain('friction 0.12 in the thread and under the head, as given');
  });

  it('goes by the nut factor where that is given, and says what for', async () => {
    const { torque } = await figures('torque 1/2-13 UNC grade 5 --nut-factor 0.2');
    // 75.4 lbf·ft: RUN in sae_j429.csv.
    expect(Math.abs(torque / 1.3558179483314 / 75.4 - 1)).toBeLessThan(0.01);
    expect((await calc('torque 1/2-13 grade 5 --nut-factor 0.2')).out).toContain('dry, plain steel');
  });

  it('judges a torque, and a nut', async () => {
    const far = await calc('torque M10x1.25 8.8 --torque 95 N·m --nut 6');
    expect(far.out).toContain('95 N·m loads the bolt past its proof load');
    expect(far.out).toContain('A nut of class 6 is weaker than a bolt of class 8.8');
    expect((await calc('torque M10x1.25 8.8 --torque 10 N·m')).out).toContain('10 N·m is far under');
    const { judged } = await figures('torque M10x1.25 8.8 --torque 44 N·m');
    expect(judged).toMatchObject({ pastProof: 'no', farUnder: false, torque: 44 });
  });

  it('asks for what the head bears on where no standard says it', async () => {
    expect((await calc('torque M9x1 8.8')).err).toContain('No standard hexagon is known here for M9x1');
    expect((await calc('torque M9x1 8.8 --bearing 13 mm --hole 10 mm')).status).toBe(0);
  });
});

describe('the others', () => {
  it.each<[string, Record<string, unknown>]>([
    [
      'thread M12x1.25',
      { diameter: 12, pitch: 1.25, series: 'fine', coarsePitch: 1.75, stressArea: 92.0718 },
    ],
    [
      'hole M10 --size 10.2 mm',
      { tapDrill: 8.5, hole: { size: 10.2, fit: 'close' }, drills: [3, 5.5, 10.2] },
    ],
    ['spanner M12', { socketKey: 10 }],
    ['tyre 205/55R16 91V', { diameter: 631.9, circumference: 1985.17, loadIndex: 91 }],
    ['tyre 205/55R16 225/60R16 --ratio 4.1', { lift: 22.25, trueSpeed: 1.07042, ratioToRestore: 4.38873 }],
    ['wrench 90 N·m --length 400 mm --extension 60 mm', { setting: 78.2609, settable: 78 }],
    ['wrench 90 N·m --length 400 mm --extension 60 mm --angle 90° --step 5 N·m', { settable: 90 }],
    ['lift 28 kg --reach 250 mm --grip good', { limitAtStart: 23, asksFor: 2 }],
    ['trackbar --length 650 mm --rise 250 mm --lift -250 mm', { shift: -50 }],
    [
      'hose --across 150 mm --drop 80 mm --droop 120 mm --bump 80 mm --free 240 mm',
      { atDroop: 250, spare: -10 },
    ],
  ])('%s', async (line, expected) => {
    expect(await figures(line)).toMatchObject(expected);
  });

  it('lift as the published example has it, in the inch form', async () => {
    // 16.3 and 14.5 lb: publication 94-110, example 1, MEMORY.
    const found = await figures('lift 44 lb --reach 23 in --from 15 in --to 64 in');
    expect(Math.abs(found.limitAtStart / 0.45359237 / 16.3 - 1)).toBeLessThan(0.03);
    expect(Math.abs(found.limitAtEnd / 0.45359237 / 14.5 - 1)).toBeLessThan(0.03);
    expect(found.asksFor).toBe('aid');
  });

  it.each([
    ['convert 95 N·m', /lbf·ft {2}70\n/],
    ['convert 95 N·m', /kN·m {4}0\.095\n/],
    ['convert 108-136 N·m', /lbf·ft {2}80 to 100\n/],
    ['convert -40 °F', /°C {2}-40\n/],
    ['hole 3/8-16', /Clearance, medium +10\.32 mm \(13\/32 in\)/],
    ['thread 1 1/8-7', /Diameter +28\.5[78] mm \(1 1\/8 in\)/],
    ['convert 1/2 in', /mm {2}12\.7\n/],
    ['wrench 66 lbf·ft --length 16 in --extension 2 1/2 in', /Set the wrench to +57 lbf·ft \(77 N·m\)/],
    ['tyre 265/70R16 112T 285/75R16', /265\/70R16 112T → 285\/75R16/],
  ])('%s', async (line, text) => {
    const { status, out } = await calc(line);
    expect(status).toBe(0);
    expect(out).toMatch(text);
  });
});

describe('what is not understood', () => {
  it.each([
    ['torq M12', '"torq" is none of them; did you mean torque?'],
    ['torque', 'A thread is missing here'],
    ['torque M12', 'Which class? Write it behind the thread, such as M12 10.9.'],
    ['torque M12 9.9', 'There are no figures here for "9.9"'],
    ['torque M12 grade 8', 'Grade 8 belongs to inch threads'],
    ['torque M12 10.9 --friction abc', '--friction takes a number; "abc" is none.'],
    ['torque M12 10.9 --friction 12', '--friction takes a number from 0.02 to 0.6; 12 is not.'],
    ['torque M12 10.9 --friction 0.1 --nut-factor 0.2', 'Give --friction or --nut-factor, not both.'],
    ['torque M12 10.9 --torque 90-100 N·m', '--torque takes one figure; "90-100 N·m" is a range.'],
    ['torque M12 10.9 --nut strong', '--nut takes a class or grade, such as 10; "strong" is none.'],
    ['torque M12 10.9 --ratio 4', '--ratio goes with kitproof calc tyre, not with torque.'],
    ['torque M12 10.9 --frition 0.1', 'There is no option --frition; did you mean --friction?'],
    ['thread M12x', 'The pitch is missing in "M12x"'],
    ['hole M10 --size 10', '--size: The unit is missing'],
    ['spanner M9x1', 'No standard hexagon is known here for M9x1.'],
    ['wrench 90 --length 400 mm --extension 60 mm', 'The torque: The unit is missing'],
    ['wrench 90 N·m --length 400 mm', '--extension is missing; write --extension 60 mm.'],
    ['wrench 90 N·m --length 100 mm --extension 120 mm --angle 180°', 'The bolt is behind the hand'],
    ['tyre 205-55-16', '"205-55-16" is no tyre'],
    ['lift', 'The mass is missing, such as 32 kg.'],
    ['lift 30 kg --grip soft', '--grip takes good, fair, poor; "soft" is none of them.'],
    ['trackbar --length 100 mm --rise 80 mm --lift 50 mm', 'A bar of this length does not reach'],
    ['hose --across 150 mm', '--drop is missing'],
    ['convert 95', 'The unit is missing'],
    ['convert', 'A figure with its unit is missing'],
    ['convert 95 N·m --format xml', '--format takes text, json; "xml" is none of them.'],
  ])('%s is said in a sentence, with exit status 2', async (line, sentence) => {
    const { status, out, err } = await calc(line);
    expect(err).toContain(sentence);
    expect(err.split('\n')).toHaveLength(2);
    expect({ status, out }).toEqual({ status: 2, out: '' });
  });

  it('says what there is where nothing is asked', async () => {
    const { status, err } = await kitproof(['calc']);
    expect(status).toBe(2);
    expect(err).toContain('kitproof calc goes on with torque, thread,');
  });
});
