import { describe, expect, it } from 'vitest';
import { inMemory, PUSHED } from './client';
import { at, FOLDER, files, GUIDE, GUIDE_URI, replacing, VEHICLE, VEHICLE_URI } from './world';

const rules = (diagnostics: readonly { code?: unknown }[]) => diagnostics.map(({ code }) => code);

describe('findings that are pushed', () => {
  it('come for an open guide, with rule, severity, source and what led there', async () => {
    const client = await inMemory(files()).start(PUSHED);
    const wrong = GUIDE.replace('          - torque: bracket.bolt\n', '');
    await client.open(GUIDE_URI, wrong);
    const found = await client.push(GUIDE_URI);
    expect(rules(found)).toEqual(['left-loose']);
    expect(found[0]).toMatchObject({
      source: 'kitproof',
      range: { start: at(wrong, 'loosen: bracket.bolt') },
    });
    expect(client.pushes.at(-1)!.version).toBe(1);
    await client.end();
  });

  it('follow every edit, even where nothing changed, with its version', async () => {
    const client = await inMemory(files()).start(PUSHED);
    await client.open(GUIDE_URI, GUIDE);
    await client.push(GUIDE_URI);
    for (let edit = 0; edit < 20; edit++) {
      const version = await client.change(GUIDE_URI, {
        range: { start: { line: 1, character: 7 }, end: { line: 1, character: 7 } },
        text: 'x',
      });
      expect(await client.push(GUIDE_URI, (push) => push.version === version)).toEqual([]);
    }
    await client.end();
  });

  it('stand in the file that is wrong, when another is open', async () => {
    const client = await inMemory(files()).start(PUSHED, [FOLDER]);
    await client.open(GUIDE_URI, GUIDE);
    await client.open(VEHICLE_URI, VEHICLE);
    await client.push(VEHICLE_URI);
    await client.change(
      VEHICLE_URI,
      replacing(VEHICLE, '      lower-bolt: { thread', '      lower-bolt: { thraed'),
    );
    const found = await client.push(VEHICLE_URI, (push) => push.version === 2);
    expect(rules(found)).toEqual(['unknown-key']);
    expect(found[0]!.range.start).toEqual(at(VEHICLE, 'thread: M12x1.75'));
    expect(await client.push(GUIDE_URI)).toEqual([]);
    await client.end();
  });
});
