// A guide as the fitter works through it in one variant: one act after the other, each on one thing on one side.
import { holds, traitValues, type Variant } from '../condition.ts';
import { exchange, findSection, readOperation, readUse } from '../operation.ts';
import { isMap, list, type Raw, text, texts } from '../raw.ts';
import { type Documents, type Facts, named, type Side } from './facts.ts';

/** What a step says of all that is done in it. */
export interface StepFrame {
  readonly where: string; // `section.step`, within used sections after a stroke
  readonly people: number;
}

/** One operation as it is written, on the sides that are left of it. */
export interface Act {
  /** The same for acts that are written alike, wherever they stand. */
  readonly id: number;
  readonly verb: string;
  readonly targets: readonly string[];
  readonly sides: readonly Side[];
  readonly raw: Raw;
  readonly step: StepFrame;
  readonly conditions: readonly unknown[];
  readonly places: Raw; // where a place (`row: upper`) is said, on operation or step
}

interface Around {
  readonly guide: string;
  readonly names: Record<string, string>;
  readonly sides: readonly Side[];
  readonly used: readonly string[];
  readonly conditions: readonly unknown[];
}

/**
 * All that may be done, in order; what is done in a variant is what `actsIn` leaves of it.
 * @param numbers acts that were numbered before; new ones are added
 */
export function scriptOf(documents: Documents, guideName: string, numbers: Map<string, number>): Act[] {
  const acts: Act[] = [];
  const guide = documents[guideName] ?? {};
  const top: Around = { guide: guideName, names: {}, sides: ['left', 'right'], used: [], conditions: [] };
  const around = within(top, guide);
  for (const [index, section] of list(guide.sections).entries())
    if (isMap(section)) addSection(section, `${index + 1}`, around);
  return acts;

  function addSection(section: Raw, where: string, outer: Around): void {
    const inner = within(outer, section);
    for (const [index, step] of list(section.steps).entries())
      if (isMap(step)) addStep(step, `${where}.${index + 1}`, inner);
  }

  function addStep(step: Raw, where: string, outer: Around): void {
    const chosen = step.optional === true ? [{ done: text(step.id) ?? where }] : [];
    const inner = within(outer, step, chosen);
    const frame = { where, people: step.people === undefined ? 1 : Number(step.people) };
    const { do: _do, text: _text, note: _note, time: _time, ...around } = step;
    for (const turn of step.side === 'each' ? inner.sides.map((side) => [side]) : [inner.sides])
      for (const [index, one] of list(step.do).entries())
        addOperation(one, frame, `${where}.${index + 1}`, around, { ...inner, sides: turn });
  }

  function addOperation(one: unknown, step: StepFrame, where: string, around: Raw, outer: Around): void {
    const operation = readOperation(one);
    if (operation === undefined) return;
    const { verb, raw } = operation;
    const inner = within(outer, raw);
    if (verb === 'use') {
      addUse(raw, where, inner);
      return;
    }
    const targets = operation.targets.map((target) => exchange(target, inner.names));
    const places = { ...around, ...raw };
    const { sides, conditions } = inner;
    const written = JSON.stringify([targets, sides, raw, step.people, around]);
    const id = numbers.get(written) ?? numbers.size;
    numbers.set(written, id);
    acts.push({ id, verb, targets, sides, raw, step, conditions, places });
  }

  function addUse(raw: Raw, where: string, outer: Around): void {
    const use = readUse(raw);
    const other = use.guide === undefined ? outer.guide : named(documents, outer.guide, use.guide).name;
    const found = findSection(documents[other] ?? {}, use.section);
    const mark = `${other}#${use.section}`;
    if (found === undefined || outer.used.includes(mark)) return;
    const inner = { ...outer, guide: other, names: use.names, used: [...outer.used, mark] };
    addSection(found.section, `${where}/${found.number}`, inner);
  }
}

/** What is left when one more condition and one more side stand around. */
function within(outer: Around, said: Raw, more: readonly unknown[] = []): Around {
  const conditions = [...outer.conditions, ...(said.when === undefined ? [] : [said.when]), ...more];
  return { ...outer, conditions, sides: narrowed(outer.sides, said) };
}

/** What is done in one variant. */
export function actsIn(script: readonly Act[], variant: Variant): Act[] {
  const known = new Map<unknown, boolean>();
  const met = (condition: unknown): boolean => {
    const before = known.get(condition);
    if (before !== undefined) return before;
    const now = holds(condition, variant);
    known.set(condition, now);
    return now;
  };
  return script.filter(({ conditions }) => conditions.every(met));
}

function narrowed(sides: readonly Side[], said: Raw): readonly Side[] {
  return said.side === 'left' || said.side === 'right' ? sides.filter((side) => side === said.side) : sides;
}

/**
 * The variants of a job: traits, options, what the fitter finds and what he chooses to do.
 * @param guides the guides of the job, in order; what any of them covers not is left out.
 */
export function variantsOf(documents: Documents, guides: readonly string[], facts: Facts): Variant[] {
  const all = Object.values(documents);
  const variables = new Map<string, readonly string[]>();
  const chosen = new Map<string, readonly string[]>();
  for (const [name, declared] of facts.variables) {
    const covers = guides.map((guide) => documents[guide]?.covers).filter(isMap);
    const values = traitValues(declared, all, name).filter((value) =>
      covers.every((cover) => cover[name] === undefined || holds({ [name]: cover[name] }, { [name]: value })),
    );
    variables.set(name, values);
  }
  const walk = (value: unknown): void => {
    if (Array.isArray(value)) for (const one of value) walk(one);
    if (!isMap(value)) return;
    if (value.optional === true && text(value.id) !== undefined)
      chosen.set(`done:${value.id}`, ['yes', 'no']);
    for (const one of texts(value.else)) chosen.set(`found:${one}`, ['no', 'yes']);
    for (const [key, inner] of Object.entries(value)) {
      if (key === 'found') for (const one of texts(inner)) chosen.set(`found:${one}`, ['no', 'yes']);
      walk(inner);
    }
  };
  for (const guide of guides) walk(documents[guide]);
  let made: Variant[] = [{}];
  for (const [name, values] of [...variables, ...chosen])
    made = made.flatMap((variant) => values.map((value) => ({ ...variant, [name]: value })));
  return made;
}

/** What a value by variant is in one: the first whose condition holds; any other value is itself. */
export function choose(value: unknown, variant: Variant): unknown {
  if (!Array.isArray(value) || !value.every(isMap)) return value;
  return value.find((one) => holds(one.when, variant))?.is;
}
