/** The first words of a new document: enough to be right, and where to go on. */

export type NewKind = 'install' | 'vehicle' | 'kit' | 'rules';

export interface Skeleton {
  readonly fileName: string;
  readonly text: string;
  /** Where the writer goes on. */
  readonly cursor: number;
}

/** @param beside what stands in the folder alone of its sort; a guide names it. */
export function skeletonOf(
  kind: NewKind,
  title: string,
  beside: { readonly vehicle: string | null; readonly kit: string | null } = { vehicle: null, kit: null },
): Skeleton {
  const said = JSON.stringify(title);
  const text = {
    install: [
      'kitproof: install/1',
      `title: ${said}`,
      ...(beside.vehicle === null ? [] : [`vehicle: ${beside.vehicle}`]),
      ...(beside.kit === null ? [] : [`kit: ${beside.kit}`]),
      "note: The vehicle maker's data, local rules and a qualified person come before this guide.",
      'sections:',
      '  - title: Before the lift',
      '    steps:',
      '      - id: box',
      '        text: Lay out the kit and count it against its list.',
      '        do: [{ check: kit-contents }]',
      '        time: 5 min',
      '      ',
    ],
    vehicle: [
      'kitproof: vehicle/1',
      `name: ${said}`,
      'parts:',
      '  front-axle: { kind: live-axle, limited-by: [front-shock] }',
      '  front-wheel: { kind: wheel, sided: true, joins: [front-axle] }',
      '  front-shock: { kind: shock, sided: true, joins: [frame, front-axle] }',
      '  ',
    ],
    kit: [
      'kitproof: kit/1',
      `name: ${said}`,
      'parts:',
      '  front-shock-long: { kind: shock, replaces: front-shock, quantity: 2 }',
      '  ',
    ],
    rules: [
      'kitproof: rules/1',
      `pack: ${said}`,
      'rules:',
      '  - id: glasses-before-grinding',
      '    harm: injury',
      '    watch: { verb: cut }',
      '    first: { verb: check, of: { words: eye-protection } }',
      '    says: "{item} is cut before anybody is told to wear eye protection."',
      '    reason: Sparks fly.',
      '    source: common practice',
      '    good: { do: [{ check: eye-protection }, { cut: body }, { deburr: body }, { coat: body }] }',
      '    bad: { do: [{ cut: body }, { deburr: body }, { coat: body }] }',
      '  ',
    ],
  }[kind].join('\n');
  const stem = title
    .toLowerCase()
    .replaceAll(/[^\p{L}\p{N}]+/gu, '-')
    .replaceAll(/^-+|-+$/g, '');
  const last = text.lastIndexOf('\n');
  return {
    fileName: `${stem === '' ? 'new' : stem}.${kind}.yaml`,
    text: `${text.trimEnd()}\n${text.slice(last + 1)}`,
    cursor: text.length,
  };
}
