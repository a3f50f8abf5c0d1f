// A random operation: any verb, mostly on something it can act on.
import type { Names } from './generate-guide.ts';
import { VERBS } from './operation.ts';
import type { Random } from './random.ts';
import type { Raw } from './raw.ts';

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
      ...(names.parts.includes('front-axle') ? ['front-axle'] : []),
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
