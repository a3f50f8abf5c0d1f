import type { Undecided } from '../model/model';

/** What to write so that a rule can decide: `say the mass of rear-shock (mass: 3 kg)`. */
export function undecidedInWords({ item, property }: Undecided): string {
  const known = SAID[property];
  if (known !== undefined) return known(item);
  if (property.startsWith('paths.')) {
    const path = property.slice('paths.'.length);
    return `say the slack that ${item} has on the path ${path} (paths: { ${path}: 50 mm })`;
  }
  return `say ${property} of ${item}`;
}

/** By the property that is missing; figures are examples of how it is written. */
const SAID: { readonly [property: string]: ((item: string) => string) | undefined } = Object.assign(
  Object.create(null),
  {
    declaration: (item) => `declare ${item} in the vehicle file`,
    mass: (item) => `say the mass of ${item} (mass: 3 kg)`,
    replaces: (item) => `say in a kit file which part takes the place of ${item} (replaces: ${item})`,
    with: (item) => `say what carries the vehicle while ${item} is worked on (with: two-post-lift)`,
    'limited-by': (item) =>
      `say of the axle or arm that ${item} limits how far it drops (limited-by: [${item}])`,
    class: (item) => `say the class of the bolt of ${item} (class: "10.9")`,
    'nut-class': (item) => `say the class of the nut of ${item} (nut-class: "10")`,
    slack: (item) => `say the slack of ${item} (slack: 60 mm)`,
    'slack-free': (item) => `say the slack of ${item} once its bracket is off (slack-free: 220 mm)`,
  } satisfies Record<string, (item: string) => string>,
);
