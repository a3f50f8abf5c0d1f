import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { Hands } from './hands';
import { lookAt } from './picture';
import { openWorkbench, type Workbench } from './workbench';

const samples = join(import.meta.dirname, '../../samples');
const OPEN = 'shocks.install.yaml';
const FILES = [
  'wren-air.install.yaml',
  'wren-air.kit.yaml',
  'wren-common.install.yaml',
  'wren-feed.kit.yaml',
  'wren.vehicle.yaml',
  'house.rules.yaml',
  'kitproof.yaml',
  'wren.times.yaml',
];

/** Two wheels off and shocks undone, and nobody puts anything back. */
const UNFINISHED = `kitproof: install/1
title: Rear shocks, not finished
vehicle: moorhen.vehicle.yaml
sections:
  - title: Apart
    steps:
      - text: Raise the vehicle at the frame.
        do:
          - raise: vehicle
            with: two-post-lift
        time: 6 min
      - text: Carry the rear axle and take both shocks off.
        do:
          - support: rear-axle
            with: pole-jacks
          - unbolt: rear-shock
        time: 10 min
`;

describe('a keeper of guides in the editor', () => {
  let workbench: Workbench;
  let hands: Hands;

  beforeAll(async () => {
    const sample = (name: string) => readFileSync(join(samples, name), 'utf8');
    const files = new Map(FILES.map((name) => [`wren/${name}`, sample(`wren/${name}`)]));
    files.set('moorhen.vehicle.yaml', sample('moorhen.vehicle.yaml'));
    workbench = await openWorkbench(files.set(OPEN, UNFINISHED));
    hands = new Hands(workbench.page);
  });

  afterEach(async ({ task }) => {
    if (task.result?.state === 'fail')
      console.error(`The window and the logs are kept in ${await workbench.keep()}`);
  });

  afterAll(async () => {
    await workbench?.close();
  });

  const textOf = (name: string) => readFileSync(join(workbench.folder, name), 'utf8');

  it('has the whole open list closed at one wish, as steps to be read', async () => {
    const { page } = workbench;
    await hands.open(OPEN);
    await hands.squiggle.first().waitFor();
    const line = UNFINISHED.split('\n').findIndex((one) => one.includes('unbolt: rear-shock')) + 1;
    await hands.goTo(line, 15);
    const actions = await hands.offers(/^Close the open list/);
    await lookAt(page, 'open-list-offered');
    const titles = await actions.allTextContents();
    for (let left = titles.findIndex((one) => one.startsWith('Close the open list')); left > 0; left--)
      await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Enter');
    await hands.squiggle.first().waitFor({ state: 'detached' });
    await lookAt(page, 'open-list-closed');
    await hands.command('File: Save');
    await expect.poll(() => textOf(OPEN), { timeout: 20_000 }).toMatch(/draft: true/);
    expect(textOf(OPEN)).toContain('lower: vehicle');
  });

  it('moves a file, and what names it follows', async () => {
    const { page } = workbench;
    await hands.command('View: Show Explorer');
    await page
      .locator('.explorer-folders-view .monaco-list-row')
      .filter({ hasText: 'moorhen.vehicle.yaml' })
      .click();
    await page.keyboard.press('F2');
    const name = page.locator('.explorer-folders-view input');
    await name.waitFor();
    await name.fill('moorhen-utility.vehicle.yaml');
    await page.keyboard.press('Enter');
    // The editor asks whether what names the file shall follow.
    await page.locator('.monaco-dialog-box .monaco-button').filter({ hasText: /^OK$/ }).click();
    await page.locator('.tab[data-resource-name="moorhen-utility.vehicle.yaml"]').waitFor();
    await page.locator('.statusbar-item').filter({ hasText: 'Renaming' }).waitFor({ state: 'detached' });
    await hands.open(OPEN);
    await hands.text
      .locator('.view-line')
      .filter({ hasText: 'vehicle: moorhen-utility.vehicle.yaml' })
      .waitFor();
    await lookAt(page, 'file-moved');
    await hands.command('File: Save All');
    await expect.poll(() => textOf(OPEN), { timeout: 20_000 }).toContain('moorhen-utility.vehicle.yaml');
  });

  it('sees which guides use a section of another', async () => {
    const { page } = workbench;
    const file = 'wren-common.install.yaml';
    const lines = textOf(`wren/${file}`).split('\n');
    await hands.open(file);
    await hands.goTo(lines.findIndex((one) => one.includes('id: rear-up')) + 1, 10);
    await hands.command('Calls: Show Call Hierarchy');
    const callers = page.locator('.pane-body .monaco-list-row').filter({ hasText: 'wren-air.install.yaml' });
    await callers.filter({ hasText: 'Before the lift' }).waitFor();
    await lookAt(page, 'calls');
  });

  it('asked for nothing beyond this machine', () => {
    expect(workbench.outside).toEqual([]);
  });
});
