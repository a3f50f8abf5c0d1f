import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { Hands } from './hands';
import { lookAt } from './picture';
import { PICTURES, plain } from './sample';
import { openWorkbench, type Workbench } from './workbench';

const GUIDE = 'upland-50.install.yaml';
const FILES = [
  'kitproof.yaml',
  'moorhen.vehicle.yaml',
  GUIDE,
  'upland-50.kit.yaml',
  'workshop.times.yaml',
  ...PICTURES,
];
const COMMAND = 'Kitproof: Print the guide';

describe('a writer who prints the guide', () => {
  let workbench: Workbench;
  let hands: Hands;

  beforeAll(async () => {
    workbench = await openWorkbench(new Map(FILES.map((name) => [name, plain(name)])));
    hands = new Hands(workbench.page);
  });

  afterEach(async ({ task }) => {
    if (task.result?.state === 'fail')
      console.error(`The window and the logs are kept in ${await workbench.keep()}`);
  });

  afterAll(async () => {
    await workbench?.close();
  });

  /** Chooses the form, takes the place that is proposed, and waits until the file is said to be there. */
  async function print(form: string, file: string): Promise<string> {
    const { page, folder } = workbench;
    await hands.call(COMMAND);
    const rows = page.locator('.quick-input-list .monaco-list-row');
    await rows.filter({ hasText: form }).first().click();
    const place = page.locator('.quick-input-widget .quick-input-box input');
    await expect.poll(() => place.inputValue(), { timeout: 20_000 }).toMatch(new RegExp(`/${file}$`));
    await page.keyboard.press('Enter');
    await page
      .locator('.notification-toast')
      .filter({ hasText: `wrote ${file}` })
      .waitFor({ timeout: 60_000 });
    await lookAt(page, `printing-${file.replaceAll('.', '-')}`);
    await page.keyboard.press('Escape');
    return join(folder, file);
  }

  it('has it as one HTML page with its pictures in it', async () => {
    await hands.open(GUIDE);
    await hands.lenses.first().waitFor();
    const html = readFileSync(await print('HTML page', 'upland-50.html'), 'utf8');
    expect(html).toContain('id="step-3.13"');
    expect(html.match(/src="data:image\/svg\+xml;base64,/g)).toHaveLength(2);
  });

  it('has it as a PDF, and the torque sheet too', async () => {
    const pdf = readFileSync(await print('PDF', 'upland-50.pdf'));
    expect(pdf.subarray(0, 5).toString()).toBe('%PDF-');
    const sheet = readFileSync(await print('Torque sheet as PDF', 'upland-50-torques.pdf'));
    expect(sheet.length).toBeLessThan(pdf.length);
    expect(existsSync(join(workbench.folder, GUIDE))).toBe(true);
  });
});
