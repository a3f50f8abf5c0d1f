import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { Hands } from './hands';
import { lookAt } from './picture';
import { openWorkbench, type Workbench } from './workbench';

const samples = join(import.meta.dirname, '../../samples');
const FRESH = 'shocks.install.yaml';

/** All of it but titles and sentences comes out of the lists that the editor offers. */
const WANTED = `kitproof: install/1
title: Rear shocks
vehicle: moorhen.vehicle.yaml
kit: rear-shocks.kit.yaml
sections:
  - title: Exchange
    steps:
      - text: Raise the vehicle at the frame, and lock the lift.
        do:
          - raise: vehicle
            with: two-post-lift
        time: 12 min
      - text: Carry the {part:rear-axle}, then take the {part:rear-shock} off.
        do:
          - support: rear-axle
            with: pole-jacks
          - unbolt: rear-shock
          - discard: rear-shock
        time: 10 min
      - text: Fit the {part:rear-shock-50} and nip its bolts up.
        do:
          - bolt-up: rear-shock-50
          - snug: rear-shock-50
        time: 8 min
      - text: Take the jacks away.
        do:
          - unsupport: rear-axle
        time: 12 min
      - text: Lower the vehicle to the ground.
        do:
          - lower: vehicle
        time: 3 min
      - text: Tighten the {part:rear-shock-50} with the vehicle on its wheels.
        do:
          - torque: rear-shock-50
            at: ride-height
        time: 6 min
`;

describe('a writer who begins with nothing', () => {
  let workbench: Workbench;
  let hands: Hands;

  beforeAll(async () => {
    const sample = (name: string) => readFileSync(join(samples, name), 'utf8');
    workbench = await openWorkbench(
      new Map([
        [FRESH, ''],
        ['moorhen.vehicle.yaml', sample('moorhen.vehicle.yaml')],
        ['rear-shocks.kit.yaml', sample('faulty/rear-shocks.kit.yaml')],
      ]),
    );
    hands = new Hands(workbench.page);
  });

  afterEach(async ({ task }) => {
    if (task.result?.state === 'fail')
      console.error(`The window and the logs are kept in ${await workbench.keep()}`);
  });

  afterAll(async () => {
    await workbench?.close();
  });

  it('is offered words as it types them', async () => {
    const { page } = workbench;
    const offered = page.locator('.suggest-widget.visible .monaco-list-row .label-name');
    await hands.open('rear-shocks.kit.yaml');
    await hands.goTo(1, 'kitproof: kit/1'.length + 1);
    await page.keyboard.press('Enter');
    const options = offered.filter({ hasText: 'options' });
    // Before the server is there nothing is offered, and nobody is told when it is.
    for (let tries = 6; tries > 0 && !(await options.isVisible()); tries--) {
      await page.keyboard.type('opt', { delay: 80 });
      await options.waitFor({ timeout: 4_000 }).catch(() => undefined);
      if (!(await options.isVisible()))
        for (let left = 3; left > 0; left--) await page.keyboard.press('Backspace');
    }
    await options.waitFor();
    await page.keyboard.press('Escape');
    await hands.command('File: Revert File');
  });

  it('writes a guide from the lists that completion offers, and nothing is found in it', async () => {
    const { page, folder } = workbench;
    const press = async (...keys: string[]) => {
      for (const key of keys) await page.keyboard.press(key);
    };
    /** A new line, so many levels further in or out than where the editor puts the cursor. */
    const line = async (levels: number) => {
      // A line that is not coloured yet is not indented: the editor is given a writer's time.
      await page.waitForTimeout(300);
      await press('Enter', ...new Array(Math.abs(levels)).fill(levels < 0 ? 'Shift+Tab' : 'Tab'));
    };
    const choose = (word: string) => hands.complete(word);
    /** Goes to the next place to fill in of what was chosen. */
    const fill = async (word: string) => {
      await page.keyboard.type(word);
      await press('Tab');
    };
    await hands.open(FRESH);
    await choose('kitproof: install/1');
    await choose('title');
    await page.keyboard.type('Rear shocks');
    await line(0);
    await choose('vehicle');
    await choose('moorhen.vehicle.yaml');
    await line(0);
    await choose('kit');
    await choose('rear-shocks.kit.yaml');
    await line(0);
    await choose('sections');
    await line(0);
    await choose('section');
    await fill('Exchange');
    await fill('Raise the vehicle at the frame, and lock the lift.');
    await choose('raise');
    await choose('vehicle');
    await line(1);
    await choose('with');
    await choose('two-post-lift');
    await line(-2);
    await choose('time');
    await choose('12 min');
    await line(-1);
    await choose('step: carry a part while another comes off');
    await hands.choose('rear-axle');
    await hands.choose('pole-jacks');
    await hands.choose('rear-shock');
    await press('Escape', 'ArrowUp', 'End');
    await lookAt(page, 'writing');
    await line(0);
    await choose('discard');
    await choose('rear-shock');
    await press('Escape', 'ArrowDown', 'End');
    await line(-1);
    await choose('step: fit a part, bolts nipped up');
    await hands.choose('rear-shock-50');
    await press('Escape', 'End');
    await line(-1);
    await choose('text');
    await page.keyboard.type('Take the jacks away.');
    await line(0);
    await choose('do');
    await line(0);
    await choose('unsupport');
    await choose('rear-axle');
    await line(-1);
    await choose('time');
    await choose('12 min');
    await line(-1);
    await choose('step: lower the vehicle');
    await press('Escape', 'End');
    await line(-1);
    await choose('step: tighten at ride height');
    await hands.choose('rear-shock-50');
    await press('Escape', 'End', 'Enter');
    await hands.command('Format Document');
    await hands.command('File: Save');
    await lookAt(page, 'written');
    await expect.poll(() => readFileSync(join(folder, FRESH), 'utf8'), { timeout: 20_000 }).toBe(WANTED);
    await hands.command('Kitproof: Check the workspace');
    await page
      .locator('.statusbar-item')
      .filter({ hasText: /documents checked: nothing found/ })
      .waitFor();
  }, 120_000);
});
