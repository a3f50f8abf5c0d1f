/** What a writer does in the editor, and where things are seen. */
import type { FrameLocator, Locator, Page } from 'playwright-core';

export class Hands {
  constructor(readonly page: Page) {}

  /** The editor that is worked in. */
  get text(): Locator {
    return this.page.locator('.editor-group-container.active .monaco-editor').first();
  }

  async command(title: string): Promise<void> {
    const input = await this.call(title);
    await input.waitFor({ state: 'hidden' });
  }

  /** A command that asks a question, and the answer to it. */
  async answer(title: string, question: string, answer: string): Promise<void> {
    const input = await this.call(title);
    await this.page.locator('.quick-input-widget').filter({ hasText: question }).waitFor();
    await input.fill(answer);
    await this.page.keyboard.press('Enter');
    await input.waitFor({ state: 'hidden' });
  }

  /** Chooses a command; what it asks for then is for the caller. */
  async call(title: string): Promise<Locator> {
    const input = this.page.locator('.quick-input-widget .quick-input-box input');
    const row = this.page.locator('.quick-input-list .monaco-list-row').filter({ hasText: title }).first();
    // What was shown just before may take the focus late, and the list closes with that.
    for (let tries = 3; ; tries--) {
      try {
        await this.page.keyboard.press('F1');
        await input.waitFor({ timeout: 10_000 });
        await input.fill(`>${title}`, { timeout: 5_000 });
        await row.click({ timeout: 5_000 });
        return input;
      } catch (error) {
        if (tries === 1) throw error;
      }
    }
  }

  /** Chooses a colour theme by the name that the editor's list has for it. */
  async theme(name: string): Promise<void> {
    await this.page.keyboard.press('F1');
    const input = this.page.locator('.quick-input-widget .quick-input-box input');
    await input.waitFor();
    await input.fill('>Preferences: Color Theme');
    const rows = this.page.locator('.quick-input-list .monaco-list-row');
    await rows.filter({ hasText: 'Preferences: Color Theme' }).first().click();
    await rows.filter({ hasText: 'Light Modern' }).first().waitFor();
    await input.fill(name);
    await rows
      .filter({ hasText: new RegExp(`^${name}`) })
      .first()
      .click();
    await input.waitFor({ state: 'hidden' });
  }

  /** Opens a file of the folder by its name, to stay. */
  async open(name: string): Promise<void> {
    await this.page.keyboard.press('Control+P');
    const input = this.page.locator('.quick-input-widget .quick-input-box input');
    await input.waitFor();
    await input.fill(name);
    // The row itself: while the list is still being narrowed another one has the mark.
    await this.page.locator('.quick-input-list .monaco-list-row').filter({ hasText: name }).first().click();
    await this.page.locator(`.tabs-container .tab.active[data-resource-name="${name}"]`).waitFor();
    await this.text.locator('.view-line').first().waitFor();
  }

  /** Puts the cursor at a line and column, both from 1. */
  async goTo(line: number, column: number): Promise<void> {
    await this.page.keyboard.press('Control+G');
    const input = this.page.locator('.quick-input-widget .quick-input-box input');
    await input.waitFor();
    await input.fill(`:${line}:${column}`);
    await this.page.keyboard.press('Enter');
    await input.waitFor({ state: 'hidden' });
  }

  /** Has completion offer what may stand at the cursor, and takes a word of it. */
  async complete(word: string): Promise<void> {
    // A list that opened by itself while a word was typed is one of words half typed.
    await this.page.keyboard.press('Escape');
    await this.page.keyboard.press('Control+Space');
    await this.choose(word);
  }

  /** Takes a word of the list that is open, gone through with the arrow key. */
  async choose(word: string): Promise<void> {
    const focused = this.page.locator('.suggest-widget.visible .monaco-list-row.focused .label-name');
    const seen = new Set<string>();
    for (;;) {
      const label = (await focused.textContent()) ?? '';
      if (label === word) break;
      if (seen.has(label)) throw new Error(`"${word}" is not offered, only: ${[...seen].join(', ')}`);
      seen.add(label);
      await this.page.keyboard.press('ArrowDown');
    }
    await this.page.keyboard.press('Tab');
    // Of a whole step the list of its first place may follow at once.
    await focused.filter({ hasText: exactly(word) }).waitFor({ state: 'hidden' });
  }

  /** Has what can be done at the cursor listed, until something with these words is. Gives the rows. */
  async offers(words: RegExp): Promise<Locator> {
    const rows = this.page.locator('.action-widget .monaco-list-row.action');
    const wanted = rows.filter({ hasText: words }).first();
    // The editor drops what it was asked for when findings come in meanwhile, and says that there is nothing.
    for (let tries = 3; tries > 0 && !(await wanted.isVisible()); tries--) {
      await this.page.keyboard.press('Control+.');
      await wanted.waitFor({ timeout: 8_000 }).catch(() => undefined);
    }
    await wanted.waitFor();
    return rows;
  }

  /** Rests the pointer on a word of the text. */
  async pointAt(word: string): Promise<void> {
    const place = await this.text.locator('.view-line span').filter({ hasText: word }).last().boundingBox();
    if (place === null) throw new Error(`"${word}" is not to be seen.`);
    // A move from elsewhere, so that the editor sees the pointer come in.
    await this.page.mouse.move(place.x + place.width / 2, place.y + 60);
    await this.page.mouse.move(place.x + place.width / 2, place.y + place.height / 2, { steps: 4 });
  }

  get squiggle(): Locator {
    return this.text.locator('.squiggly-error');
  }

  get hover(): Locator {
    return this.page.locator('.monaco-hover:not(.hidden)').filter({ hasText: /\S/ }).first();
  }

  get problems(): Locator {
    return this.page.locator('.markers-panel .monaco-list-row');
  }

  get lenses(): Locator {
    return this.text.locator('.codelens-decoration');
  }

  get hours(): Locator {
    return this.page.locator('.statusbar-item').filter({ hasText: /\d h/ });
  }

  get preview(): FrameLocator {
    return this.page.frameLocator('iframe.webview.ready').frameLocator('iframe#active-frame');
  }
}

const exactly = (word: string): RegExp => new RegExp(`^${word.replaceAll(/[.*+?^${}()|[\]\\/]/g, '\\$&')}$`);
