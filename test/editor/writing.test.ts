import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { Hands } from './hands';
import { lookAt } from './picture';
import { openWorkbench, type Workbench } from './workbench';

const samples = join(import.meta.dirname, '../../samples');
const FRESH = 'shocks.install.yaml';

describe('a writer who begins with nothing', () => {
  let workbench: Workbench;
  let hands: Hands;

  beforeAll(async () => {
    const sample = (name: string) => readFileSync(join(samples, name), 'utf8');
    workbench = await openWorkbench(
      new Map([
        [FRESH, ''],
        ['moorhen.vehicle.yaml', sample('moorhen.vehicle.yaml')],
        ['rear-shocks.kit.yaml', sample('faulty/rear-shocks.kit.yaml').replace('../', '')],
      ]),
    );
    hands = new Hands(workbench.page);
  });

  afterAll(async () => {
    await workbench?.close();
  });

  it('tries', async () => {
    const { page, folder } = workbench;
    await hands.open(FRESH);
    await page.waitForTimeout(3000);
    const focused = page.locator('.suggest-widget .monaco-list-row.focused .label-name');
    const complete = async (label: string, key = '') => {
      await page.waitForTimeout(400);
      await page.keyboard.press('Control+Space');
      await focused.waitFor({ timeout: 5000 }).catch(() => undefined);
      const seen: string[] = [];
      for (let left = 80; left > 0; left--) {
        const now = (await focused.textContent({ timeout: 3000 }).catch(() => '')) ?? '';
        if (now === label) break;
        if (seen.includes(now)) {
          console.log('NOT THERE', label, seen);
          await page.keyboard.press('Escape');
          return;
        }
        seen.push(now);
        await page.keyboard.press('ArrowDown');
      }
      console.log(label, 'after', seen.length, seen.slice(0, 8));
      await page.keyboard.press('Tab');
      if (key !== '') await page.keyboard.press(key);
    };
    const type = (text: string) => page.keyboard.type(text, { delay: 10 });
    const shown = async () => console.log(await hands.text.locator('.view-lines').innerText());
    try {
      await complete('kitproof: install/1');
      await complete('title');
      await type('Rear shocks');
      await page.keyboard.press('Enter');
      await complete('vehicle');
      await complete('moorhen.vehicle.yaml', 'Enter');
      await complete('kit');
      await complete('rear-shocks.kit.yaml', 'Enter');
      await complete('sections', 'Enter');
      await type('- ');
      await complete('section');
      await type('Rear shocks');
      await page.keyboard.press('Tab');
      await type('Raise the vehicle at the frame, and lock the lift.');
      await page.keyboard.press('Tab');
      await complete('raise');
      await complete('vehicle', 'Enter');
      await page.keyboard.press('Tab');
      await complete('with');
      await complete('two-post-lift', 'Enter');
      await shown();
      await page.keyboard.press('Shift+Tab');
      await page.keyboard.press('Shift+Tab');
      await complete('time');
      await complete('12 min', 'Enter');
      await page.keyboard.press('Shift+Tab');
      await shown();
      await complete('step: carry a part while it is undone');
      await shown();
      await lookAt(page, 'writing');
      await page.keyboard.press('Escape');
      await lookAt(page, 'writing');
      await page.keyboard.press('Escape');
      await lookAt(page, 'writing');
    } finally {
      await shown();
    }
  });
});
