import { mkdirSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { withPalette } from './palette';

const folder = join(import.meta.dirname, '../../client/pictures');

export interface Part {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Takes a picture for the README, where KITPROOF_PICTURES asks for it; other runs leave the checkout as it is. */
export async function takePicture(page: Page, name: string, part?: Part): Promise<void> {
  if (!process.env.KITPROOF_PICTURES) return;
  // What fades in or is drawn a moment later belongs in the picture; a pointer that lies on something does not.
  await page.waitForTimeout(700);
  const png = await page.screenshot({
    ...(part === undefined ? {} : { clip: part }),
    animations: 'disabled',
    caret: 'hide',
  });
  writeFileSync(join(folder, `${name}.png`), withPalette(png));
}

/** Takes a picture that is only to be looked at, into the folder for temporary files, where KITPROOF_LOOK asks for it. */
export async function lookAt(page: Page, name: string): Promise<void> {
  if (!process.env.KITPROOF_LOOK) return;
  const folder = join(tmpdir(), 'kitproof-editor-look');
  mkdirSync(folder, { recursive: true });
  await page.waitForTimeout(700);
  await page.screenshot({ path: join(folder, `${name}.png`), animations: 'disabled', caret: 'hide' });
}
