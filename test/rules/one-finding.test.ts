/** One fault is one finding, where several rules and debts could speak of it; and what undoes what was never done is one. */

import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { exampleFiles } from '../oracle/example';
import { map } from '../oracle/raw';
import { checkFiles } from '../support/engine';

const VEHICLE = `
vehicle:
  parts:
    front-axle: { kind: live-axle, mass: 120 kg }
    rear-axle: { kind: live-axle, mass: 120 kg, limited-by: [rear-shock] }
    rear-shock: { kind: shock, sided: false, mass: 3 kg, joins: [frame, rear-axle], joints: { lower-bolt: { bushed: false, torque: 80 N·m } } }
    rear-hanger: { kind: exhaust-hanger, mass: 0.2 kg, joins: [body], joints: { bolt: { torque: 15 N·m } } }
    rear-beam: { kind: bumper-beam, mass: 6 kg, joins: [body], joints: { bolt: { torque: 30 N·m } } }
    alternator: { kind: alternator, mass: 7 kg, joins: [frame], joints: { bolt: { torque: 45 N·m } } }
    prop-shaft: { kind: prop-shaft, mass: 12 kg, joins: [frame, rear-axle], joints: { front-flange: { torque: 60 N·m }, rear-flange: { torque: 60 N·m } } }
    fuel-tank: { kind: fuel-tank, mass: 12 kg, joins: [frame], joints: { bolt: { torque: 30 N·m } }, ends: { outlet: { seat: press } } }
    tray: { kind: undertray, mass: 5 kg, joins: [frame], joints: { bolt: { torque: 20 N·m } } }
  lines:
    fuel-feed: { kind: fuel-line, spans: [frame] }
    rear-hose: { kind: brake-hose, ends: [pipe, caliper], spans: [frame] }
`;

async function rules(guide: string): Promise<string[]> {
  const { files } = exampleFiles(map(parse(VEHICLE + guide)));
  return (await checkFiles(files)).findings.map(({ rule }) => rule);
}

const UP = '{ raise: vehicle, with: two-post-lift }';
const SHAFT =
  '{ mark: prop-shaft }, { loosen: prop-shaft.front-flange }, { remove: prop-shaft.rear-flange }, { swing: prop-shaft }';
const SHAFT_ON = '{ fit: prop-shaft }, { torque: [prop-shaft.front-flange, prop-shaft.rear-flange] }';
const STANDS = '{ chock: rear }, { raise: front, with: trolley-jack }, { support: front, with: axle-stands }';
const TRAY = '{ unbolt: tray }, { bolt-up: tray }, { torque: tray.bolt }';

const CASES: readonly [name: string, guide: string, expected: readonly string[]][] = [
  ['a hanger that is left off', 'do: [{ unbolt: rear-hanger }]', ['left-off']],
  [
    'a hanger that is scrapped',
    'do: [{ unbolt: rear-hanger }, { discard: rear-hanger }]',
    ['exhaust-hung-again'],
  ],
  ['a crash beam that is left off', 'do: [{ unbolt: rear-beam }]', ['left-off']],
  [
    'a crash beam that is left to the next guide',
    'do: [{ unbolt: rear-beam }]\nleaves: { rear-beam: "off" }',
    [],
  ],
  [
    'a fuel line that stays open under pressure',
    'do: [{ isolate: fuel-pressure }, { disconnect: fuel-feed }, { restore: fuel-pressure }]',
    ['fuel-closed-before-pressure'],
  ],
  [
    'a fuel line that stays open',
    'do: [{ isolate: fuel-pressure }, { disconnect: fuel-feed }]\nleaves: { fuel-pressure: safe }',
    ['left-disconnected'],
  ],
  ['a record that nobody made', 'do: [{ set: exposed-threads, to: recorded }]', ['recorded-first']],
  [
    'a battery that was never taken off',
    'do: [{ unbolt: alternator }, { bolt-up: alternator }, { torque: alternator.bolt }, { restore: battery }]',
    ['battery-off-before-starter-or-alternator'],
  ],
  ['a battery that comes back and was never off', 'do: [{ restore: battery }]', ['undo-undone']],
  ['a battery that is given off', 'given: { battery: safe }\ndo: [{ restore: battery }]', []],
  [
    'a shaft that nobody ties up',
    `do: [${UP}, ${SHAFT}, { release: prop-shaft }, ${SHAFT_ON}, { lower: vehicle }]`,
    ['swung-shaft-held'],
  ],
  [
    'a shaft that is tied up',
    `do: [${UP}, ${SHAFT}, { hold: prop-shaft, with: strap }, { release: prop-shaft }, ${SHAFT_ON}, { lower: vehicle }]`,
    [],
  ],
  [
    'stands that were forgotten, with work beneath',
    `do: [{ chock: rear }, { raise: front, with: trolley-jack }, ${TRAY}, { unsupport: front, with: axle-stands }, { lower: front }]`,
    ['stands-before-work-beneath'],
  ],
  [
    'stands that were forgotten, while only the jack is beneath and nobody else',
    'do: [{ chock: rear }, { raise: front, with: trolley-jack }, { unsupport: front, with: axle-stands }, { lower: front }]',
    [],
  ],
  [
    'a jack that went with the lowering',
    `do: [{ chock: rear }, { raise: front, with: trolley-jack }, { lower: front, onto: axle-stands }, { unsupport: front, with: trolley-jack }, ${TRAY}, { raise: front, with: trolley-jack }, { unsupport: front, with: axle-stands }, { lower: front }]`,
    [],
  ],
  [
    'stands that were put there',
    `do: [${STANDS}, ${TRAY}, { unsupport: front, with: axle-stands }, { lower: front }]`,
    [],
  ],
  ['wheels that were never chocked', 'do: [{ unchock: rear }]', ['undo-undone']],
  ['wheels that are given chocked', 'given: [{ chock: rear }]\ndo: [{ unchock: rear }]', []],
  ['a hose that is let go and was never held', 'do: [{ release: rear-hose }]', ['undo-undone']],
  ['a hose whose end was held', 'do: [{ hold: rear-hose.pipe, with: wire }, { release: rear-hose }]', []],
  [
    'an axle that nobody held',
    `do: [${UP}, { remove: rear-shock.lower-bolt }, { torque: rear-shock.lower-bolt }, { unsupport: rear-axle }, { lower: vehicle }]`,
    ['support-axle-before-shock-removal'],
  ],
  [
    'a bung in the end of a part that was off',
    'do: [{ free: fuel-tank.outlet }, { hold: fuel-tank.outlet, with: bung }, { unbolt: fuel-tank }, { bolt-up: fuel-tank }, { seat: fuel-tank.outlet }, { torque: fuel-tank.bolt }]',
    ['left-held'],
  ],
  ['a vehicle that is given up and left up', `given: { vehicle: raised }\ndo: [${TRAY}]`, ['left-raised']],
  ['a vehicle that is lifted before and left up', `given: [${UP}]\ndo: [${TRAY}]`, ['left-raised']],
  [
    'a vehicle that is given up and handed on up',
    `given: { vehicle: raised }\nleaves: { vehicle: raised }\ndo: [${TRAY}]`,
    [],
  ],
  [
    'a vehicle that is given up and comes down',
    `given: { vehicle: raised }\ndo: [${TRAY}, { lower: vehicle }]`,
    [],
  ],
];

describe('one fault, one finding', () => {
  it.each(CASES)('%s', async (_, guide, expected) => expect(await rules(`${guide}\n`)).toEqual(expected));
});
