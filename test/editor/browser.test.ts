import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page, Worker } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { Hands } from './hands';
import { lookAt } from './picture';
import { PICTURES, placeOf, plain } from './sample';
import { openWorkbench, type Workbench } from './workbench';

const FAULTY = 'axle-not-carried.install.yaml';
const MISSPELT = 'unknown-name.install.yaml';
const FILES = [
  ...PICTURES,
  'kitproof.yaml',
  'moorhen.vehicle.yaml',
  'upland-50.install.yaml',
  'upland-50.kit.yaml',
  'workshop.times.yaml',
  `faulty/${FAULTY}`,
  'faulty/rear-shocks.kit.yaml',
  `faulty/${MISSPELT}`,
  'faulty/front-springs.kit.yaml',
];

describe('a writer whose editor runs extensions in the browser', () => {
  let workbench: Workbench;
  let hands: Hands;

  beforeAll(async () => {
    workbench = await openWorkbench(new Map(FILES.map((name) => [name, plain(name)])), 'browser');
    hands = new Hands(workbench.page);
  });

  afterEach(async ({ task }) => {
    if (task.result?.state === 'fail')
      console.error(`The window and the logs are kept in ${await workbench.keep()}`);
  });

  afterAll(async () => {
    await workbench?.close();
  });

  it('sees a fault underlined that only the vehicle, in another folder, makes one', async () => {
    await hands.open(FAULTY);
    await hands.squiggle.first().waitFor();
    await hands.hours.waitFor();
    // No process of the machine has a part in it.
    expect(workbench.languageServers()).toEqual([]);
  });

  it('reads in the Problems view what is wrong in every document of the folder', async () => {
    await hands.command('Problems: Focus on Problems View');
    const row = hands.problems.filter({ hasText: 'With rear-shock (right) undone, rear-axle drops' });
    await row.waitFor();
    // The rule leads to what is said of it, in a file of the extension.
    await row.locator('a').filter({ hasText: 'support-axle-before-shock-removal' }).waitFor();
    await hands.problems.filter({ hasText: 'unknown-name' }).last().waitFor();
  });

  it('reads where the pointer rests what is known from other files', async () => {
    await hands.pointAt('lower-bolt');
    const told = hands.hover.filter({ hasText: 'rear-axle drops' });
    await told.waitFor();
    expect(await told.textContent()).toContain('M12x1.75');
    await hands.command('View: Toggle Panel Visibility');
  });

  it('reads the guide beside its text, with what is open after each step', async () => {
    await hands.command('Kitproof: Show the guide beside the text');
    const { preview } = hands;
    const step = preview.locator('.step').filter({ hasText: 'Take out the lower bolts of both shocks.' });
    await step.locator('.finding').waitFor();
    await preview.locator('.account').filter({ hasText: 'opens vehicle: raised' }).first().waitFor();
    expect(await preview.locator('.lane i.raised').count()).toBeGreaterThan(3);
    await lookAt(workbench.page, 'in-browser');
  });

  it('has a misspelt name put right, which the guide beside follows', async () => {
    const { page } = workbench;
    await hands.open(MISSPELT);
    await hands.preview.locator('.finding').first().waitFor();
    const { line, column } = placeOf(plain(`faulty/${MISSPELT}`), 'front-whel');
    await hands.goTo(line, column + 3);
    await hands.squiggle.first().waitFor();
    await hands.offers(/front-wheel/);
    await page.keyboard.press('Enter');
    await hands.squiggle.first().waitFor({ state: 'detached' });
    await hands.preview.locator('.finding').waitFor({ state: 'detached' });
  });

  it('is offered the parts of the vehicle', async () => {
    const { page } = workbench;
    const { line, column } = placeOf(plain(`faulty/${MISSPELT}`), 'front-whel');
    await hands.goTo(line, column);
    await page.keyboard.press('Control+Space');
    const offered = page.locator('.suggest-widget .monaco-list-row');
    await offered.filter({ hasText: 'front-shock' }).first().waitFor();
    await lookAt(page, 'in-browser-offered');
    await page.keyboard.press('Escape');
  });

  it('renames a joint in every file at once', async () => {
    const { page, folder } = workbench;
    await hands.open(FAULTY);
    const { line, column } = placeOf(plain(`faulty/${FAULTY}`), 'rear-shock.lower-bolt');
    await hands.goTo(line, column + 'rear-shock.'.length + 3);
    await page.keyboard.press('F2');
    const input = page.locator('.rename-box input');
    await input.waitFor();
    await input.fill('bottom-bolt');
    await page.keyboard.press('Enter');
    await hands.text.locator('.view-line').filter({ hasText: 'bottom-bolt' }).first().waitFor();
    await hands.command('File: Save All');
    const files = [
      'moorhen.vehicle.yaml',
      `faulty/${FAULTY}`,
      'upland-50.install.yaml',
      'upland-50.kit.yaml',
    ];
    const named = () =>
      files.filter((name) => readFileSync(join(folder, name), 'utf8').includes('bottom-bolt'));
    await expect.poll(named, { timeout: 20_000 }).toEqual(files);
  });

  it('begins a guide, and has the server started again and everything checked', async () => {
    const { page, folder } = workbench;
    await hands.answer('Kitproof: New guide', 'What does the guide fit?', 'Tow bar');
    await page.locator('.tabs-container .tab.active[data-resource-name="tow-bar.install.yaml"]').waitFor();
    expect(existsSync(join(folder, 'faulty/tow-bar.install.yaml'))).toBe(true);
    await hands.command('Kitproof: Restart the server');
    await hands.command('Kitproof: Check the workspace');
    const said = page.locator('.statusbar-item').filter({ hasText: /documents checked/ });
    await said.waitFor();
    expect(await said.textContent()).toMatch(/Kitproof: 10 documents checked: 1 error(?!s)/);
  });

  it('has a worker that fails started again, which tells of the unsaved text', async () => {
    const { page } = workbench;
    await hands.open(MISSPELT);
    const { line, column } = placeOf(plain(`faulty/${MISSPELT}`), 'front-whel');
    await hands.goTo(line, column);
    await page.keyboard.type('x');
    await hands.squiggle.first().waitFor();
    const [failing, ...others] = await servers(page);
    expect(others).toEqual([]);
    await failing!.evaluate(() => {
      setTimeout(() => {
        throw new Error('made to fail by a test');
      });
    });
    await expect.poll(async () => (await servers(page)).filter((one) => one !== failing).length).toBe(1);
    await page.keyboard.type('x');
    await hands.preview.locator('.finding').filter({ hasText: 'xxfront-wheel' }).first().waitFor();
    await hands.squiggle.first().waitFor();
    expect(await servers(page)).not.toContain(failing);
  });

  it('asked for nothing beyond this machine', () => {
    expect(workbench.outside).toEqual([]);
  });
});

/** The workers in which our server runs. */
async function servers(page: Page): Promise<Worker[]> {
  const found = await Promise.all(
    page.workers().map(async (worker) => {
      const name = await worker.evaluate(() => (globalThis as { name?: string }).name).catch(() => '');
      return name?.endsWith('kitproof') ? [worker] : [];
    }),
  );
  return found.flat();
}
