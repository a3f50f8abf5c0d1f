import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { CodeLens } from 'vscode-languageserver/node.js';
import type { CheckedView, GuideView, LabourView, LedgerView } from '../../server/src/lsp/guide-view-types';
import { inMemory, PULLING } from '../lsp/client';
import { FOLDER, files, GUIDE, GUIDE_URI, replacing, VEHICLE_URI } from '../lsp/world';

const samples = join(import.meta.dirname, '../../samples');

/** The samples as files in memory, under the folder that the client opens. */
function sampleFiles(): Map<string, string> {
  const names = readdirSync(samples).filter((name) => name.endsWith('.yaml'));
  return new Map(names.map((name) => [`/shop/${name}`, readFileSync(join(samples, name), 'utf8')]));
}

describe('the guide as it is read', () => {
  it('has sections, steps and operations in words, with times', async () => {
    const client = await inMemory(files()).start(PULLING);
    await client.open(GUIDE_URI, GUIDE);
    const guide = await client.request<GuideView>('kitproof/guide', { uri: GUIDE_URI });
    expect(guide).toMatchObject({
      uri: GUIDE_URI,
      title: 'Bracket off and on',
      fits: ['Moorhen'],
      steps: 2,
      checkedSteps: 2,
    });
    expect(guide.covers).toEqual([{ name: 'lockers', values: ['none', 'fitted'] }]);
    expect(guide.sections.map(({ title, highest }) => [title, highest])).toEqual([['Bracket', 9]]);
    const [off, back] = guide.sections[0]!.steps;
    expect(off).toMatchObject({
      path: '1.1',
      id: 'off',
      text: [{ text: 'Take the bracket off.', kind: 'plain' }],
      operations: ['loosen bracket.bolt', 'unbolt bracket'],
      labour: { lowest: 5, highest: 5, atLeast: false },
      when: null,
      uri: GUIDE_URI,
      findings: [],
    });
    expect(back!.running).toEqual({ lowest: 9, highest: 9 });
    await client.end();
  });

  it('follows an edit, and has each finding at its step', async () => {
    const client = await inMemory(files()).start(PULLING);
    await client.open(GUIDE_URI, GUIDE);
    await client.change(GUIDE_URI, replacing(GUIDE, '          - torque: bracket.bolt\n', ''));
    const guide = await client.request<GuideView>('kitproof/guide', { uri: GUIDE_URI });
    expect(guide.sections[0]!.steps.map(({ findings }) => findings.map(({ rule }) => rule))).toEqual([
      ['left-loose'],
      [],
    ]);
    expect(guide.elsewhere).toEqual([]);
    await client.end();
  });

  it('tells what is waived, why and by whom, at its step', async () => {
    const why = { because: 'The next guide goes on.', by: 'A. Fitter', until: '2026-12-31' };
    const written = 'because: The next guide goes on., by: A. Fitter, until: 2026-12-31';
    const text = GUIDE.replace('          - torque: bracket.bolt\n', '').replace(
      '- loosen: bracket.bolt\n',
      `- loosen: bracket.bolt\n            waive: [{ rule: left-loose, ${written} }]\n`,
    );
    const client = await inMemory(files()).start(PULLING);
    await client.open(GUIDE_URI, text);
    const guide = await client.request<GuideView>('kitproof/guide', { uri: GUIDE_URI });
    expect(guide.waivers).toBe(1);
    const [off, back] = guide.sections[0]!.steps;
    expect([off!.findings, off!.waivers, back!.waivers]).toEqual([[], [{ rule: 'left-loose', ...why }], []]);
    await client.end();
  });

  it('prints what a text names, by the figure that the step uses', async () => {
    const text = GUIDE.replace(
      'Put it back.',
      'Put {part:bracket} back, {torque:bracket.bolt}, see {step:off} and {part:nothing}.',
    );
    const client = await inMemory(files()).start(PULLING);
    await client.open(GUIDE_URI, text);
    const guide = await client.request<GuideView>('kitproof/guide', { uri: GUIDE_URI });
    const words = guide.sections[0]!.steps[1]!.text;
    expect(words.map(({ text: said }) => said).join('')).toContain(
      'Put bracket back, 22 N·m, see step 1.1 and',
    );
    expect(words.filter(({ kind }) => kind === 'torque')).toEqual([{ text: '22 N·m', kind: 'torque' }]);
    await client.end();
  });

  it('has conditions, cautions, people and the range of the hours, in the largest sample', async () => {
    const contents = sampleFiles();
    const client = await inMemory(contents).start(PULLING, [FOLDER]);
    const uri = `${FOLDER}/upland-50.install.yaml`;
    await client.open(uri, contents.get('/shop/upland-50.install.yaml')!);
    const guide = await client.request<GuideView>('kitproof/guide', { uri });
    const steps = guide.sections.flatMap((section) => section.steps);
    expect(steps.length).toBeGreaterThan(100);
    const locker = steps.find(({ id }) => id === 'front-locker-off');
    expect(locker?.when).toBe('lockers: fitted');
    const shocks = steps.find(({ id }) => id === 'front-shocks-off');
    expect(shocks?.cautions[0]?.signal).toBe('danger');
    expect(steps.some(({ people }) => people === 2)).toBe(true);
    const labour = await client.request<LabourView>('kitproof/labour', { uri });
    expect(labour).toEqual(guide.labour);
    expect(labour.lowest).toBeLessThan(labour.highest);
    // The sections add up to no less than the whole, and no step is lost on the way.
    expect(guide.sections.reduce((sum, { highest }) => sum + highest, 0)).toBeGreaterThanOrEqual(
      labour.highest - 1e-6,
    );
    await client.end();
  });

  it('is nothing of a vehicle, of no file and of a text that is half typed or hostile', async () => {
    const client = await inMemory(files()).start(PULLING, [FOLDER]);
    for (const uri of [VEHICLE_URI, `${FOLDER}/none.install.yaml`, 'untitled:x'])
      expect(await client.request('kitproof/guide', { uri }), uri).toBeNull();
    for (const text of [
      '',
      'kitproof: install/1\nsections: [',
      'kitproof: install/1\nsections: { a: [1, { b: ] } }',
      GUIDE.slice(0, 300),
    ]) {
      await client.open(GUIDE_URI, text);
      const guide = await client.request<GuideView | null>('kitproof/guide', { uri: GUIDE_URI });
      if (guide !== null) expect(guide.sections.flatMap(({ steps }) => steps).length).toBeLessThan(3);
      await client.close(GUIDE_URI);
    }
    await client.end();
  });

  it('is checked afresh on demand, with all of its folder', async () => {
    const contents = files();
    contents.set('/shop/bracket.install.yaml', GUIDE.replace('          - torque: bracket.bolt\n', ''));
    const client = await inMemory(contents).start(PULLING, [FOLDER]);
    // The first look into the folder runs meanwhile.
    let checked: CheckedView | null = null;
    for (let tries = 0; tries < 50 && (checked?.documents ?? 0) < 2; tries++) {
      await new Promise((resolve) => setTimeout(resolve, 20));
      checked = await client.request<CheckedView>('kitproof/checkWorkspace', {});
    }
    expect(checked?.documents).toBe(2);
    expect(Object.values(checked!.findings).reduce((sum, count) => sum + count)).toBe(1);
    // A file that changed on the disk, which nobody told of, is read again.
    contents.set('/shop/bracket.install.yaml', GUIDE);
    const again = await client.request<CheckedView>('kitproof/checkWorkspace', {});
    expect(Object.values(again.findings).reduce((sum, count) => sum + count)).toBe(0);
    await client.end();
  });
});

describe('the ledger beside the guide', () => {
  it('tells what is open from step to step', async () => {
    const client = await inMemory(files()).start(PULLING);
    await client.open(GUIDE_URI, GUIDE);
    const ledger = await client.request<LedgerView>('kitproof/ledger', { uri: GUIDE_URI });
    expect(ledger).toEqual({
      uri: GUIDE_URI,
      lines: [{ sort: 'off', label: 'bracket: off', opened: '1.1', closed: '1.2', variants: null }],
      open: { '1.1': 1 },
    });
    await client.end();
  });

  it('counts as open after a section what the line over that section in the text counts', async () => {
    const client = await inMemory(sampleFiles()).start(PULLING);
    const uri = 'file:///shop/upland-50.install.yaml';
    await client.open(uri, sampleFiles().get('/shop/upland-50.install.yaml')!);
    const guide = await client.request<GuideView>('kitproof/guide', { uri });
    const { open } = await client.request<LedgerView>('kitproof/ledger', { uri });
    const lenses = await client.request<CodeLens[]>('textDocument/codeLens', { textDocument: { uri } });
    const shown = guide.sections.map(({ steps }) => open[steps.at(-1)!.path] ?? 0);
    const said = lenses.map(({ command }) => Number(/(\d+) items? open/.exec(command!.title)?.[1] ?? 0));
    expect(Math.max(...said)).toBeGreaterThan(5);
    expect(shown).toEqual(said);
    await client.end();
  });

  it('one variant is read at a time: its steps, its hours, its findings, its ledger', async () => {
    const client = await inMemory(files()).start(PULLING);
    const text = GUIDE.replace(
      '      - id: back',
      '      - id: plug\n        when: { lockers: fitted }\n        text: Unplug it.\n        do: [{ unbolt: rear-wheel }]\n        time: 3 min\n      - id: back',
    );
    await client.open(GUIDE_URI, text);
    const ask = (variant?: object) =>
      client.request<GuideView>('kitproof/guide', { uri: GUIDE_URI, variant });
    const ids = (guide: GuideView) => guide.sections[0]!.steps.map(({ id }) => id);
    const all = await ask();
    expect(all.choices).toEqual([{ name: 'lockers', values: ['none', 'fitted'] }]);
    expect(ids(all)).toEqual(['off', 'plug', 'back']);
    expect(all.labour).toMatchObject({ lowest: 9, highest: 12 });
    expect(all.findings.warning + all.findings.error).toBeGreaterThan(0);
    const without = await ask({ lockers: 'none' });
    expect(without.chosen).toEqual({ lockers: 'none' });
    expect(ids(without)).toEqual(['off', 'back']);
    expect(without.labour).toMatchObject({ lowest: 9, highest: 9 });
    expect(without.findings).toEqual({ error: 0, warning: 0, info: 0 });
    const fitted = await ask({ lockers: 'fitted' });
    expect(fitted.labour).toMatchObject({ lowest: 12, highest: 12 });
    // A step that every variant left has is done in all of them.
    expect(fitted.sections[0]!.steps[1]!.when).toBeNull();
    // What the guide no longer knows is no choice.
    expect((await ask({ lockers: 'gone', colour: 'red' })).chosen).toEqual({});
    const lines = async (variant: object) =>
      (await client.request<LedgerView>('kitproof/ledger', { uri: GUIDE_URI, variant })).lines.map(
        ({ label }) => label,
      );
    expect(await lines({ lockers: 'none' })).toEqual(['bracket: off']);
    expect(await lines({ lockers: 'fitted' })).toEqual(['bracket: off', 'rear-wheel: off']);
    await client.end();
  });
});
