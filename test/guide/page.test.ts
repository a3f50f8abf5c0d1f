import { describe, expect, test } from 'vitest';
import { guideMarkdown, torqueSheetMarkdown } from '../../server/src/guide/markdown';
import { cssString } from '../../server/src/guide/page/html';
import { guidePage, torqueSheetPage } from '../../server/src/guide/page/page';
import { guideOf, printedOf, printedSample } from './printed';

const NASTY = '</style><script>alert(1)</script> "x" & <b>y</b> | `z` *q*';
const nasty = () =>
  printedOf(
    guideOf(
      `- { text: ${JSON.stringify(NASTY)}, caution: { signal: warning, text: ${JSON.stringify(NASTY)} }, figure: { file: "a.svg", caption: ${JSON.stringify(NASTY)} }, do: [{ check: steering, expect: ${JSON.stringify(NASTY)} }] }`,
    ).replace('title: Upland kit', `title: ${JSON.stringify(NASTY)}`),
  );
const page = (guide: Awaited<ReturnType<typeof nasty>>) =>
  guidePage(guide, { paper: 'a4', pictures: new Map() });

describe('the page', () => {
  test('takes nothing of a document for markup, and loads nothing', async () => {
    const html = page(await nasty());
    expect(html).not.toContain('<script');
    expect(html).not.toContain('<b>y</b>');
    expect(html.match(/<\/style>/g)).toHaveLength(1);
    expect(html).toMatch(/default-src ('|&#x27;)none/);
    expect(html).not.toMatch(/(src|href)="(?!#|data:)/);
  });

  test('has every step with its cautions before it', async () => {
    const guide = await printedSample('upland-50');
    const html = page(guide);
    const at = (text: string) => {
      const index = html.indexOf(text);
      expect(index).toBeGreaterThan(0);
      return index;
    };
    for (const { steps } of guide.sections)
      for (const { number, cautions } of steps) {
        const item = html.slice(at(`id="step-${number}"`));
        const end = item.indexOf('</li>');
        for (const { signal } of cautions) {
          const panel = item.indexOf(`signal ${signal}`);
          expect(panel).toBeGreaterThan(0);
          expect(panel).toBeLessThan(item.indexOf('class="no'));
          expect(panel).toBeLessThan(end);
        }
      }
    expect(html.match(/<h1/g)).toHaveLength(1);
  });

  test('shows the safety alert symbol with every signal word but a notice', async () => {
    const guide = await printedOf(
      guideOf('- { text: A., caution: [{ signal: notice, text: B. }], do: [{ check: steering }] }'),
    );
    expect(page(guide)).not.toContain('<svg');
    const warned = await printedOf(
      guideOf('- { text: A., caution: [{ signal: warning, text: B. }], do: [{ check: steering }] }'),
    );
    expect(page(warned)).toContain('<svg');
  });

  test('says on its face when a guide is not for issue', async () => {
    const wrong = await printedOf(guideOf('- { text: Off., do: [{ remove: front-shok }] }'));
    expect(page(wrong)).toContain('Not for issue');
    expect(page(await printedSample('upland-50'))).not.toContain('Not for issue');
  });

  test('is for one size of paper', async () => {
    const guide = await printedSample('upland-50');
    expect(guidePage(guide, { paper: 'letter', pictures: new Map() })).toContain('@page{size:letter');
    expect(torqueSheetPage(guide, 'a4')).toContain('@page{size:A4');
  });

  test('gives a picture its words, and says which could not be read', async () => {
    const guide = await printedSample('upland-50');
    const [name = ''] = guide.sections.flatMap(({ steps }) =>
      steps.flatMap(({ figures }) => figures.map((one) => one.name)),
    );
    const html = guidePage(guide, {
      paper: 'a4',
      pictures: new Map([[name, 'data:image/svg+xml;base64,PHN2Zy8+']]),
    });
    expect(html).toMatch(/<img src="data:image\/svg\+xml;base64,PHN2Zy8\+" alt="The bracket lies/);
    expect(html).toContain('The picture figures/front-coil-seat.svg could not be read.');
  });
});

describe('a string of a style sheet', () => {
  test('cannot be ended by a text', () => {
    expect(cssString('a"b\\c\n</style>')).toBe('"a\\22 b\\5c c\\a \\3c /style\\3e "');
  });
});

describe('Markdown', () => {
  test('takes nothing of a document for markup', async () => {
    const text = guideMarkdown(await nasty());
    // Within the title of a picture nothing is markup.
    for (const line of text.split('\n'))
      if (!line.startsWith('![')) expect(line).not.toMatch(/(?<!\\)<script/);
    for (const line of text.split('\n').filter((one) => one.startsWith('|')))
      expect(line.replaceAll('\\|', '').split('|').length).toBeGreaterThan(2);
  });

  test('has a heading for each section, and every torque', async () => {
    const guide = await printedSample('upland-50');
    const text = guideMarkdown(guide);
    for (const { number, title } of guide.sections) expect(text).toContain(`## ${number} ${title}`);
    const sheet = torqueSheetMarkdown(guide);
    expect(sheet.match(/^\| Rear lower link, frame bolt/gm)).toHaveLength(2);
  });
});
