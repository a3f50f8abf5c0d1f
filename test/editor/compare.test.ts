import { execFileSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { gitEnvironment } from '../support/repository';
import { Hands } from './hands';
import { lookAt } from './picture';
import { plain } from './sample';
import { openWorkbench, type Workbench } from './workbench';

const GUIDE = 'upland-50.install.yaml';
const FILES = [GUIDE, 'moorhen.vehicle.yaml', 'upland-50.kit.yaml', 'workshop.times.yaml'];
const COMPARE = 'Kitproof: Compare the guide with the last commit';

describe('a reviewer who looks at what was edited', () => {
  let workbench: Workbench;
  let hands: Hands;

  beforeAll(async () => {
    workbench = await openWorkbench(new Map(FILES.map((name) => [name, plain(name)])));
    hands = new Hands(workbench.page);
    const { folder } = workbench;
    const git = (...words: string[]) => execFileSync('git', words, { cwd: folder, env: gitEnvironment() });
    git('init', '--quiet');
    git('add', '--all');
    git('commit', '--quiet', '--message', 'Revision A');
    const file = join(folder, GUIDE);
    const text = readFileSync(file, 'utf8');
    writeFileSync(
      file,
      text
        .replace(/ {8}do: \[{ support: front-axle,.*\n/, '')
        .replace('Take all four wheels off.', 'Take the wheels off.'),
    );
  });

  afterEach(async ({ task }) => {
    if (task.result?.state === 'fail')
      console.error(`The window and the logs are kept in ${await workbench.keep()}`);
  });

  afterAll(async () => {
    await workbench?.close();
  });

  it('is told that git is not run in a folder that nobody trusts, and trusts it', async () => {
    const { page } = workbench;
    await hands.open(GUIDE);
    await hands.command(COMPARE);
    const told = page
      .locator('.notification-toast')
      .filter({ hasText: 'git is not run in a folder that you do not trust' });
    await told.getByRole('button', { name: 'Manage trust' }).click();
    await page.locator('.workspace-trust-editor').getByRole('button', { name: 'Trust', exact: true }).click();
    await page.locator('.workspace-trust-editor').filter({ hasText: 'You trust this folder' }).waitFor();
  });

  it('reads what changed beside the text, the most dangerous first', async () => {
    const { page } = workbench;
    await hands.open(GUIDE);
    await hands.command(COMPARE);
    const comparison = page.frameLocator('iframe.webview').last().frameLocator('iframe');
    await comparison.locator('li.first').first().waitFor();
    expect(await comparison.locator('li.first p').first().textContent()).toContain('nothing holds it');
    await comparison.locator('ins').first().waitFor();
    for (const [theme, said] of [
      ['Light Modern', 'vscode-light'],
      ['Dark Modern', 'vscode-dark'],
      ['Dark High Contrast', 'vscode-high-contrast'],
    ] as const) {
      await hands.theme(theme);
      await comparison.locator(`body.${said}`).waitFor();
      await lookAt(page, `compared-${said}`);
    }
  });

  it('asked for nothing beyond this machine', () => {
    expect(workbench.outside).toEqual([]);
  });
});
