// The operations of a random guide: tasks that a workshop would do, undone again in turn, then spoilt a little.
import { VERBS } from './operation.ts';
import type { Random } from './random.ts';
import { map, type Raw } from './raw.ts';

/** A task: what is done going in, and what is done coming back. */
interface Task {
  out: Raw[];
  back: Raw[];
}

export interface Names {
  parts: string[];
  lines: string[];
  joints: string[];
  kitParts: Raw;
}

/** All names that a random operation may use. */
export function namesOf(vehicle: Raw, kit: Raw): Names {
  const parts = { ...map(vehicle.parts), ...map(kit.parts) };
  const joints = Object.entries(parts).flatMap(([name, body]) =>
    Object.keys(map(map(body).joints)).map((joint) => `${name}.${joint}`),
  );
  for (const end of ['front', 'rear'])
    if (parts[`${end}-wheel`] !== undefined) joints.push(`${end}-wheel.nut`);
  const lines = Object.keys({ ...map(vehicle.lines), ...map(kit.lines) });
  return { parts: Object.keys(parts), lines, joints, kitParts: map(kit.parts) };
}

/** A legal skeleton: up, in, out again, down. */
export function skeleton(random: Random, names: Names): Raw[] {
  const has = (name: string): boolean => names.parts.includes(name);
  const ends = ['front', 'rear'].filter((end) => has(`${end}-wheel`));
  const wheels = ends.map((end) => `${end}-wheel`);
  const lift = lifting(random, ends);
  const tasks = ends.flatMap((end) => endTasks(random, names, end));
  tasks.push(...otherTasks(random, names));
  const chosen = tasks.filter(() => random.chance(0.55));
  const into: Raw[] = [];
  const back: Raw[] = [];
  if (random.chance(0.7)) into.push({ loosen: wheels.map((wheel) => `${wheel}.nut`) });
  if (random.chance(0.3)) into.push({ isolate: random.one(['battery', 'airbags']) });
  into.push(...lift.out);
  const wheelsOff = random.chance(0.8);
  if (wheelsOff) into.push(random.chance(0.7) ? { unbolt: wheels } : { remove: wheels });
  for (const task of chosen) {
    into.push(...task.out);
    back.unshift(...task.back);
  }
  if (wheelsOff) back.push({ 'bolt-up': wheels }, { snug: wheels });
  back.push(...lift.back);
  back.push({
    torque: wheels,
    to: random.one(['130 N·m', '130 N·m', '96 lbf·ft', '110 N·m', '128-135 N·m']),
  });
  if (random.chance(0.3)) back.push({ restore: 'battery' });
  if (random.chance(0.3)) back.push({ move: 'vehicle' });
  if (random.chance(0.4)) back.push({ check: 'alignment' });
  return [...into, ...back];
}

function lifting(random: Random, ends: string[]): Task {
  const end = random.one(ends);
  const other = end === 'front' ? 'rear' : 'front';
  return random.one<() => Task>([
    () => ({ out: [{ raise: 'vehicle', with: 'two-post-lift' }], back: [{ lower: 'vehicle' }] }),
    () => ({ out: [{ raise: 'vehicle', with: 'two-post-lift' }], back: [{ lower: 'vehicle' }] }),
    () => ({ out: [{ raise: 'vehicle', with: 'four-post-lift' }], back: [{ lower: 'vehicle' }] }),
    () => ({
      out: [{ chock: other }, { raise: end, with: 'trolley-jack' }, { support: end, with: 'axle-stands' }],
      back: [{ unsupport: end, with: 'axle-stands' }, { lower: end }],
    }),
    () => ({
      out: [
        { raise: `${end}-axle`, with: 'trolley-jack' },
        { support: `${end}-axle`, with: 'axle-stand' },
      ],
      back: [
        { raise: `${end}-axle`, with: 'trolley-jack' },
        { unsupport: `${end}-axle`, with: 'axle-stands' },
        { lower: `${end}-axle` },
      ],
    }),
    () => ({
      out: [
        { raise: 'vehicle', with: 'trolley-jack' },
        { lower: 'vehicle', onto: 'frame-stands' },
      ],
      back: [
        { raise: 'vehicle', with: 'trolley-jack' },
        { unsupport: 'vehicle', with: 'frame-stands' },
        { lower: 'vehicle' },
      ],
    }),
  ])();
}

function endTasks(random: Random, names: Names, end: string): Task[] {
  const has = (name: string): boolean => names.parts.includes(name);
  const axle = `${end}-axle`;
  const tasks: Task[] = [];
  const bar = `${end}-track-bar`;
  if (has(bar)) {
    const article = has('long-track-bar') && end === 'front';
    if (article)
      tasks.push({
        out: [{ unbolt: bar }, { discard: bar }],
        back: [
          { 'bolt-up': 'long-track-bar', new: ['nut'] },
          { torque: 'long-track-bar', to: '120 N·m', at: 'ride-height' },
        ],
      });
    else {
      tasks.push({
        out: [{ loosen: `${bar}.frame-bolt` }, { remove: `${bar}.axle-bolt` }, { swing: bar }],
        back: [{ fit: bar }, { start: `${bar}.axle-bolt`, new: ['nut'] }, { torque: bar, to: '120 N·m' }],
      });
    }
  }
  const shock = `${end}-shock`;
  if (has(shock)) tasks.push(shockTask(random, names, end));
  const hose = `${end}-hose`;
  if (names.lines.includes(hose)) {
    tasks.push({ out: [{ disconnect: hose }], back: [{ connect: hose }, { bleed: hose }, { check: hose }] });
    tasks.push({ out: [{ unclip: hose }], back: [{ clip: hose }] });
  }
  const bracket = `${end}-hose-bracket`;
  if (has(bracket))
    tasks.push({
      out: [{ unbolt: bracket }],
      back: [{ 'bolt-up': bracket }, { torque: `${bracket}.bolt`, to: '22 N·m' }],
    });
  if (names.lines.includes(`${end}-plug`))
    tasks.push({ out: [{ disconnect: `${end}-plug` }], back: [{ connect: `${end}-plug` }] });
  const arm = `${end}-arm`;
  if (has(arm)) {
    tasks.push({
      out: [
        { support: arm, with: random.one(['trolley-jack', 'pole-jack']) },
        { remove: `${arm}.inner-bolt` },
      ],
      back: [
        { snug: `${arm}.inner-bolt` },
        { unsupport: arm },
        { raise: axle },
        { torque: `${arm}.inner-bolt`, to: '110 N·m' },
      ],
    });
  }
  return tasks;
}

/** The heart of a suspension job: hold the axle, undo the shocks, let it down, change the spring. */
function shockTask(random: Random, names: Names, end: string): Task {
  const axle = `${end}-axle`;
  const shock = `${end}-shock`;
  const spring = `${end}-spring`;
  const renewed = names.parts.includes(`new-${shock}`) ? `new-${shock}` : undefined;
  const out: Raw[] = [{ support: axle, with: random.one(['pole-jacks', 'trolley-jack', 'axle-stands']) }];
  if (renewed) out.push({ unbolt: shock }, { discard: shock });
  else out.push({ remove: `${shock}.lower-bolt` });
  const by = random.one([20, 45, 60, 120, 180]);
  out.push({ lower: axle, ...(random.chance(0.85) ? { by: `${by} mm` } : {}) });
  const back: Raw[] = [];
  if (names.parts.includes(spring) && random.chance(0.7)) {
    if (random.chance(0.3)) out.push({ compress: spring, with: 'spring-compressor' });
    if (random.chance(0.3)) out.push({ deflate: spring });
    out.push({ remove: spring });
    back.push({ fit: spring });
    if (random.chance(0.3)) back.push({ relax: spring });
    if (random.chance(0.3)) back.push({ inflate: spring, to: random.one(['3 bar', '40 kPa', '20 psi']) });
  }
  back.push({ raise: axle, ...(random.chance(0.3) ? { by: '60 mm' } : {}) });
  if (renewed) back.push({ 'bolt-up': renewed, new: random.some(['nut', 'bush'], 0, 2) });
  const name = renewed ?? shock;
  back.push({
    torque: random.chance(0.5) ? name : [`${name}.lower-bolt`, `${name}.top-nut`],
    to: random.one(['90 N·m', '100 N·m', 'maker']),
    new: random.some(['nut', 'bolt'], 0, 2),
  });
  back.push({ unsupport: axle });
  return { out, back };
}

function otherTasks(random: Random, names: Names): Task[] {
  const has = (name: string): boolean => names.parts.includes(name);
  const tasks: Task[] = [];
  if (has('undertray'))
    tasks.push({
      out: [{ unbolt: 'undertray' }],
      back: [{ 'bolt-up': 'undertray' }, { torque: 'undertray.bolt', to: '25 N·m' }],
    });
  if (has('tie-rod')) {
    tasks.push({
      out: [
        { remove: 'tie-rod.nut' },
        { free: 'tie-rod.taper', with: 'ball-joint-puller' },
        { remove: 'tie-rod' },
      ],
      back: [
        { fit: 'tie-rod' },
        { seat: 'tie-rod.taper' },
        { torque: 'tie-rod.nut', to: '60 N·m' },
        { renew: 'tie-rod.nut.pin' },
      ],
    });
  }
  if (has('gearbox')) {
    tasks.push({
      out: [
        { support: 'gearbox', with: random.one(['gearbox-jack', 'hoist', 'sling']) },
        { unbolt: 'gearbox' },
      ],
      back: [{ 'bolt-up': 'gearbox' }, { torque: 'gearbox.bolt', to: '50 N·m' }, { unsupport: 'gearbox' }],
    });
  }
  if (has('anchor')) {
    const station = random.chance(0.5) ? { station: 'front' } : {};
    tasks.push({
      out: [{ loosen: 'anchor.bolt', ...station }],
      back: [{ torque: 'anchor.bolt', to: '30 N·m', ...station }],
    });
  }
  if (has('drop-bracket')) {
    tasks.push({
      out: [
        { offer: 'drop-bracket' },
        { mark: 'drop-bracket.hole' },
        { withdraw: 'drop-bracket' },
        { drill: 'drop-bracket.hole', to: '5 mm' },
        { drill: 'drop-bracket.hole', to: '13 mm' },
      ],
      back: [
        { deburr: 'drop-bracket.hole' },
        { coat: 'drop-bracket' },
        { 'bolt-up': 'drop-bracket' },
        { torque: 'drop-bracket.bolt', to: '45 N·m' },
      ],
    });
  }
  if (names.lines.includes('park-cable')) {
    tasks.push({
      out: [{ hold: 'park-cable', with: 'locking-pliers' }, { disconnect: 'park-cable.axle' }],
      back: [
        { route: 'park-cable', path: random.one(['over', 'under']) },
        { connect: 'park-cable' },
        { release: 'park-cable' },
      ],
    });
  }
  if (names.lines.includes('long-hose'))
    tasks.push({ out: [], back: [{ route: 'long-hose' }, { connect: 'long-hose' }] });
  if (has('front-hub')) tasks.push({ out: [], back: [{ check: 'front-hub.nut' }] });
  tasks.push({
    out: [{ switch: 'parking-brake', to: 'off' }],
    back: [{ switch: 'parking-brake', to: 'on' }],
  });
  tasks.push({ out: [{ record: 'threads' }], back: [{ set: 'threads', to: 'recorded' }] });
  tasks.push({ out: [{ measure: 'bush', expect: { below: '10 mm' }, else: 'worn' }], back: [] });
  if (names.parts.length > 0) tasks.push({ out: [{ drain: random.one(names.parts) }], back: [] });
  return tasks;
}

const AIDS = [
  'two-post-lift',
  'four-post-lift',
  'trolley-jack',
  'axle-stands',
  'pole-jack',
  'frame-stands',
  'wire',
  'bung',
  'spring-compressor',
  'hoist',
];

/** Any verb on anything. */
export function randomOperation(random: Random, names: Names): Raw {
  const verbs = VERBS.filter((verb) => !['use', 'apply', 'wait', 'move'].includes(verb));
  const verb = random.one(verbs);
  const builtIn = ['vehicle', 'front', 'rear', 'battery', 'ignition', 'parking-brake'];
  const places = ['raise', 'lower', 'support', 'unsupport', 'chock', 'unchock'];
  let from = random.one([names.parts, names.joints, names.parts]);
  if (['loosen', 'start', 'snug', 'torque', 'renew'].includes(verb))
    from = random.chance(0.8) ? names.joints : names.parts;
  if (['disconnect', 'connect', 'unclip', 'clip', 'route', 'bleed'].includes(verb)) from = names.lines;
  if (['isolate', 'restore', 'switch'].includes(verb)) from = builtIn.slice(3);
  if (places.includes(verb))
    from = [
      ...builtIn.slice(0, 3),
      'front-axle',
      'front-wheel',
      ...names.parts.filter((name) => name.includes('arm') || name === 'gearbox'),
    ];
  if (
    [
      'unbolt',
      'bolt-up',
      'swing',
      'fit',
      'discard',
      'transfer',
      'offer',
      'withdraw',
      'compress',
      'relax',
      'inflate',
      'deflate',
    ].includes(verb)
  )
    from = names.parts;
  if (['mark', 'drill'].includes(verb))
    from = names.parts.includes('drop-bracket') ? ['drop-bracket.hole'] : names.parts;
  if (['free', 'seat'].includes(verb)) from = names.parts.includes('tie-rod') ? ['tie-rod.taper'] : [];
  if (['hold', 'release'].includes(verb)) from = [...names.parts, ...names.lines];
  if (from.length === 0) return { check: 'anything' };
  const operation: Raw = { [verb]: random.chance(0.85) ? random.one(from) : random.some(from, 1, 3) };
  if (['raise', 'support', 'hold', 'compress'].includes(verb) && random.chance(0.8))
    operation.with = random.one(AIDS);
  if (verb === 'lower' && random.chance(0.3)) operation.onto = random.one(AIDS);
  if ((verb === 'lower' || verb === 'raise') && random.chance(0.5))
    operation.by = random.one(['30 mm', '80 mm', '150 mm']);
  if (verb === 'switch') operation.to = random.one(['on', 'off', 'service']);
  if (verb === 'route') operation.path = random.one(['over', 'under']);
  if (verb === 'drill') operation.to = random.one(['6 mm', '13 mm']);
  if (verb === 'set') operation.to = 'recorded';
  if (verb === 'torque' && random.chance(0.8))
    operation.to = random.one(['90 N·m', '120 N·m', '40 N·m', 'maker']);
  if (['torque', 'snug', 'start'].includes(verb) && random.chance(0.3))
    operation.new = random.some(['nut', 'bolt', 'pin', 'bush'], 1, 2);
  if (['fit', 'bolt-up'].includes(verb) && random.chance(0.15))
    operation.article = random.one(['left', 'right']);
  return operation;
}
