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
 * @param traits two-valued traits; about one bracket in seven exists in one value of one of them only.
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
    const condition = conditional ? `{ option-${Math.floor(random() * traits)}: with }` : '';
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
