import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { Hands } from './hands';
import { lookAt } from './picture';
import { PICTURES, plain } from './sample';
import { openWorkbench, type Workbench } from './workbench';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const FAULTY = 'axle-not-carried.install.yaml';
const FILES = [
  ...PICTURES,
  'moorhen.vehicle.yaml',
  'upland-50.kit.yaml',
  'workshop.times.yaml',
  `faulty/${FAULTY}`,
  'faulty/rear-shocks.kit.yaml',
];
/** The largest sample with a support gone and a step that nobody has read: all that a page may show. */
const LONG = 'long.install.yaml';
const longGuide = (): string =>
  plain('upland-50.install.yaml')
    .replace(/ {8}do: \[{ support: front-axle,.*\n/, '')
    .replace('      - id: front-axle-carried\n', '      - id: front-axle-carried\n        draft: true\n');

/** The editor's own themes, with what each says of itself to the page. */
const THEMES = [
  ['Light Modern', 'vscode-light'],
  ['Dark Modern', 'vscode-dark'],
  ['Dark High Contrast', 'vscode-high-contrast'],
  ['Light High Contrast', 'vscode-high-contrast-light'],
] as const;

describe('a reviewer in the editor', () => {
  let workbench: Workbench;
  let hands: Hands;

  beforeAll(async () => {
    const files = new Map(FILES.map((name) => [name, plain(name)]));
    workbench = await openWorkbench(files.set(LONG, longGuide()));
    hands = new Hands(workbench.page);
  });

  afterEach(async ({ task }) => {
    if (task.result?.state === 'fail')
      console.error(`The window and the logs are kept in ${await workbench.keep()}`);
  });

  afterAll(async () => {
    await workbench?.close();
  });

  it('reads the guide beside its text', async () => {
    await hands.command('View: Toggle Primary Side Bar Visibility');
    await hands.open(LONG);
    await hands.command('Kitproof: Show the guide beside the text');
    const step = hands.preview
      .locator('.step')
      .filter({ has: hands.preview.locator('.finding') })
      .first();
    await step.waitFor();
    await step.locator('.no').click();
    await step.and(hands.preview.locator('[aria-current]')).waitFor();
    await hands.preview.locator('.lane i').first().waitFor();
  });

  it.each(THEMES)('finds nothing on its page that keeps anyone out, in %s', async (theme, said) => {
    await hands.theme(theme);
    await hands.preview.locator(`body.${said}`).waitFor();
    const body = await hands.preview.locator('body').elementHandle();
    const frame = (await body!.ownerFrame())!;
    // Evaluated by the browser's own tools, which the policy of the page does not bind.
    await frame.evaluate(AXE);
    const violations = await frame.evaluate(async () => {
      const { axe } = globalThis as unknown as {
        axe: {
          run(): Promise<{ violations: { id: string; nodes: { html: string; failureSummary: string }[] }[] }>;
        };
      };
      const found = await axe.run();
      return found.violations.map(({ id, nodes }) => ({
        id,
        nodes: nodes.slice(0, 4).map(({ html, failureSummary }) => `${html.slice(0, 200)} ${failureSummary}`),
      }));
    });
    await lookAt(workbench.page, said);
    expect(violations).toEqual([]);
  });

  it('accepts a finding, says why and until when, and reads it in the text', async () => {
    const { page, folder } = workbench;
    const lines = plain(`faulty/${FAULTY}`).split('\n');
    const line = lines.findIndex((one) => one.includes('remove: rear-shock.lower-bolt')) + 1;
    await hands.command('View: Focus First Editor Group');
    await hands.open(FAULTY);
    await hands.goTo(line, lines[line - 1]!.indexOf('remove') + 3);
    await hands.squiggle.first().waitFor();
    const actions = await hands.offers(/^Waive /);
    await lookAt(page, 'actions');
    // It comes last: to accept what is wrong is nobody's first thought.
    for (let left = (await actions.count()) - 1; left > 0; left--) await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Enter');
    const input = page.locator('.quick-input-widget .quick-input-box input');
    const answer = async (step: number, text: string | null) => {
      await page
        .locator('.quick-input-title')
        .filter({ hasText: `(${step} of 3)` })
        .waitFor();
      if (text !== null) await input.fill(text);
      await page.keyboard.press('Enter');
    };
    await answer(1, 'The axle lies on the bench here.');
    await answer(2, 'A. Fitter');
    await answer(3, null);
    await hands.squiggle.first().waitFor({ state: 'detached' });
    await hands.preview
      .locator('.step .waiver')
      .filter({ hasText: 'The axle lies on the bench here.' })
      .waitFor();
    await lookAt(page, 'waived');
    await hands.command('File: Save');
    const text = () => readFileSync(join(folder, `faulty/${FAULTY}`), 'utf8');
    await expect
      .poll(text, { timeout: 20_000 })
      .toMatch(/because: The axle lies on the bench here\.\n +by: A\. Fitter\n +until: \d{4}-\d\d-\d\d\n/);
  });

  it('asked for nothing beyond this machine', () => {
    expect(workbench.outside).toEqual([]);
  });
});
