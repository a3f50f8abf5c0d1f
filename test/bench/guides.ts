/** Guides of any size for the bench: every step opens or closes one joint of one of many brackets, some under conditions. */

/** Numbers that look random and are the same every time. */
export function numbers(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

/**
 * A vehicle and a guide of `steps` steps on it, silent when checked.
 * @param traits two-valued traits; about one bracket in seven exists in one value of one or two of them only.
 */
export function largeGuide(steps: number, traits: number, seed = 1): Record<string, string> {
  const random = numbers(seed);
  const brackets = Math.ceil(steps / 4);
  const lines = ['kitproof: vehicle/1', 'name: Moorhen'];
  if (traits > 0) lines.push('traits:');
  for (let trait = 0; trait < traits; trait++) lines.push(`  option-${trait}: [without, with]`);
  lines.push('parts:');
  const when: string[] = [];
  for (let at = 0; at < brackets; at++) {
    const conditional = traits > 0 && random() < 0.15;
    const [one, two] = [Math.floor(random() * traits), Math.floor(random() * traits)];
    const other = random() < 0.3 && one !== two ? `, option-${two}: without` : '';
    const condition = conditional ? `{ option-${one}: with${other} }` : '';
    when.push(condition);
    lines.push(
      `  bracket-${at}: { kind: bracket, mass: 2 kg, joins: [frame], joints: { bolt: { thread: M8x1.25, torque: 22 N·m } }${condition === '' ? '' : `, when: ${condition}`} }`,
    );
  }
  const guide = ['kitproof: install/1', 'title: Large', 'vehicle: large.vehicle.yaml', 'sections:'];
  for (let at = 0; at < brackets; at++) {
    if (at % 25 === 0) guide.push(`  - title: Section ${at / 25 + 1}`, '    steps:');
    const step = (text: string, operation: string) =>
      guide.push(
        `      - text: ${text} bracket ${at}.`,
        ...(when[at] === '' ? [] : [`        when: ${when[at]}`]),
        '        do:',
        `          - ${operation}`,
        '        time: { low: 1 min, likely: 2 min, high: 4 min }',
      );
    step('Slacken', `loosen: bracket-${at}.bolt`);
    step('Take off', `unbolt: bracket-${at}`);
    step('Put back', `bolt-up: bracket-${at}`);
    step('Tighten', `torque: bracket-${at}.bolt`);
  }
  return { 'large.vehicle.yaml': `${lines.join('\n')}\n`, 'large.install.yaml': `${guide.join('\n')}\n` };
}

/**
 * A guide that moves one shock's bolt and brings the vehicle up and down again in every step: a rule that at each landing goes
 * through all that may be open makes its time grow with the square of the steps.
 */
export function upAndDown(steps: number): Record<string, string> {
  const guide = [
    'kitproof: install/1',
    'title: Up and down',
    'sections:',
    '  - title: Everything',
    '    steps:',
  ];
  for (let at = 0; at < steps; at++)
    guide.push(
      `      - do: [{ loosen: p${at}-shock.bolt }, { torque: p${at}-shock.bolt, to: 90 N·m }, { raise: vehicle, with: two-post-lift }, { lower: vehicle }]`,
    );
  return { 'large.install.yaml': `${guide.join('\n')}\n` };
}

/**
 * A guide as hostile to diagrams as can be: every step moves one of few bolts, each under a condition of its own on one or two
 * traits, so that every bolt's state soon depends on all of them. Without traits the same steps without conditions.
 */
export function hostileGuide(steps: number, traits: number, seed = 1): Record<string, string> {
  const random = numbers(seed);
  const pick = (below: number) => Math.floor(random() * below);
  const bolts = 8;
  const vehicle = ['kitproof: vehicle/1', 'name: Moorhen'];
  if (traits > 0) vehicle.push('traits:');
  for (let trait = 0; trait < traits; trait++) vehicle.push(`  option-${trait}: [without, with]`);
  vehicle.push('parts:');
  for (let at = 0; at < bolts; at++)
    vehicle.push(`  bracket-${at}: { kind: bracket, mass: 2 kg, joints: { bolt: { torque: 22 N·m } } }`);
  const guide = ['kitproof: install/1', 'title: Hostile', 'vehicle: large.vehicle.yaml', 'sections:'];
  guide.push('  - title: Everything', '    steps:');
  for (let step = 0; step < steps; step++) {
    const [verb, bolt, one, two] = [pick(4), pick(bolts), pick(20), pick(20)];
    const other = pick(3) === 0 && two !== one ? `, option-${two}: without` : '';
    const when = traits === 0 ? '' : `when: { option-${one}: with${other} }, `;
    guide.push(
      `      - { ${when}do: [{ ${['loosen', 'remove', 'snug', 'torque'][verb]}: bracket-${bolt}.bolt }] }`,
    );
  }
  return { 'large.vehicle.yaml': `${vehicle.join('\n')}\n`, 'large.install.yaml': `${guide.join('\n')}\n` };
}
