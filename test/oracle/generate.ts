// Random small projects for comparing two readings of the same page: plausible guides, spoilt a little.
import { stringify } from 'yaml';
import { addBolts } from './generate-bolts.ts';
import { type Names, namesOf, skeleton } from './generate-guide.ts';
import { randomOperation } from './generate-operation.ts';
import { addTyres, changeWheel } from './generate-tyres.ts';
import { randomKit, randomVehicle } from './generate-vehicle.ts';
import { type Random, seeded } from './random.ts';
import { map, type Raw } from './raw.ts';

export interface Project {
  files: Record<string, string>;
  guide: string;
}

interface Conditions {
  variables: Raw; // traits and options with what they declare
  optional: string[];
  found: string[];
}

/** A vehicle, usually a kit, and a guide, as YAML text. The same seed gives the same project. */
export function randomProject(seed: number): Project {
  const random = seeded(seed);
  const files: Record<string, string> = {};
  const bare = random.chance(0.06); // a guide alone: every name is declared by its use
  const vehicle = randomVehicle(random);
  const kit = random.chance(0.7) ? randomKit(random, vehicle) : {};
  const names = namesOf(vehicle, kit);
  addBolts(seed, vehicle);
  addBolts(seed + 1, kit);
  const changed = addTyres(seed, vehicle, kit);
  const operations = mutate(random, names, skeleton(random, names));
  const conditions: Conditions = {
    variables: bare ? {} : { ...map(vehicle.traits), ...map(kit.options) },
    optional: [],
    found: JSON.stringify(operations).includes('worn') || random.chance(0.1) ? ['worn'] : [],
  };
  const steps = makeSteps(random, operations, conditions);
  const guide: Raw = { kitproof: 'install/1', title: `Seed ${seed}` };
  if (!bare) {
    guide.vehicle = 'moorhen.vehicle.yaml';
    files['moorhen.vehicle.yaml'] = stringify(vehicle);
    if (kit.kitproof !== undefined) {
      guide.kit = 'upland.kit.yaml';
      files['upland.kit.yaml'] = stringify(kit);
    }
  }
  const sections = makeSections(random, steps, conditions);
  if (random.chance(0.1)) moveToOther(random, sections, files);
  changeWheel(seed, changed, sections);
  head(random, guide, names, conditions, files, bare);
  guide.sections = sections;
  files['job.install.yaml'] = stringify(guide);
  return { files, guide: 'job.install.yaml' };
}

/** Drops, doubles, swaps, changes and adds a few operations; sometimes none. */
function mutate(random: Random, names: Names, operations: Raw[]): Raw[] {
  const result = [...operations];
  const changes = random.one([0, 0, 1, 1, 2, 3, 4, 6]);
  for (let change = 0; change < changes && result.length > 1; change += 1) {
    const at = random.below(result.length);
    const kind = random.below(5);
    if (kind === 0) result.splice(at, 1);
    else if (kind === 1) result.splice(random.below(result.length), 0, { ...result[at]! });
    else if (kind === 2) {
      const other = random.below(result.length);
      [result[at], result[other]] = [result[other]!, result[at]!];
    } else if (kind === 3) result[at] = { ...result[at]!, side: random.one(['left', 'right']) };
    else result.splice(at, 0, randomOperation(random, names));
  }
  return result;
}

function makeSteps(random: Random, operations: Raw[], conditions: Conditions): Raw[] {
  const steps: Raw[] = [];
  let at = 0;
  while (at < operations.length) {
    const count = random.one([1, 1, 2, 3]);
    const own = operations
      .slice(at, at + count)
      .map((operation) => condition(random, { ...operation }, conditions, random.one([0, 0.06])));
    at += count;
    const step: Raw = { do: own };
    if (random.chance(0.08)) step.side = random.one(['left', 'right', 'each']);
    if (random.chance(0.12)) step.people = 2;
    if (random.chance(0.04))
      step.caution = {
        signal: 'warning',
        text: 'Mind it.',
        covers: [random.one(['left-loose', 'undo-undone', 'reach'])],
      };
    // A condition asks for steps before its own, never for itself.
    const asked = condition(random, step, conditions, random.one([0, 0.1]));
    if (conditions.optional.length < 2 && random.chance(0.06)) {
      asked.optional = true;
      asked.id = `choice-${steps.length}`;
      conditions.optional.push(`choice-${steps.length}`);
    }
    steps.push(asked);
  }
  return steps;
}

function makeSections(random: Random, steps: Raw[], conditions: Conditions): Raw[] {
  const cut = 1 + random.below(Math.max(1, steps.length - 1));
  const both = [steps.slice(0, cut), steps.slice(cut)].filter((part) => part.length > 0);
  return both.map((part, index) =>
    condition(
      random,
      { title: `Part ${index + 1}`, steps: part },
      { ...conditions, optional: [], found: [] },
      0.04,
    ),
  );
}

/** Adds a condition with some chance. */
function condition(random: Random, to: Raw, conditions: Conditions, chance: number): Raw {
  if (!random.chance(chance)) return to;
  // What measures a branch does not wait for it.
  const found = JSON.stringify(to).includes('measure') ? [] : conditions.found;
  return { ...to, when: randomCondition(random, { ...conditions, found }) };
}

function randomCondition(random: Random, conditions: Conditions): unknown {
  const one = (): Raw => {
    const names = Object.keys(conditions.variables);
    const kind = random.below(6);
    if (kind === 0 && conditions.optional.length > 0) return { done: random.one(conditions.optional) };
    if (kind === 1 && conditions.found.length > 0) return { found: random.one(conditions.found) };
    if (names.length === 0) {
      const id = conditions.optional[0];
      if (id === undefined) return conditions.found.length === 0 ? {} : { found: 'worn' };
      return { done: id };
    }
    const name = random.one(names);
    const declared = conditions.variables[name];
    if (!Array.isArray(declared))
      return {
        [name]: random.one([
          { below: '120 kg' },
          { 'at-least': '300 kg' },
          { 'at-least': '100 kg', below: '300 kg' },
        ]),
      };
    return { [name]: random.chance(0.8) ? random.one(declared) : random.some(declared, 1, 2) };
  };
  if (random.chance(0.15)) return [one(), one()];
  if (random.chance(0.15)) return { not: one() };
  return one();
}

/** What stands above the sections: side, covers, given, leaves, follows, owes. */
function head(
  random: Random,
  guide: Raw,
  names: Names,
  conditions: Conditions,
  files: Record<string, string>,
  bare: boolean,
): void {
  if (random.chance(0.06)) guide.side = random.one(['left', 'right']);
  const listed = Object.entries(conditions.variables).filter(([, values]) => Array.isArray(values));
  if (listed.length > 0 && random.chance(0.3)) {
    const [name, values] = random.one(listed);
    guide.covers = { [name]: random.chance(0.3) ? 'any' : random.some(values as string[], 1, 2) };
  }
  const states = (): Raw => {
    const entries: Raw = {};
    if (random.chance(0.4)) entries[random.one(names.joints)] = random.one(['loose', 'out', 'snug', 'final']);
    if (random.chance(0.4))
      entries[random.one(names.parts.filter((name) => !name.includes('axle')))] = random.one([
        'off',
        'fitted',
        'swung',
      ]);
    if (random.chance(0.3) && names.lines.length > 0)
      entries[random.one(names.lines)] = random.one(['disconnected', 'unclipped']);
    if (random.chance(0.2)) entries.vehicle = 'raised';
    if (random.chance(0.2)) entries.battery = 'safe';
    return entries;
  };
  if (random.chance(0.12))
    guide.given = random.chance(0.7)
      ? states()
      : [{ loosen: random.one(names.joints) }, { raise: 'vehicle', with: 'two-post-lift' }];
  if (random.chance(0.12)) guide.leaves = states();
  if (!bare && random.chance(0.06)) {
    guide.follows = 'before.install.yaml';
    files['before.install.yaml'] = stringify({
      kitproof: 'install/1',
      title: 'Before',
      vehicle: guide.vehicle,
      leaves: states(),
      sections: [],
    });
  }
  if (random.chance(0.2)) guide.owes = [{ check: 'alignment', before: 'road' }];
}

/** Moves a run of steps of the first section to another guide, and uses them from there. */
function moveToOther(random: Random, sections: Raw[], files: Record<string, string>): void {
  const steps = map(sections[0]).steps as Raw[];
  const moved = steps.filter((step) => step.optional === undefined).slice(0, 2);
  if (moved.length === 0) return;
  files['strip.install.yaml'] = stringify({
    kitproof: 'install/1',
    title: 'Strip',
    sections: [
      { title: 'Other', steps: [] },
      { id: 'strip', title: 'Strip', steps: moved },
    ],
  });
  const use: Raw = {
    do: [{ use: { guide: 'strip.install.yaml', section: random.one(['strip', 'Strip']) } }],
  };
  sections[0] = { ...sections[0], steps: [use, ...steps.filter((step) => !moved.includes(step))] };
}
