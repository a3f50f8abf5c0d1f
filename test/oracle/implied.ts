// Walks a guide as written (through `use`) to learn which names it uses, how, and which steps are optional.
import { holds, type Variant } from './condition.ts';
import type { Documents } from './declare.ts';
import { exchange, FREE_WORDS, findSection, readOperation, readUse, VERBS } from './operation.ts';
import { isMap, list, map, type Raw, text, texts } from './raw.ts';

export interface NameUse {
  name: string;
  second: string | undefined;
  third: string | undefined;
  verb: string;
  underSide: boolean;
}

/** A step that `done:` may name, with the conditions that stand over it. */
interface NamedStep {
  id: string;
  optional: boolean;
  conditions: unknown[];
}

export interface GuideUse {
  names: NameUse[];
  steps: NamedStep[];
  optional: string[]; // ids or paths of optional steps
  found: string[]; // names of branches
}

const LINE_VERBS = ['disconnect', 'connect', 'unclip', 'clip', 'route', 'bleed'];

/** Whether a verb tells that a name without a kind is a line. */
export function isLineVerb(verb: string): boolean {
  return LINE_VERBS.includes(verb);
}

/** Every use of a name in the guide, its `given` and `leaves`, and in what it uses. */
export function walkGuide(documents: Documents): GuideUse {
  const known = alreadyWalked.get(documents) ?? walk(documents);
  alreadyWalked.set(documents, known);
  return known;
}

const alreadyWalked = new WeakMap<Documents, GuideUse>();

function walk(documents: Documents): GuideUse {
  const use: GuideUse = { names: [], steps: [], optional: [], found: [] };
  const { guide, guideName } = documents;
  const under = guide.side !== undefined;
  if (Array.isArray(guide.given)) walkOperations(documents, use, guide.given, under, guideName, '0', {}, []);
  for (const source of [guide.given, guide.leaves]) {
    for (const name of Object.keys(map(source))) noteName(use, name, 'given', under);
  }
  list(guide.sections).forEach((section, index) => {
    if (isMap(section)) walkSection(documents, use, section, under, guideName, `${index + 1}`, {}, []);
  });
  gatherFound(guide, use);
  return use;
}

/** The variant in which `done:` tells whether a step is done: chosen, where it is optional, and its conditions hold. */
export function settleDone(documents: Documents, variant: Variant): Variant {
  const { steps } = walkGuide(documents);
  const known = new Map<string, boolean>();
  const isDone = (id: string): boolean => {
    const before = known.get(id);
    if (before !== undefined) return before;
    known.set(id, false); // a step that asks for itself is never done
    const named = steps.filter((step) => step.id === id);
    const done = named.some((step) => {
      if (step.optional && (variant[`done:${id}`] ?? 'yes') !== 'yes') return false;
      return step.conditions.every((condition) => holds(condition, variant, isDone));
    });
    known.set(id, done);
    return done;
  };
  const settled: Variant = { ...variant };
  for (const { id } of steps) settled[`done:${id}`] = isDone(id) ? 'yes' : 'no';
  return settled;
}

function walkSection(
  documents: Documents,
  use: GuideUse,
  section: Raw,
  under: boolean,
  guideName: string,
  path: string,
  names: Record<string, string>,
  stack: string[],
): void {
  const sided = under || section.side !== undefined;
  list(section.steps).forEach((step, index) => {
    if (!isMap(step)) return;
    const stepPath = `${path}.${index + 1}`;
    const id = text(step.id) ?? stepPath;
    if (step.optional === true) use.optional.push(id);
    use.steps.push({ id, optional: step.optional === true, conditions: [section.when, step.when] });
    walkOperations(
      documents,
      use,
      step.do,
      sided || step.side !== undefined,
      guideName,
      stepPath,
      names,
      stack,
    );
  });
}

function walkOperations(
  documents: Documents,
  use: GuideUse,
  operations: unknown,
  under: boolean,
  guideName: string,
  path: string,
  names: Record<string, string>,
  stack: string[],
): void {
  list(operations).forEach((value, index) => {
    const operation = readOperation(value);
    if (!operation) return;
    const sided = under || operation.raw.side !== undefined;
    if (operation.verb !== 'use') {
      for (const target of operation.targets) noteName(use, exchange(target, names), operation.verb, sided);
      return;
    }
    const wanted = readUse(operation.raw);
    const from = wanted.guide === undefined ? undefined : documents.other(guideName, wanted.guide);
    const name = from?.name ?? guideName;
    const document = from?.document ?? documents.other('.', guideName).document;
    const mark = `${name}#${wanted.section}`;
    const section = findSection(document, wanted.section);
    if (!section || stack.includes(mark)) return;
    if (name !== documents.guideName) gatherFound(section.section, use);
    const inner = `${path}.${index + 1}/${section.number}`;
    walkSection(documents, use, section.section, sided, name, inner, wanted.names, [...stack, mark]);
  });
}

function noteName(use: GuideUse, target: string, verb: string, underSide: boolean): void {
  const [name = '', second, third] = target.split('.');
  use.names.push({ name, second, third, verb, underSide });
}

/** Names of found branches: from `else` and from conditions. */
function gatherFound(value: unknown, use: GuideUse): void {
  const add = (names: string[]): void => {
    for (const name of names) if (!use.found.includes(name)) use.found.push(name);
  };
  if (Array.isArray(value)) for (const one of value) gatherFound(one, use);
  if (!isMap(value)) return;
  if (VERBS.some((verb) => value[verb] !== undefined)) add(texts(value.else));
  for (const [key, inner] of Object.entries(value)) {
    if (key === 'when' || key === 'not') addFound(inner, add);
    gatherFound(inner, use);
  }
}

function addFound(condition: unknown, add: (names: string[]) => void): void {
  for (const one of list(condition)) {
    if (!isMap(one)) continue;
    add(texts(one.found));
    addFound(one.not, add);
  }
}

/** Whether a name used only by these verbs may be plain words. What `given` and `leaves` name is a thing. */
export function onlyWords(uses: NameUse[]): boolean {
  return uses.every((one) => FREE_WORDS.includes(one.verb));
}
