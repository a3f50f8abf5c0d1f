// biome-ignore-all lint/suspicious/noTemplateCurlyInString: the protocol writes places to fill like that.
/** Whole steps and sections to fill in. `$1` and `${1:…}` are the places to fill, as the protocol writes them. */
export interface Snippet {
  readonly label: string;
  readonly about: string;
  readonly body: string;
  /** By the number of a place what it takes; there what fits is listed. */
  readonly places?: Readonly<Record<number, Place>>;
}

/** Any target of a verb, the parts among them, or an aid for it. */
export type Place = { readonly targets: string } | { readonly parts: string } | { readonly aid: string };

/** The body with its places: where words are known that fit, these are to choose from. */
export function withChoices(
  { body, places = {} }: Snippet,
  words: (place: Place) => readonly string[],
): string {
  return body.replaceAll(/\$\{(\d+):([^}]*)\}/g, (written, number, usual) => {
    const place = places[Number(number)];
    if (place === undefined) return written;
    // A usual aid comes first; a part that stands for any is nothing to choose.
    const known = words(place).filter((word) => !/[|,$}\\]/.test(word));
    const fitting = 'aid' in place ? [...new Set([usual, ...known])] : known;
    return fitting.length === 0 ? written : `\${${number}|${fitting.join(',')}|}`;
  });
}

const step = (text: string, operations: readonly string[], time: string): string =>
  [
    `text: ${text}`,
    'do:',
    ...operations.map((one) => (one.startsWith(' ') ? `    ${one.trimStart()}` : `  - ${one}`)),
    `time: \${9:${time}}`,
  ].join('\n');

/** Sentences name the part by reference: what is chosen once is then right in both places. */
export const STEP_SNIPPETS: readonly Snippet[] = [
  {
    label: 'step: raise the vehicle',
    about: 'The vehicle goes up on a lift, its wheels hanging.',
    body: step('Raise the vehicle.', ['raise: vehicle', '  with: ${1:two-post-lift}'], '5 min'),
    places: { 1: { aid: 'raise' } },
  },
  {
    label: 'step: lower the vehicle',
    about: 'The vehicle goes back to the ground.',
    body: step('Lower the vehicle to the ground.', ['lower: vehicle'], '3 min'),
  },
  {
    label: 'step: take a part off',
    about: 'A part comes off with all its joints.',
    body: step('Take the {part:$1} off.', ['unbolt: ${1:part}'], '10 min'),
    places: { 1: { targets: 'unbolt' } },
  },
  {
    label: 'step: fit a part',
    about: 'A part goes on, and its joints get their final torque.',
    body: step('Fit the {part:$1} and tighten it.', ['bolt-up: ${1:part}', 'torque: $1'], '12 min'),
    places: { 1: { targets: 'bolt-up' } },
  },
  {
    label: 'step: fit a part, bolts nipped up',
    about: 'A part with bushes goes on; its bolts wait for ride height.',
    body: step('Fit the {part:$1} and nip its bolts up.', ['bolt-up: ${1:part}', 'snug: $1'], '8 min'),
    places: { 1: { targets: 'bolt-up' } },
  },
  {
    label: 'step: tighten at ride height',
    about: 'Joints with bushes get their final torque with the weight on the wheels.',
    body: step(
      'Tighten the {part:$1} with the vehicle on its wheels.',
      ['torque: ${1:part}', '  at: ride-height'],
      '6 min',
    ),
    places: { 1: { parts: 'torque' } },
  },
  {
    label: 'step: tighten to torque',
    about: 'A joint gets its final torque; the figure is the file’s unless `to` says it.',
    body: step('Tighten it to {torque:$1}.', ['torque: ${1:part.joint}'], '4 min'),
    places: { 1: { targets: 'torque' } },
  },
  {
    label: 'step: carry a part while another comes off',
    about: 'What would drop rests on an aid before what holds it is undone.',
    body: step(
      'Carry the {part:$1}, then take the {part:$3} off.',
      ['support: ${1:part}', '  with: ${2:pole-jacks}', 'unbolt: ${3:part}'],
      '10 min',
    ),
    places: { 1: { targets: 'support' }, 2: { aid: 'support' }, 3: { targets: 'unbolt' } },
  },
  {
    label: 'step: take over from the old part',
    about: 'The old part comes off and is scrapped, the new one goes on.',
    body: step(
      'Exchange the {part:$1} for the {part:$2}.',
      ['unbolt: ${1:old-part}', 'discard: $1', 'bolt-up: ${2:new-part}', 'torque: $2'],
      '25 min',
    ),
    places: { 1: { targets: 'unbolt' }, 2: { targets: 'bolt-up' } },
  },
];

export const SECTION_SNIPPETS: readonly Snippet[] = [
  {
    label: 'section',
    about: 'A section with its first step.',
    body: [
      'title: ${1:Section}',
      'steps:',
      '  - text: ${2:What the fitter reads.}',
      '    do:',
      '      - $0',
    ].join('\n'),
  },
];

const rule = (asks: readonly string[], says: string): string =>
  [
    'id: ${1:what-is-asked}',
    'harm: ${2|injury,damage,rework,paperwork|}',
    ...asks,
    `says: "${says}"`,
    'reason: ${7:Why, in one sentence.}',
    'source: ${8:common practice}',
    'good: { do: [${9}] }',
    'bad: { do: [${0}] }',
  ].join('\n');

export const RULE_SNIPPETS: readonly Snippet[] = [
  {
    label: 'rule: something first',
    about: 'An operation is found unless another came earlier.',
    body: rule(
      ['watch: { verb: [${3:drill}] }', 'first: { verb: [${4:check}], of: { words: [${5:gloves}] } }'],
      '{item} is done before ${6:the gloves were looked at}.',
    ),
  },
  {
    label: 'rule: something later',
    about: 'An operation is found unless another follows.',
    body: rule(
      ['watch: { verb: [${3:torque}], kind: [${4:tie-rod-end}] }', 'later: { verb: [${5:mark}], of: same }'],
      '{item} is never ${6:marked}.',
    ),
  },
  {
    label: 'rule: a state that is needed',
    about: 'An operation is found unless something is so at that moment.',
    body: rule(
      ['watch: { verb: [${3:torque}], kind: [${4:wheel}] }', 'needs: { state: [${5:on-ground}] }'],
      '{item} is done ${6:in the air}.',
    ),
  },
  {
    label: 'rule: never',
    about: 'An operation is found wherever it stands.',
    body: rule(
      ['watch: { verb: [${3:weld}], kind: [${4:spring}] }', 'never: true'],
      '{item} is ${6:welded}.',
    ),
  },
];
