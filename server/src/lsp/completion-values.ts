import { thingOfTarget } from '../model/target';
import { VERBS } from '../model/verbs';
import { typesOf } from '../schema/spots';
import { find, items } from '../text/access';
import type { Asked } from '../workspace/asked';
import { traitAt } from '../workspace/at';
import {
  aidsOf,
  type Candidate,
  candidate,
  figuresFor,
  keysOf,
  kindsOf,
  piecesFor,
  targetsFor,
} from '../workspace/candidates';
import { conditionValues, wholeConditions } from '../workspace/condition-words';
import type { Document } from '../workspace/document';
import type { OpenGuide } from '../workspace/guides';
import { targetNamed } from '../workspace/meaning';
import { namesOf } from '../workspace/names';
import { folderOf, relativePath } from '../workspace/paths';
import type { Closure } from '../workspace/project';
import { alwaysThere, factsAt, ruleWords } from '../workspace/rule-words';
import { standardSizes } from '../workspace/standard-sizes';
import type { Context } from './context';

const FILES: Readonly<Record<string, string>> = {
  'vehicle-file': 'vehicle',
  'kit-file': 'kit',
  'guide-file': 'install',
  'rules-file': 'rules',
  'times-file': 'times',
};

/** The words that may stand as a value. */
export async function valueCandidates(
  context: Context,
  asked: Asked,
  guide: OpenGuide | null,
  closure: Closure,
): Promise<Candidate[]> {
  const { schema, document } = asked;
  const trait = traitAt(document, asked.at);
  if (trait !== null) {
    const values = conditionValues(trait.name, guide, closure);
    return asked.keys[0] === 'covers' ? [...values, candidate('any', 'every value')] : values;
  }
  if (schema['x-condition']) return wholeConditions(guide, closure);
  const inRule = document.kind === 'rules' ? wordsInRule(asked, closure) : null;
  if (inRule !== null) return inRule;
  const fixed = [
    ...(schema.enum ?? []),
    ...(schema.const === undefined ? [] : [schema.const]),
    ...(schema['x-values'] ?? []),
    ...(schema['x-words'] ?? []),
    ...(typesOf(schema).includes('boolean') ? ['true', 'false'] : []),
  ].map((word) => candidate(word, '', schema.description ?? ''));
  const figures =
    guide !== null && schema['x-dimension'] === 'torque'
      ? figuresFor(guide.model, targetsWritten(asked))
      : [];
  const named = await namesFor(context, asked, guide, closure);
  const standard = standardSizes(asked);
  const examples =
    named.length + figures.length + fixed.length + standard.length > 0
      ? []
      : (schema.examples ?? []).flatMap((one) =>
          typeof one === 'string' ? [candidate(one, 'for example')] : [],
        );
  return [...figures, ...standard, ...named, ...fixed, ...examples];
}

/** In a rule: the names in braces of its sentence, and the ids that it may override; null elsewhere. */
function wordsInRule(asked: Asked, closure: Closure): Candidate[] | null {
  const { document, keys, start, beside } = asked;
  const key = keys.at(-1);
  if (key === 'says')
    return document.text[start - 1] === '{'
      ? factsAt(asked, closure).map((fact) => candidate(fact, 'filled in', '', 0))
      : null;
  if (key !== 'id' || !beside.has('overrides')) return null;
  return [...closure.rulebook.rules.values()].map(({ id, reason, harm }) => candidate(id, harm, reason));
}

async function namesFor(
  context: Context,
  asked: Asked,
  guide: OpenGuide | null,
  closure: Closure,
): Promise<Candidate[]> {
  const role = asked.schema['x-names'];
  if (role === undefined) return [];
  const file = FILES[role];
  if (file !== undefined) return filesOf(context, closure, file);
  const { packs } = closure.library;
  const ofRules = ruleWords(role, asked, { packs, rulebook: closure.rulebook });
  if (ofRules !== null) return ofRules;
  if (role === 'rule')
    return [...closure.rulebook.rules.values()].map(({ id, reason, harm }) => candidate(id, harm, reason));
  if (role === 'kind') return kindsOf([closure.opened(closure.document), ...packs]);
  if (role === 'access')
    return keysOf([closure.opened(closure.document)], 'access').map((word) => candidate(word, 'access'));
  if (role === 'skill') return skillsIn([closure.document, ...closure.documents.values(), ...closure.times]);
  if (role === 'vehicle')
    return (closure.library.vehicles ?? []).flatMap(({ value }) =>
      value !== null && 'name' in value ? [candidate(String(value.name), 'vehicle')] : [],
    );
  if (guide === null) {
    if (role === 'aid') return keysOf(packs, 'aids').map((word) => candidate(word, 'aid'));
    if (role === 'piece') return keysOf(packs, 'pieces').map((word) => candidate(word, 'piece'));
    const always = role === 'target' && asked.document.kind === 'rules' ? alwaysThere() : [];
    return [...always, ...itemsBeside(closure, role)];
  }
  const { model } = guide;
  if (role === 'aid') return aidsOf(model, [...asked.beside.keys()].find((key) => VERBS.has(key)) ?? null);
  if (role === 'piece') return piecesFor(model, targetsWritten(asked), packs);
  if (role === 'section') return sectionsOf(guide);
  if (role === 'path' || role === 'end') {
    return targetsWritten(asked).flatMap((name) => {
      const target = targetNamed(model, name);
      const thing = target === null ? null : thingOfTarget(target);
      if (thing === null) return [];
      if (role === 'path')
        return thing.type === 'line' ? [...thing.paths.keys()].map((word) => candidate(word, 'path')) : [];
      const ends = thing.type === 'line' ? thing.ends : [...thing.ends.keys()];
      return ends.filter((end) => end !== '').map((word) => candidate(word, 'end'));
    });
  }
  const verb = verbOf(asked);
  const done = asked.operation === null ? 0 : Number(asked.operation.split('.').at(-1)) - 1;
  const sim = asked.step === null || verb === null ? null : guide.before(asked.step, Math.max(0, done));
  return targetsFor(model, verb ?? 'check', sim);
}

/** The verb whose target is asked for; null at a qualifier. */
function verbOf({ keys, operation }: Asked): string | null {
  if (operation === null) return null;
  const last = [...keys].reverse().find((key): key is string => typeof key === 'string');
  return last === undefined || last === 'to' || last === 'onto' || last === 'with' ? null : last;
}

/** What the operation around names as its targets. */
function targetsWritten(asked: Asked): string[] {
  const { reading } = asked.document;
  for (const [name, node] of asked.beside) {
    if (!VERBS.has(name)) continue;
    if (node.kind === 'scalar' && typeof node.value === 'string') return [node.value];
    return items(node, reading).flatMap(({ value }) =>
      typeof value.value === 'string' ? [value.value] : [],
    );
  }
  return [];
}

function sectionsOf({ closure }: OpenGuide): Candidate[] {
  return [...closure.documents.values()].flatMap((document) =>
    namesOf(document).flatMap(({ group, name, declares }) =>
      group === 'section' && declares ? [candidate(name, 'section')] : [],
    ),
  );
}

/** Parts and lines that a vehicle, a kit or a pack may speak of. */
function itemsBeside(closure: Closure, role: string): Candidate[] {
  const beside = (closure.library.vehicles ?? []).flatMap((vehicle) =>
    keysOf([vehicle], 'parts').concat(keysOf([vehicle], 'lines')),
  );
  const own = namesOf(closure.document).flatMap(({ group, name, declares }) =>
    group === 'item' && declares && (role === 'joint' || role === 'target' || !name.includes('.'))
      ? [name]
      : [],
  );
  const always = role === 'part' ? ['frame', 'body', 'ground'] : [];
  return [...new Set([...own, ...beside, ...always])].map((word) => candidate(word, role));
}

/** Who is named as a skill in some documents. */
function skillsIn(documents: readonly Document[]): Candidate[] {
  const found = new Set<string>();
  for (const { reading } of documents)
    for (const top of ['sections', 'times']) {
      const list = reading.root && find(reading.root, top, reading)?.value;
      for (const { value } of list ? items(list, reading) : []) {
        const steps = find(value, 'steps', reading)?.value;
        const inner = steps === undefined ? [] : items(steps, reading).map((item) => item.value);
        for (const node of [value, ...inner]) {
          const skill = find(node, 'skill', reading)?.value.value;
          if (typeof skill === 'string' && skill.trim() !== '') found.add(skill.trim());
        }
      }
    }
  return [...found].map((word) => candidate(word, 'skill'));
}

async function filesOf(context: Context, closure: Closure, kind: string): Promise<Candidate[]> {
  const folder = folderOf(closure.document.uri);
  const found: Candidate[] = [];
  for (const name of context.checker.asked()) {
    if (name === closure.document.uri) continue;
    const document = await context.project.open(name);
    if (document?.kind !== kind) continue;
    const path = relativePath(folder, name);
    found.push(candidate(path, kind, '', path.startsWith('..') ? 1 : 0));
  }
  return found;
}
