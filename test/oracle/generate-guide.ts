// The operations of a random guide: tasks that a workshop would do, undone again in turn, then spoilt a little.
import type { Random } from './random.ts';
import { map, type Raw } from './raw.ts';

/** A task: what is done going in, and what is done coming back. */
interface Task {
  out: Raw[];
  back: Raw[];
  landed?: Raw[]; // what waits until the wheels carry again
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
  const lift = lifting(random, names, ends);
  const tasks = ends.flatMap((end) => [...endTasks(random, names, end), ...springTasks(random, names, end)]);
  tasks.push(...otherTasks(random, names));
  const usesKit = (task: Task): boolean =>
    Object.keys(names.kitParts).some((name) => JSON.stringify(task).includes(name));
  const chosen = tasks.filter((task) => random.chance(usesKit(task) ? 0.95 : 0.5));
  const into: Raw[] = [];
  const back: Raw[] = [];
  if (random.chance(0.7)) into.push({ loosen: wheels.map((wheel) => `${wheel}.nut`) });
  const isolated = random.chance(0.3) ? random.one(['battery', 'airbags']) : undefined;
  if (isolated) into.push({ isolate: isolated });
  into.push(...lift.out);
  const wheelsOff = random.chance(0.8);
  if (wheelsOff) into.push(random.chance(0.9) ? { unbolt: wheels } : { remove: wheels });
  for (const task of chosen) {
    into.push(...task.out);
    back.unshift(...task.back);
  }
  if (wheelsOff) back.push({ 'bolt-up': wheels }, { snug: wheels });
  back.push(...lift.back);
  back.push({
    torque: wheels,
    ...figureNear(random, '130 N·m', ['96 lbf·ft', '128-132 N·m', '110 N·m', '131.2 N·m']),
  });
  for (const task of chosen) back.push(...(task.landed ?? []));
  if (isolated) back.push({ restore: isolated });
  if (random.chance(0.3)) back.push({ move: 'vehicle' });
  if (random.chance(0.4)) back.push({ check: 'alignment' });
  return [...into, ...back];
}

/** What carries a wheel of an end: its axle, or its lower arm. */
function carrierOf(names: Names, end: string): string {
  return names.parts.includes(`${end}-axle`) ? `${end}-axle` : `${end}-arm`;
}

function lifting(random: Random, names: Names, ends: string[]): Task {
  const end = random.one(ends);
  const low = names.parts.includes(`${end}-axle`) ? `${end}-axle` : `${end}-wheel`;
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
        { raise: low, with: 'trolley-jack' },
        { support: low, with: 'axle-stand' },
      ],
      back: [{ raise: low, with: 'trolley-jack' }, { unsupport: low, with: 'axle-stands' }, { lower: low }],
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

/** Mostly no figure, so that the data's holds, or the right one; now and then another. */
function figureNear(random: Random, right: string | undefined, others: string[]): Raw {
  if (random.chance(0.25)) return { to: random.one(others) };
  return right !== undefined && random.chance(0.5) ? { to: right } : {};
}

function endTasks(random: Random, names: Names, end: string): Task[] {
  const has = (name: string): boolean => names.parts.includes(name);
  const tasks: Task[] = [];
  const bar = `${end}-track-bar`;
  if (has(bar)) {
    const article = has('long-track-bar') && end === 'front';
    if (article)
      tasks.push({
        out: [{ unbolt: bar }, { discard: bar }],
        back: [{ 'bolt-up': 'long-track-bar', new: ['nut'] }, { snug: 'long-track-bar' }],
        landed: [{ torque: 'long-track-bar', to: '120 N·m', at: 'ride-height' }],
      });
    else {
      tasks.push({
        out: [{ loosen: `${bar}.frame-bolt` }, { remove: `${bar}.axle-bolt` }, { swing: bar }],
        back: [{ fit: bar }, { start: `${bar}.axle-bolt`, new: ['nut'] }, { snug: bar }],
        landed: [{ torque: bar, to: '120 N·m' }],
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
      back: [{ snug: `${arm}.inner-bolt` }, { unsupport: arm }],
      landed: [{ torque: `${arm}.inner-bolt`, to: '110 N·m' }],
    });
  }
  return tasks;
}

/** The heart of a suspension job: hold the axle, undo the shocks, let it down, change the spring. */
function shockTask(random: Random, names: Names, end: string): Task {
  const axle = carrierOf(names, end);
  const shock = `${end}-shock`;
  const spring = `${end}-spring`;
  const renewed = names.parts.includes(`new-${shock}`) ? `new-${shock}` : undefined;
  const aid = random.one(['pole-jacks', 'bottle-jack', 'tall-stand']);
  const out: Raw[] = [{ support: axle, with: aid }];
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
  const targets = random.chance(0.5) ? name : [`${name}.lower-bolt`, `${name}.top-nut`];
  back.push({ snug: targets, new: random.some(['nut', 'bolt'], random.chance(0.8) ? 2 : 0, 2) });
  const landed: Raw[] = [
    { torque: targets, ...figureNear(random, undefined, ['90 N·m', '100 N·m', 'maker']) },
  ];
  back.push({ unsupport: axle, with: aid });
  return { out, back, landed };
}

/** Leaves and torsion bars out and in again. */
function springTasks(random: Random, names: Names, end: string): Task[] {
  const has = (name: string): boolean => names.parts.includes(name);
  const tasks: Task[] = [];
  if (has(`${end}-leaf`))
    tasks.push({
      out: [
        ...(random.chance(0.6) ? [{ support: end, with: 'frame-stands' }] : []),
        { support: `${end}-axle`, with: random.one(['axle-stands', 'pole-jacks']) },
        { unbolt: `${end}-u-bolt` },
        { unbolt: `${end}-leaf` },
      ],
      back: [
        { 'bolt-up': `${end}-leaf`, new: random.some(['nut'], 0, 1) },
        { 'bolt-up': `${end}-u-bolt`, new: ['nut'] },
        { torque: `${end}-u-bolt`, pattern: random.one(['star', 'in-turn']) },
        { snug: `${end}-leaf` },
        { unsupport: `${end}-axle` },
        ...(random.chance(0.5) ? [{ unsupport: end, with: 'frame-stands' }] : []),
      ],
      landed: [{ torque: `${end}-leaf`, at: 'ride-height' }],
    });
  if (has(`${end}-bar`))
    tasks.push({
      out: [
        ...(random.chance(0.8) ? [{ relax: `${end}-bar`, with: `${end}-adjuster` }] : []),
        ...(has(`${end}-anchor`) && random.chance(0.6) ? [{ remove: `${end}-anchor` }] : []),
        { remove: `${end}-bar` },
      ],
      back: [
        { fit: `${end}-bar` },
        ...(has(`${end}-anchor`) ? [{ fit: `${end}-anchor` }] : []),
        { adjust: `${end}-adjuster` },
      ],
    });
  if (has(`${end}-bar`) && random.chance(0.5))
    tasks.push({
      out: [
        ...(random.chance(0.3) ? [{ compress: `${end}-bar`, with: 'torsion-bar-tool' }] : []),
        { unbolt: `${end}-adjuster` },
        ...(random.chance(0.4) ? [{ relax: `${end}-bar` }] : []),
        ...(has(`${end}-bar-crossmember`) && random.chance(0.5)
          ? [{ unbolt: `${end}-bar-crossmember` }]
          : []),
      ],
      back: [
        ...(has(`${end}-bar-crossmember`)
          ? [{ 'bolt-up': `${end}-bar-crossmember` }, { torque: `${end}-bar-crossmember.bolt` }]
          : []),
        { 'bolt-up': `${end}-adjuster` },
        { torque: `${end}-adjuster` },
        { adjust: `${end}-adjuster` },
      ],
    });
  if (has(`${end}-upper-arm`))
    tasks.push({
      out: [{ unbolt: `${end}-upper-arm` }],
      back: [{ 'bolt-up': `${end}-upper-arm` }, { snug: `${end}-upper-arm` }],
      landed: [{ torque: `${end}-upper-arm`, to: '90 N·m' }],
    });
  return tasks;
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
  if (has('gearbox'))
    tasks.push({
      out: [
        { support: 'gearbox', with: 'gearbox-jack' },
        { remove: 'gearbox.bolt' },
        { lower: 'gearbox', by: random.one(['40 mm', '60 mm', '90 mm']) },
        ...(random.chance(0.3) ? [{ lower: 'gearbox', by: '30 mm' }] : []),
        ...(random.chance(0.3) ? [{ unsupport: 'gearbox' }] : []),
      ],
      back: [
        { raise: 'gearbox', ...(random.chance(0.5) ? { by: '40 mm' } : {}), with: 'gearbox-jack' },
        ...(random.chance(0.3) ? [{ lower: 'gearbox', by: '50 mm' }] : []),
        { start: 'gearbox.bolt' },
        { torque: 'gearbox.bolt', to: '50 N·m' },
        { unsupport: 'gearbox' },
      ],
    });
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
  const drained = random.one(names.parts);
  tasks.push({ out: [{ drain: drained }], back: [{ fill: drained }] });
  return tasks;
}
