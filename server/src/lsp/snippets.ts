// biome-ignore-all lint/suspicious/noTemplateCurlyInString: the protocol writes places to fill like that.
/** Whole steps and sections to fill in. `$1` and `${1:…}` are the places to fill, as the protocol writes them. */
export interface Snippet {
  readonly label: string;
  readonly about: string;
  readonly body: string;
}

const step = (text: string, operations: readonly string[], time: string): string =>
  [
    `text: \${1:${text}}`,
    'do:',
    ...operations.map((one) => (one.startsWith(' ') ? `    ${one.trimStart()}` : `  - ${one}`)),
    `time: \${9:${time}}`,
  ].join('\n');

export const STEP_SNIPPETS: readonly Snippet[] = [
  {
    label: 'step: raise the vehicle',
    about: 'The vehicle goes up on a lift, its wheels hanging.',
    body: step('Raise the vehicle.', ['raise: vehicle', '  with: ${2:two-post-lift}'], '5 min'),
  },
  {
    label: 'step: lower the vehicle',
    about: 'The vehicle goes back to the ground.',
    body: step('Lower the vehicle to the ground.', ['lower: vehicle'], '3 min'),
  },
  {
    label: 'step: take a part off',
    about: 'A part comes off with all its joints.',
    body: step('Take the ${2:part} off.', ['unbolt: $2'], '10 min'),
  },
  {
    label: 'step: fit a part',
    about: 'A part goes on, and its joints get their final torque.',
    body: step('Fit the ${2:part} and tighten it.', ['bolt-up: $2', 'torque: $2'], '12 min'),
  },
  {
    label: 'step: tighten to torque',
    about: 'A joint gets its final torque; the figure is the file’s unless `to` says it.',
    body: step('Tighten the ${2:part.joint}.', ['torque: $2'], '4 min'),
  },
  {
    label: 'step: carry a part while it is undone',
    about: 'A heavy part rests on an aid before what holds it is undone.',
    body: step(
      'Carry the ${2:part}, then undo it.',
      ['support: $2', '  with: ${3:pole-jacks}', 'unbolt: ${4:part}'],
      '10 min',
    ),
  },
  {
    label: 'step: take over from the old part',
    about: 'The old part comes off and is scrapped, the new one goes on.',
    body: step(
      'Exchange the ${2:old-part} for the ${3:new-part}.',
      ['unbolt: $2', 'discard: $2', 'bolt-up: $3', 'torque: $3'],
      '25 min',
    ),
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
