import { afterEach, expect, it } from 'vitest';
import { type Client, inMemory, PUSHED } from './client';
import { FOLDER, files, GUIDE, GUIDE_URI, replacing, VEHICLE } from './world';

let client: Client;

afterEach(() => client.end());

it('what the kit brings for a joint counts after an edit as before it', async () => {
  const vehicle = VEHICLE.replace(
    'bolt: { thread: M8x1.25,',
    'bolt: { thread: M8x1.25, nut: plain, nut-class: "8",',
  );
  const kit =
    'kitproof: kit/1\nname: Bolts\nfor: Moorhen\nhardware:\n  new-bolt: { thread: M8x1.25, class: "10.9", quantity: 1, for: bracket.bolt.bolt }\n';
  const guide = GUIDE.replace('sections:', 'kit: a.kit.yaml\nsections:').replace(
    '- torque: bracket.bolt',
    '- { torque: bracket.bolt, new: bolt }',
  );
  const all = files({ '/shop/moorhen.vehicle.yaml': vehicle, '/shop/a.kit.yaml': kit });
  client = await inMemory(all).start(PUSHED, [FOLDER]);
  await client.open(GUIDE_URI, guide);
  const rules = async (version: number) =>
    (await client.push(GUIDE_URI, (push) => push.version === version)).map(({ code }) => code);
  expect(await rules(1)).toEqual(['nut-weaker']);
  await client.change(GUIDE_URI, replacing(guide, '- loosen: bracket.bolt', '- check: bracket.bolt'));
  expect(await rules(2)).toEqual(['nut-weaker']);
});
