import { describe, expect, test } from 'vitest';
import { guideOf, KIT, VEHICLE } from '../guide/printed';
import { kitproof } from './program';

const GUIDE = guideOf(
  '- { text: Nuts., when: { lockers: fitted }, figure: { file: a.svg, alt: The nut. }, do: [{ torque: front-wheel.nut }] }\n- { text: Look., do: [{ check: steering }] }',
);
const files = {
  'moorhen.vehicle.yaml': VEHICLE,
  'upland.kit.yaml': KIT,
  'lift.install.yaml': GUIDE,
  'a.svg': '<svg xmlns="http://www.w3.org/2000/svg"/>',
};
const run = (words: string[], more = {}) =>
  kitproof(['guide', 'lift.install.yaml', ...words], { files, ...more });

describe('kitproof guide', () => {
  test('prints Markdown where nobody names a file', async () => {
    const { status, out } = await run([]);
    expect(status).toBe(0);
    expect(out).toContain('# Upland kit');
    expect(out).toContain('lockers: fitted');
  });

  test('writes HTML with its pictures in it', async () => {
    const { status, files: after } = await run(['--html', 'out/lift.html', '--markdown', 'lift.md']);
    expect(status).toBe(0);
    expect(after.get('/shop/out/lift.html')).toContain(`data:image/svg+xml;base64,${btoa(files['a.svg'])}`);
    expect(after.get('/shop/lift.md')).toContain('![The nut.](a.svg)');
    const elsewhere = await run(['--markdown', 'out/lift.md']);
    expect(elsewhere.files.get('/shop/out/lift.md')).toContain('![The nut.](../a.svg)');
  });

  test('is for one variant where one is said', async () => {
    const { out } = await run(['--variant', 'lockers=none']);
    expect(out).toContain('Look.');
    expect(out).not.toContain('Nuts.');
    expect((await run(['--variant', 'lockers=lost'])).status).toBe(2);
  });

  test('prints the torque sheet alone', async () => {
    const { out } = await run(['--torque-sheet']);
    expect(out).toContain('# Torque sheet: Upland kit');
    expect(out).toContain('| Front wheel, nut');
    expect(out).not.toContain('Look.');
  });

  test('says when no PDF can be had, and writes the PDF that the machine prints', async () => {
    const none = await run(['--pdf', 'lift.pdf']);
    expect(none.status).toBe(3);
    expect(none.err).toContain('No PDF can be had here');
    expect(none.files.has('/shop/lift.pdf')).toBe(false);
    let page = '';
    const some = await run(['--pdf', 'lift.pdf', '--paper', 'letter'], {
      io: {
        printPdf: async (html: string) => {
          page = html;
          return new TextEncoder().encode('%PDF-1.7');
        },
      },
    });
    expect(some.status).toBe(0);
    expect(some.files.get('/shop/lift.pdf')).toBe('%PDF-1.7');
    expect(page).toContain('@page{size:letter');
  });

  test('says what stands in the way of an issue, and which picture is not there', async () => {
    const wrong = GUIDE.replace('check: steering', 'remove: front-shok').replace('a.svg', 'b.svg');
    const { status, err } = await kitproof(['guide', 'lift.install.yaml', '--html', 'x.html'], {
      files: { ...files, 'lift.install.yaml': wrong },
    });
    expect(status).toBe(0);
    expect(err).toContain('printed as not for issue');
    expect(err).toContain('1 picture could not be read: b.svg.');
  });

  test.each([
    [['--html', 'a', '--pdf', 'a'], 'Two forms would be written to one file.'],
    [['--html', '-', '--markdown', '-'], 'Only one form can go to the screen'],
    [['--paper', 'a5'], '--paper takes a4, letter'],
    [['--as-of', 'soon'], '--as-of takes a day'],
    [['--htm', 'a'], 'did you mean --html'],
  ])('refuses %j', async (words, why) => {
    const { status, err } = await run(words as string[]);
    expect(status).toBe(2);
    expect(err).toContain(why);
  });
});
