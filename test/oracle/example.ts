// Turns the `good` and `bad` examples of a rule into documents, and reads the packs from disk.
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { stringify } from 'yaml';
import { readPacks } from './packs.ts';
import { isMap, list, map, type Raw } from './raw.ts';

const PACKS = join(import.meta.dirname, '../../server/src/rules/packs');

/** The text of every standard pack, the base pack first. */
export function standardPacks(): Record<string, string> {
  const names = readdirSync(PACKS).filter((name) => name.endsWith('.rules.yaml'));
  names.sort(
    (one, other) =>
      Number(other.startsWith('base')) - Number(one.startsWith('base')) || (one < other ? -1 : 1),
  );
  return Object.fromEntries(names.map((name) => [name, readFileSync(join(PACKS, name), 'utf8')]));
}

/** A configuration's `rules` that switches every rule of the packs on, house rules too. */
export function everyRuleOn(packs: Record<string, string>): Record<string, string> {
  return Object.fromEntries(readPacks(packs).rules.map((rule) => [String(rule.id), 'on']));
}

/** The documents of an example: each entry of its `do` is a step of its own. */
export function exampleFiles(example: Raw): { files: Record<string, string>; guide: string } {
  const steps = list(example.do).map((entry) =>
    isMap(entry) && entry.do !== undefined ? entry : { do: [entry] },
  );
  const guide: Raw = { kitproof: 'install/1', title: 'Example', vehicle: 'example.vehicle.yaml' };
  const files: Record<string, string> = {
    'example.vehicle.yaml': stringify({ kitproof: 'vehicle/1', name: 'Example', ...map(example.vehicle) }),
  };
  if (example.kit !== undefined) {
    guide.kit = 'example.kit.yaml';
    files['example.kit.yaml'] = stringify({ kitproof: 'kit/1', name: 'Example', ...map(example.kit) });
  }
  for (const key of ['given', 'leaves', 'owes', 'side', 'covers'])
    if (example[key] !== undefined) guide[key] = example[key];
  files['example.install.yaml'] = stringify({ ...guide, sections: [{ title: 'All', steps }] });
  return { files, guide: 'example.install.yaml' };
}
