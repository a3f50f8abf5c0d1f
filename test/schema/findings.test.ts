import { describe, test } from 'vitest';
import { openDocument } from '../../server/src/schema/document';
import { expectFindings, type FixtureFile } from '../support/fixture';

const check = (files: readonly FixtureFile[]) =>
  files.flatMap((file) => openDocument(file.name, file.text, { placeKeys: new Set(['station']) }).findings);
const faults = (name: string, fixture: string) => test(name, () => expectFindings(fixture, check));

/** A guide of one step with these operations. */
const guide = (operations: string) =>
  `kitproof: install/1\ntitle: T\nsections:\n  - title: S\n    steps:\n      - text: Do it.\n        do:\n${operations}`;

describe('what a document is', () => {
  faults('no key of ours', 'title: Anything\nsections: 4\n');
  faults(
    'a later version',
    'kitproof: vehicle/2\n#         ^^^^^^^^^ error[bad-version]: it reads vehicle/1\nname: 4\n',
  );
  faults('no version', 'kitproof: kit\n#         ^^^ error[bad-version]: kit/1\n');
  faults(
    'an unknown kind',
    'kitproof: vehcile/1\n#         ^^^^^^^^^ error[unknown-kind]: "vehicle/1" was probably meant\n',
  );
  faults('nothing said', 'kitproof:\n#^^^^^^^ error[unknown-kind]: is not said\n');
});

describe('keys', () => {
  faults(
    'a key nobody knows, and one that was probably meant',
    `
    kitproof: vehicle/1
    name: Moorhen
    colour: green
    #^^^^^ error[unknown-key]: "colour" is not a key that may stand here
    parts:
      front-shock: { kind: shock, limitedBy: [front-axle] }
      #                           ^^^^^^^^^ error[unknown-key]: "limited-by" was probably meant
    `,
  );
  faults(
    'a missing key stands at the first key; a misspelt one is not missing too',
    `
    kitproof: install/1
    #^^^^^^^ error[missing-key]: "title" is missing here: a text, such as Upland 50 suspension kit
    sections:
      - titel: Front
      # ^^^^^ error[unknown-key]: "title" was probably meant
        steps: []
    `,
  );
  faults(
    'an operation without do',
    `
    kitproof: install/1
    title: T
    sections:
      - title: S
        steps:
          - text: Take it off.
            unbolt: front-wheel
            #^^^^^ error[unknown-key]: it belongs into the list under "do"
    `.replace('            #^^^^^', '        #   ^^^^^^'),
  );
  faults(
    'places that the model knows may stand on steps and operations, others not',
    guide(`          - unbolt: body-mount
            station: front
          - unbolt: body-mount
            station: { a: b }
            #        ^^^^^^^^ error[wrong-type]: "station" wants a word or a list
          - unbolt: body-mount
            row: front
        #   ^^^ error[unknown-key]: "row" does not go with "unbolt"
`),
  );
});

describe('operations', () => {
  faults(
    'the verb is decided first',
    guide(`          - unbotl: front-wheel
          # ^^^^^^ error[unknown-verb]: "unbolt" was probably meant
            colour: green
          - with: trolley-jack
          # ^^^^ error[no-verb]: has no verb
          - remove: front-shock
            fit: front-coil
        #   ^^^ error[several-verbs]: "remove" and "fit" stand in one operation
          - {}
          # ^^ error[no-verb]
          - front-wheel
          # ^^^^^^^^^^^ error[wrong-type]: wants a map of keys
`),
  );
  faults(
    'only the mistakes of its verb',
    guide(`          - torque: front-shock.lower-bolt
            to: 90
            #   ^^ error[bad-quantity]: unit
            pattern: stars
            #        ^^^^^ error[unknown-value]: "star" was probably meant
          - lower: front-axle
            bye: 120 mm
        #   ^^^ error[unknown-key]: "bye" does not go with "lower"; "by" was probably meant
          - torque:
          # ^^^^^^ error[wrong-type]: "torque" has no value yet; it wants a word or a list, such as front-shock.lower-bolt
          - unbolt: front-wheel
            time: 4 min
        #   ^^^^ error[unknown-key]: it is said of the whole step
`),
  );
  faults(
    'figures by variant, and the words that may stand for them',
    guide(`          - torque: front-shock.lower-bolt
            to: [{ when: { lockers: fitted }, is: 140 mm }, { is: maker }]
            #                                     ^^^^^^ error[bad-quantity]: torque
          - torque: front-shock.lower-bolt
            to: [{ when: { lockers: fitted } }]
            #      ^^^^ error[missing-key]: "is" is missing here
          - torque: front-shock.lower-bolt
            to: maker
`),
  );
  faults(
    'operations of given and of examples',
    `
    # file: a.install.yaml
    kitproof: install/1
    title: T
    given:
      - remov: front-wheel
      # ^^^^^ error[unknown-verb]: "remove" was probably meant
    sections: []
    # file: b.rules.yaml
    kitproof: rules/1
    pack: house
    rules:
      - id: x
        harm: injury
        says: A.
        reason: B.
        bad:
          do:
            - { text: A step., do: [{ remov: a }] }
            #                         ^^^^^ error[unknown-verb]: "remove" was probably meant
            - { remove: a, side: up }
            #                    ^^ error[unknown-value]: allowed is left, right, both or each
    `,
  );
});

describe('values', () => {
  faults(
    'the wrong type, in words',
    `
    kitproof: vehicle/1
    name: [Moorhen]
    #     ^^^^^^^^^ error[wrong-type]: "name" wants a text, such as Moorhen; here stands a list
    parts:
      front-shock:
        sided: yes
        #      ^^^ error[wrong-type]: "sided" wants true or false, such as true; here stands the text "yes"
        joins: frame
        #      ^^^^^ error[wrong-type]: "joins" wants a list, such as [frame, front-axle]; here stands the text "frame"
        joints:
          lower-bolt: { bolts: some, hex: [18 mm] }
          #                    ^^^^ error[wrong-type]: "bolts" wants a whole number, such as 4
          #                               ^^^^^^^ error[wrong-type]: a length with its unit, such as 18 mm
    lines: []
    #      ^^ error[wrong-type]: "lines" wants a map from names; here stands a list
    `,
  );
  faults(
    'numbers are taken as texts where a text is wanted',
    `
    kitproof: kit/1
    name: 50
    options: { lift: [40, 50], long: [true, false] }
    parts: { bolt: { joints: { b: { class: 10.9 } } } }
    `,
  );
  faults(
    'quantities, dates, least numbers and words beside a map',
    `
    # file: a.kit.yaml
    kitproof: kit/1
    name: Upland
    parts:
      coil: { mass: 8 mm, quantity: -1, free-at: "115", pressure: 3 bra }
      #             ^^^^ error[bad-quantity]: mass
      #                             ^^ error[bad-number]: "quantity" cannot be less than 0
      #                                          ^^^^^ error[bad-quantity]
      #                                                           ^^^^^ error[bad-quantity]
      wheel: { tyre: 225/65R17 102H, note: 31x10.5-15 }
      wide: { tyre: 225-65-17 }
      #             ^^^^^^^^^ error[bad-tyre]: "225-65-17" is no tyre
      big: { tire: 225/65R17 }
      #      ^^^^ error[unknown-key]: "tyre" was probably meant
    # file: b.install.yaml
    kitproof: install/1
    title: T
    date: 2031-02-30
    #     ^^^^^^^^^^ error[bad-date]: "2031-02-30" is not a day
    waive: { rule: left-loose, because: So., by: A. Fitter, until: tomorrow }
    #                                                              ^^^^^^^^ error[bad-date]: such as 2031-04-30
    sections: []
    # file: kitproof.yaml
    kitproof: config/1
    units: { torque: N·m }
    #^^^^ error[unknown-key]
    rules:
      spring-loaded: of
      #              ^^ error[unknown-value]: "off" was probably meant
      left-loose: { severity: bad }
      #                       ^^^ error[unknown-value]: allowed is error, warning or info
    # file: a.times.yaml
    kitproof: times/1
    times:
      - { verb: unbotl, time: 3 min }
      #         ^^^^^^ error[unknown-value]: "unbolt" was probably meant
      - { verb: unbolt, time: { low: 3 min, high: 5 min } }
      #                         ^^^ error[missing-key]: "likely" is missing here
    `,
  );
  faults(
    "a step's time",
    `
    kitproof: install/1
    title: T
    sections:
      - title: S
        steps:
          - { text: A, time: 12 min }
          - { text: A, time: { each-side: 5 min } }
          - { text: A, time: { each-side: { low: 1 min, likely: 2 min, high: 3 min } } }
          - { text: A, time: 12 }
          #                  ^^ error[bad-quantity]
          - { text: A, time: { each-side: { low: 1 min } } }
          #                                 ^^^ error[missing-key]: "likely" is missing here
    `,
  );
});

describe('conditions', () => {
  faults(
    'their form',
    `
    kitproof: vehicle/1
    name: Moorhen
    traits: { lockers: [none, fitted], lift: { from: 0 mm } }
    #                                          ^^^^ error[missing-key]: "to" is missing here
    parts:
      a: { when: { lockers: fitted, lift: { at-least: 75 mm, below: 100 mm } } }
      b: { when: [{ lockers: [none, fitted] }, { not: { seats: 4 } }] }
      c: { when: { lift: { atleast: 75 mm } } }
      #                    ^^^^^^^ error[bad-condition]: "at-least" was probably meant
      d: { when: { lift: { at-least: 75 } } }
      #                              ^^ error[bad-quantity]
      e: { when: fitted }
      #          ^^^^^^ error[wrong-type]: "when" wants a map of keys or a list
      f: { when: { lockers: } }
      #            ^^^^^^^ error[wrong-type]: "lockers" has no value yet
      g: { when: { lift: {} } }
      #                  ^^ error[bad-condition]: A bound is missing here
      h: { when: { lockers: [[none]] } }
      #                      ^^^^^^ error[bad-condition]: A condition holds names
      i: { when: { not: fitted } }
      #                 ^^^^^^ error[wrong-type]: "not" wants a map of keys or a list
    `,
  );
});

describe('keys as the trade calls them', () => {
  const vehicle = (key: string, meant: string) =>
    `kitproof: vehicle/1\nname: M\nparts:\n  front-shock:\n    kind: shock\n    ${key}: x\n#   ${'^'.repeat(key.length)} error[unknown-key]: ${meant}\n`;
  const operation = (key: string, meant: string) =>
    guide(
      `          - torque: front-wheel\n            ${key}: x\n#           ${'^'.repeat(key.length)} error[unknown-key]: ${meant}\n`,
    );
  const step = (key: string, meant: string) =>
    `kitproof: install/1\ntitle: T\nsections:\n  - title: S\n    steps:\n      - text: A.\n        ${key}: x\n#       ${'^'.repeat(key.length)} error[unknown-key]: ${meant}\n`;
  const probably = (key: string) => `"${key}" was probably meant`;
  for (const [key, meant] of Object.entries({
    weight: 'mass',
    wieght: 'mass',
    bolts: 'joints',
    nuts: 'joints',
    sides: 'sided',
    mas: 'mass',
  }))
    faults(`part: ${key}`, vehicle(key, probably(meant)));
  for (const [key, meant] of Object.entries({
    tool: 'with',
    sides: 'side',
    tighten: 'to',
    wiht: 'with',
    angle: 'then',
    ot: 'to',
  }))
    faults(`operation: ${key}`, operation(key, probably(meant)));
  for (const [key, meant] of Object.entries({
    duration: 'time',
    warning: 'caution',
    tme: 'time',
    txt: 'text',
    persons: 'people',
  })) {
    if (meant !== 'text') faults(`step: ${key}`, step(key, probably(meant)));
  }
  faults(
    'a joint',
    `
    kitproof: vehicle/1
    name: M
    parts:
      a: { kind: shock, joints: { nut: { tighten: 3 N·m } } }
      #                                  ^^^^^^^ error[unknown-key]: "torque" was probably meant
      b: { kind: shock, joints: { nut: { torqe: 3 N·m } } }
      #                                  ^^^^^ error[unknown-key]: "torque" was probably meant
    `,
  );
  faults(
    'a kind',
    `
    kitproof: vehicle/1
    name: M
    parts:
      a: { type: shock }
      #    ^^^^ error[unknown-key]: "kind" was probably meant
      b: { knid: shock }
      #    ^^^^ error[unknown-key]: "kind" was probably meant
    `,
  );
  faults(
    'a kit part',
    `
    kitproof: kit/1
    name: M
    parts:
      a: { kind: shock, qty: 2 }
      #                 ^^^ error[unknown-key]: "quantity" was probably meant
    `,
  );
});

describe('three-point times', () => {
  const timed = (time: string) =>
    `kitproof: install/1\ntitle: T\nsections:\n  - title: S\n    steps:\n      - do: [{ check: a }]\n        time: ${time}\n`;
  faults('that go up', timed('{ low: 4 min, likely: 4 min, high: 0.2 h }'));
  faults(
    'with low above likely',
    `${timed('{ low: 9 min, likely: 6 min, high: 12 min }')}#                                   ^^^^^ error[bad-quantity]: "likely" is 6 min, and "low" is 9 min: low, likely and high go up.\n`,
  );
  faults(
    'with likely above high, for each side',
    `${timed('{ each-side: { low: 1 min, likely: 1 h, high: 12 min } }')}#                                                           ^^^^^^ error[bad-quantity]: "high" is 12 min, and "likely" is 1 h\n`,
  );
});
