import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';

const folder = join(import.meta.dirname, '../../client/pictures');

/** Takes a picture for the README, where KITPROOF_PICTURES asks for it; other runs leave the checkout as it is. */
export async function takePicture(page: Page, name: string): Promise<void> {
  if (!process.env.KITPROOF_PICTURES) return;
  await page.waitForTimeout(500);
  writeFileSync(join(folder, `${name}.png`), await page.screenshot());
}
