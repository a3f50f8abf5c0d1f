// Tyres for the wheels of a random project, and a kit's wheel that replaces one, from a source of their own.
import { type Random, seeded } from './random.ts';
import { isMap, list, map, type Raw, texts } from './raw.ts';

const SIZES = ['225/65R17', '225/60R17', '235/65R17', '265/70R17 115T', '31x10.50R15', '29x9.5R16'];

/** Gives wheels of the vehicle a size, and the kit a wheel of another for one of them. Returns the wheel that it replaces. */
export function addTyres(seed: number, vehicle: Raw, kit: Raw): string | undefined {
  const random = seeded(seed ^ 0x7175);
  const wheels = Object.entries(map(vehicle.parts)).filter(
    ([name, body]) => name.includes('wheel') && isMap(body),
  );
  for (const [, body] of wheels) if (random.chance(0.7)) map(body).tyre = random.one(SIZES);
  if (kit.kitproof === undefined || wheels.length === 0 || !random.chance(0.4)) return undefined;
  const [replaces] = random.one(wheels);
  const size = random.chance(0.8) ? { tyre: random.one(SIZES) } : {};
  map(kit.parts)['trail-wheel'] = { kind: 'wheel', replaces, ...size };
  if (random.chance(0.6))
    kit.clearances = randomClearances(random, { ...map(vehicle.traits), ...map(kit.options) });
  return replaces;
}

/** A table by the values of one trait or option, with gaps and overlaps; now and then a row for all the rest. */
function randomClearances(random: Random, variables: Raw): Raw[] {
  const listed = Object.entries(variables).filter(([, values]) => Array.isArray(values));
  if (listed.length === 0) return [{ tyre: random.one(SIZES) }];
  const [name, values] = random.one(listed);
  const rows = texts(values)
    .filter(() => random.chance(0.8))
    .map((value): Raw => ({ when: { [name]: value }, tyre: random.one(SIZES) }));
  if (random.chance(0.3)) rows.push({ when: { not: { [name]: texts(values)[0] } }, tyre: random.one(SIZES) });
  return random.chance(0.4) || rows.length === 0 ? [...rows, { tyre: random.one(SIZES) }] : rows;
}

/** Somewhere in the guide the wheel is changed; what is done to it afterwards is done to the new one. */
export function changeWheel(seed: number, name: string | undefined, sections: Raw[]): void {
  const random = seeded(seed ^ 0x3ee1);
  const section = sections.at(-1);
  if (name === undefined || section === undefined) return;
  const steps = list(section.steps).filter(isMap);
  const at = random.below(steps.length + 1);
  const renamed = steps
    .slice(at)
    .map((step) => JSON.parse(JSON.stringify(step).replaceAll(`"${name}`, '"trail-wheel')) as Raw);
  const fitting: Raw[] = [
    { do: [{ unbolt: name }, { discard: name }] },
    { do: [{ 'bolt-up': 'trail-wheel' }, { snug: 'trail-wheel' }] },
  ];
  section.steps = [
    ...steps.slice(0, at),
    ...(random.chance(0.7) ? fitting : [{ do: [{ fit: 'trail-wheel' }] }]),
    ...renamed,
  ];
  if (!random.chance(0.3)) return;
  const look = random.one(['speedometer', 'speedo', 'tyre-size', 'speedometer.reading', 'speed']);
  const verb = random.one(['check', 'measure', 'set', 'record']);
  (section.steps as Raw[]).splice(random.below(steps.length + 1), 0, { do: [{ [verb]: look }] });
}
