import { expect, it } from 'vitest';
import { skeletonOf } from '../../client/skeletons';
import { checkDocuments } from '../../server/src/workspace/check';
import { memoryFiles } from '../../server/src/workspace/memory';
import { standardPacks } from '../../server/src/workspace/packs';
import { Project } from '../../server/src/workspace/project';

async function findings(files: Readonly<Record<string, string>>): Promise<string[]> {
  const contents = new Map(Object.entries(files).map(([name, text]) => [`/shop/${name}`, text]));
  const project = new Project(memoryFiles(contents), standardPacks());
  const check = (await checkDocuments(project, [...contents.keys()], { today: '2026-03-14' }))!;
  return check.findings.map(({ rule, message }) => `${rule}: ${message}`);
}

it('what a new document begins with is right, whatever it is called', async () => {
  for (const title of ['Trail rear shocks', 'a: "b" #c', '雪', '-- ?']) {
    for (const kind of ['install', 'vehicle', 'kit', 'rules'] as const) {
      const { fileName, text, cursor } = skeletonOf(kind, title);
      expect(fileName).toMatch(/^[\p{L}\p{N}]+(?:-[\p{L}\p{N}]+)*\.(?:install|vehicle|kit|rules)\.yaml$/u);
      expect(await findings({ [fileName]: text }), text).toEqual([]);
      expect(cursor).toBe(text.length);
      expect(text.endsWith(' ')).toBe(true);
    }
  }
});

it('a guide names the vehicle and the kit that stand beside it alone', async () => {
  const vehicle = skeletonOf('vehicle', 'Moorhen');
  const guide = skeletonOf('install', 'Shocks', { vehicle: vehicle.fileName, kit: null });
  expect(guide.text).toContain('vehicle: moorhen.vehicle.yaml\n');
  expect(await findings({ [vehicle.fileName]: vehicle.text, [guide.fileName]: guide.text })).toEqual([]);
});
