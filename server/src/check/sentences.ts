/** Raw findings put into words: one plain sentence, its place, its variants, the steps that led there. */

import {
  type Cube,
  type Finding,
  type Harm,
  type Place,
  type Related,
  severityOf,
} from '../findings/finding';
import type { Model } from '../model/model';
import { inSection } from '../model/report';
import type { Rule } from '../rules/rule';
import { UNNAMED } from '../simulate/aids';
import { type Event, nameOf } from '../simulate/event';
import type { RawFinding, Simulation } from '../simulate/simulation';
import type { Diagram } from '../variants/diagram';

/** Raw findings of one identity: rule, operation, item and place. */
interface Gathered {
  readonly first: RawFinding;
  readonly sides: Set<string>;
  readonly causes: Set<number>;
  /** What the worst of them does, where each says less than its rule. */
  harm: Harm | null;
  set: Diagram;
}

/** Findings in order of place: same identity united, left and right of one operation told once. */
export function wordFindings(
  sim: Simulation,
  raw: readonly RawFinding[],
  rules: ReadonlyMap<string, Rule>,
): Finding[] {
  const gathered = new Map<string, Gathered>();
  for (const finding of raw) {
    const place = placeOf(sim.model, finding);
    const key = [finding.rule, finding.operation, finding.item, place.uri, place.span.start].join('\n');
    const known = gathered.get(key);
    if (known === undefined) {
      gathered.set(key, {
        first: finding,
        sides: new Set([finding.side]),
        causes: new Set(finding.causes),
        harm: finding.harm ?? null,
        set: finding.set,
      });
    } else {
      known.sides.add(finding.side);
      for (const cause of finding.causes) known.causes.add(cause);
      known.harm = worse(known.harm, finding.harm ?? null);
      known.set = sim.model.world.diagrams.or(known.set, finding.set);
    }
  }
  return [...gathered.values()].flatMap((one) => {
    const rule = rules.get(one.first.rule);
    return rule === undefined ? [] : [worded(sim, one, rule)];
  });
}

const HARMS: readonly Harm[] = ['paperwork', 'rework', 'damage', 'injury'];

/** The worse of two; null is all that the rule says. */
const worse = (one: Harm | null, other: Harm | null): Harm | null =>
  one === null || other === null ? null : HARMS[Math.max(HARMS.indexOf(one), HARMS.indexOf(other))]!;

function worded(sim: Simulation, one: Gathered, rule: Rule): Finding {
  const { first } = one;
  const sides = [...one.sides].filter((side) => side !== '').sort();
  const harm = one.harm ?? rule.harm;
  return {
    rule: rule.id,
    severity: rule.severity ?? severityOf(harm),
    harm,
    ...told(sim.model, first, sentence(rule.says, first, sides)),
    variants: cubesOf(sim.model, one.set),
    related: [...insideOf(sim.model, first), ...relatedPlaces(sim, one)],
    fixes: [],
    item: first.item,
    sides,
    operation: first.operation,
  };
}

/** A finding in a section that is used stands at the `use`: there the guide meets it, though all may be well in the section's own. */
function told(model: Model, finding: RawFinding, message: string): Pick<Finding, 'place' | 'message'> {
  const [use] = finding.event?.step.uses ?? [];
  return use === undefined
    ? { place: placeOf(model, finding), message }
    : { place: use.place, message: inSection(use.section, message) };
}

/** The way from the `use` to the operation that a finding is about. */
function insideOf(model: Model, finding: RawFinding): Related[] {
  const [first, ...more] = finding.event?.step.uses ?? [];
  if (finding.event === null || first === undefined) return [];
  return [
    ...more.map(({ place, section }) => ({ place, message: `uses "${section}"` })),
    { place: placeOf(model, finding), message: eventInWords(finding.event) },
  ];
}

/** Where a finding stands: its own place, else the target's words where the operation has several, else the operation. */
function placeOf(model: Model, finding: RawFinding): Place {
  if (finding.place !== undefined) return finding.place;
  const { event } = finding;
  if (event === null) return model.kitPlace;
  const { operation, target } = event;
  return operation.targets.length > 1 && operation.verb !== 'apply'
    ? { uri: operation.place.uri, span: target.span }
    : operation.place;
}

/**
 * Fills the sentence of a rule. `{item}` is the item with its side, `{part}` its part, `{verb}` the verb; other names are the
 * finding's facts. A stretch in square brackets is left out where a fact in it is missing.
 */
export function sentence(says: string, finding: RawFinding, sides: readonly string[]): string {
  const { item, event, facts } = finding;
  const mark = sides.length === 1 || (sides.length > 1 && !bothSides(sides)) ? ` (${sides.join(', ')})` : '';
  const dot = item.indexOf('.');
  const known: Record<string, string> = {
    part: dot < 0 ? item : item.slice(0, dot),
    verb: event?.verb ?? '',
    ...facts,
    item: item === UNNAMED.name ? 'what was put there' : `${item}${mark}`,
  };
  const optional = says.split(/[[\]]/).map((stretch, index) => {
    const complete = names(stretch).every((name) => (known[name] ?? '') !== '');
    return index % 2 === 1 && !complete ? '' : stretch;
  });
  const filled = fill(optional.join(''), known).trim();
  return filled.charAt(0).toUpperCase() === filled.charAt(0) || filled.startsWith(item)
    ? filled
    : filled.charAt(0).toUpperCase() + filled.slice(1);
}

const bothSides = (sides: readonly string[]) =>
  sides.length === 2 && sides.includes('left') && sides.includes('right');

function names(text: string): string[] {
  return text
    .split('{')
    .slice(1)
    .map((rest) => rest.slice(0, Math.max(0, rest.indexOf('}'))));
}

function fill(text: string, known: Readonly<Record<string, string>>): string {
  return text
    .split('{')
    .map((stretch, index) => {
      if (index === 0) return stretch;
      const end = stretch.indexOf('}');
      return end < 0 ? stretch : `${known[stretch.slice(0, end)] ?? ''}${stretch.slice(end + 1)}`;
    })
    .join('');
}

/** A set of variants as cubes; an empty list is all that the guide covers. */
export function cubesOf(model: Model, set: Diagram): readonly Cube[] {
  const cover = model.world.describe(set, model.universe);
  if (cover.extent === 'all') return [];
  return cover.cubes.map((cube) => Object.fromEntries(cube.map((term) => [term.variable, term.values])));
}

const MOST_RELATED = 4;

function relatedPlaces(sim: Simulation, one: Gathered): Related[] {
  const told = new Set<string>([one.first.operation]);
  const related: Related[] = [];
  for (const run of [...one.causes].sort((a, b) => a - b)) {
    const event = sim.events[run];
    if (event === undefined || told.has(event.operation.path)) continue;
    told.add(event.operation.path);
    related.push({ place: event.operation.place, message: eventInWords(event) });
  }
  return related.slice(0, MOST_RELATED);
}

/** An event in the words of the trade: `step 1.2: raise vehicle with two-post-lift`. */
export function eventInWords(event: Event): string {
  const { operation, step } = event;
  const aids = operation.aids.map((aid) => aid.name).join(' and ');
  const name =
    operation.verb === 'unbolt' || operation.verb === 'bolt-up'
      ? event.target.written
      : nameOf(event.subject);
  return `step ${step.path}: ${operation.verb} ${name}${aids === '' ? '' : ` with ${aids}`}`;
}
