import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { Hands } from './hands';
import { lookAt } from './picture';
import { PICTURES, placeOf, plain } from './sample';
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

describe('a writer whose language server dies', () => {
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

  /** Kills the server that runs now. */
  async function kill(): Promise<number> {
    await expect.poll(() => workbench.languageServers().length, { timeout: 20_000 }).toBe(1);
    const [server] = workbench.languageServers();
    process.kill(server!, 'SIGKILL');
    await expect.poll(() => workbench.languageServers(), { timeout: 20_000 }).not.toContain(server);
    return server!;
  }

  const problem = (words: string) => hands.problems.filter({ hasText: words });

  it('has taken a support away and not saved that', async () => {
    await hands.open(GUIDE);
    await hands.command('Kitproof: Show the guide beside the text');
    await hands.preview.locator('h1').filter({ hasText: 'Upland 50' }).waitFor();
    await hands.command('Problems: Focus on Problems View');
    await hands.command('View: Focus First Editor Group');
    await hands.goTo(placeOf(plain(GUIDE), 'support: front-axle').line, 1);
    await workbench.page.keyboard.press('Control+Shift+K');
    await problem('front-axle drops: nothing holds it').first().waitFor();
    await hands.preview.locator('.finding.error').first().waitFor();
  });

  it('has it started again, which tells of the unsaved text as before', async () => {
    const { page, folder } = workbench;
    const dead = await kill();
    await expect.poll(() => workbench.languageServers().length, { timeout: 20_000 }).toBe(1);
    expect(workbench.languageServers()).not.toContain(dead);
    await problem('front-axle drops: nothing holds it').first().waitFor();
    // What is typed now it is the new one that hears, on top of what the old one was told.
    await hands.goTo(2, 'title: '.length + 1);
    await page.keyboard.type('Second ');
    await hands.preview.locator('h1').filter({ hasText: 'Second Upland 50' }).waitFor();
    await hands.preview.locator('.finding.error').filter({ hasText: 'nothing holds it' }).first().waitFor();
    await problem('front-axle drops: nothing holds it').first().waitFor();
    expect(readFileSync(join(folder, GUIDE), 'utf8')).toBe(plain(GUIDE));
    await page.locator(`.tabs-container .tab.dirty[data-resource-name="${GUIDE}"]`).waitFor();
  });

  it('is told where it dies again and again, and gets it back when it is asked for', async () => {
    const { page } = workbench;
    for (let times = 0; times < 4; times++) await kill();
    // One message, in our words, however many tries there were.
    const told = page.locator('.notification-toast');
    await told.filter({ hasText: 'Kitproof stopped several times, so it was not started again.' }).waitFor();
    expect(await told.count()).toBe(1);
    // Whoever closed that message reads in the status bar that no finding is no news.
    const stopped = page.locator('.statusbar-item').filter({ hasText: 'Kitproof stopped' });
    await stopped.waitFor();
    await lookAt(page, 'server-dies');
    expect(workbench.languageServers()).toEqual([]);
    // The text is there, and can be worked on.
    await hands.goTo(2, 'title: '.length + 1);
    await page.keyboard.type('A ');
    await told.locator('.monaco-button').filter({ hasText: 'Restart' }).click();
    await hands.preview.locator('h1').filter({ hasText: 'A Second Upland 50' }).waitFor();
    await problem('front-axle drops: nothing holds it').first().waitFor();
    await stopped.waitFor({ state: 'hidden' });
  });
});
