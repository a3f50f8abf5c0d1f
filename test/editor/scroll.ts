/**
 * How smoothly a long guide scrolls in the preview's page, and what drawing it anew costs: 1,000 steps against 50, in one
 * browser, as ratios. Run by hand beside a built `dist/`: `node -e "import('./server/scripts/bundled.mjs').then((m) =>
 * m.runBundled('test/editor/scroll.ts', []))"`. Never a timed test.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { chromium } from 'playwright-core';
import type { GuideView, LedgerView } from '../../server/src/lsp/guide-view-types';
import { largeGuide } from '../bench/guides';
import { inMemory, PULLING } from '../lsp/client';

const dist = join(process.cwd(), 'dist');

/** The guide and its ledger, as the server gives them to the page. */
async function views(steps: number): Promise<[GuideView, LedgerView]> {
  const texts = Object.entries(largeGuide(steps, 4)).map(([name, text]) => [`/shop/${name}`, text] as const);
  const client = await inMemory(new Map(texts)).start(PULLING, ['file:///shop']);
  const uri = 'file:///shop/large.install.yaml';
  await client.open(uri, texts.find(([name]) => name.endsWith('.install.yaml'))![1]);
  const guide = await client.request<GuideView>('kitproof/guide', { uri });
  const ledger = await client.request<LedgerView>('kitproof/ledger', { uri });
  await client.end();
  return [guide, ledger];
}

interface Measured {
  readonly draw: number;
  readonly again: number;
  readonly middle: number;
  readonly worst: number;
  readonly late: number;
  readonly frames: number;
}

/** What runs in the page, which has the browser's names and not ours. */
const IN_PAGE = `async ([guide, ledger]) => {
  const settled = () => new Promise((done) => requestAnimationFrame(() => setTimeout(done, 0)));
  const sent = async (data) => {
    const start = performance.now();
    window.dispatchEvent(new MessageEvent('message', { data }));
    await settled();
    return performance.now() - start;
  };
  const draw = (await sent({ type: 'guide', guide })) + (await sent({ type: 'ledger', ledger }));
  const again = await sent({ type: 'guide', guide: { ...guide, title: 'Another title' } });
  const gaps = [];
  const end = document.documentElement.scrollHeight;
  let last = performance.now();
  // As a reader turns the wheel: 120 pixels a frame, to the end or for five seconds.
  for (let frame = 0; frame < 300 && scrollY + innerHeight < end; frame++) {
    scrollBy(0, 120);
    await new Promise((done) => requestAnimationFrame(done));
    const now = performance.now();
    gaps.push(now - last);
    last = now;
  }
  gaps.sort((a, b) => a - b);
  return {
    draw,
    again,
    middle: gaps[gaps.length >> 1],
    worst: gaps.at(-1),
    late: gaps.filter((gap) => gap > 34).length,
    frames: gaps.length,
  };
}`;

const browser = await chromium.launch({
  executablePath: process.env.KITPROOF_CHROMIUM ?? '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu'],
});
const found: Measured[] = [];
for (const steps of [50, 1000]) {
  const [guide, ledger] = await views(steps);
  const page = await browser.newPage({ viewport: { width: 640, height: 800 } });
  await page.setContent(
    `<!doctype html><style>${readFileSync(join(dist, 'preview-style.css'), 'utf8')}</style><div id="guide"></div><script>globalThis.acquireVsCodeApi = () => ({ postMessage() {} });${readFileSync(join(dist, 'preview.js'), 'utf8')}</script>`,
  );
  const measured = (await page.evaluate(`(${IN_PAGE})(${JSON.stringify([guide, ledger])})`)) as Measured;
  found.push(measured);
  const { draw, again, middle, worst, late, frames } = measured;
  console.log(
    `${steps} steps: drawn in ${draw.toFixed(0)} ms, anew for another title in ${again.toFixed(0)}; ${frames} frames of scrolling, median ${middle.toFixed(1)} ms, worst ${worst.toFixed(0)}, ${late} later than 34 ms`,
  );
  await page.close();
}
const [few, many] = found as [Measured, Measured];
console.log(
  `1,000 steps against 50: a frame ${(many.middle / few.middle).toFixed(2)} times, drawing ${(many.draw / few.draw).toFixed(1)}, drawing anew ${(many.again / few.again).toFixed(1)}`,
);
await browser.close();
