/** What only a person can judge of a guide: a checklist made from this guide, and from nothing else. */

import { listed } from '../findings/words';
import { nameInWords, targetInWords, titled } from '../guide/names';
import { stepNumbers } from '../guide/order';
import type { PrintedStep } from '../guide/printed';
import { plainText } from '../guide/text-in-words';
import { torquesOf } from '../guide/torques';
import { isPrinted } from '../guide/variants';
import { isBuiltIn } from '../model/builtins';
import type { BoundOperation, Model, Part } from '../model/model';
import { BY_HAND_KG } from '../rules/builtin/handling';
import { dutyInWords, type Judgement } from './record';
import { inOrder, StepOf, shortOf } from './record-places';
import type { RecordSource } from './record-source';

type Item = Judgement['items'][number];

/** Under headings, the gravest first; what a guide has nothing of has no heading. */
export function judgingOf(source: RecordSource): Judgement[] {
  const { printed } = source;
  const steps = printed.sections.flatMap((section) => section.steps);
  const lists: [string, readonly Item[]][] = [
    ['Cautions: the right word, before the right step, enough', cautionsOf(source, steps)],
    ['Findings accepted by name: still acceptable', waivedOf(source)],
    ['Steps of words alone: right, and safe', wordStepsOf(source, steps)],
    ["Drilled, cut or welded: strength, what lies behind, the maker's consent", metalOf(source)],
    ['Heavy parts: the mass, the people, the aid', heavyOf(source)],
    ['Torques that one source alone gives', torqueItems(source)],
    ['Checks that words describe: a fitter can tell', checksOf(source)],
    ['Kinds guessed from names', guessedOf(source.model)],
    ['Pictures: this vehicle, this step, this side', picturesOf(steps)],
    ['Words and operations say the same', sectionsOf(source)],
    ['The kit fits the vehicle', kitsOf(source)],
    ['Tried on a real vehicle, and which', variantsOf(source)],
  ];
  return lists.flatMap(([about, items]) => (items.length === 0 ? [] : [{ about, items: merged(items) }]));
}

/** What is the same in several steps is judged once. */
function merged(items: readonly Item[]): Item[] {
  const found = new Map<string, string[]>();
  for (const { step, what } of items)
    found.set(what, [...(found.get(what) ?? []), ...(step === null ? [] : [step])]);
  return [...found].map(([what, steps]) => ({ step: steps.length === 0 ? null : steps.join(', '), what }));
}

function cautionsOf({ model }: RecordSource, steps: readonly PrintedStep[]): Item[] {
  const covered = new Map(model.steps.map((step) => [step.path, step.covered]));
  return steps.flatMap(({ number, path, cautions }) => {
    const rules = [...(covered.get(path) ?? [])].map((rule) => dutyInWords(rule).toLowerCase());
    const instead = rules.length === 0 ? '' : ` (stands in for: ${listed(rules)})`;
    return cautions.map(({ signal, text }) => ({
      step: number,
      what: `${signal.toUpperCase()} “${shortOf(plainText(text), 90)}”${instead}`,
    }));
  });
}

function waivedOf({ waived, model }: RecordSource): Item[] {
  const steps = new StepOf(model);
  return waived.map(({ finding, waiver }) => ({
    step: steps.number(finding.operation),
    what: `${dutyInWords(finding.rule)}: ${shortOf(waiver.because || 'no reason given', 90)} (${waiver.by || 'nobody named'})`,
  }));
}

function wordStepsOf({ model }: RecordSource, steps: readonly PrintedStep[]): Item[] {
  const silent = new Set(
    model.steps.filter(({ operations }) => operations.length === 0).map(({ path }) => path),
  );
  // What is done in a section that is used stands with its own steps.
  for (const { path, operations } of model.steps)
    for (const one of silent)
      if ((path === one && operations.length > 0) || path.startsWith(`${one}.`)) silent.delete(one);
  return steps.flatMap(({ number, path, text }) =>
    silent.has(path) ? [{ step: number, what: shortOf(plainText(text)) }] : [],
  );
}

/** What operations of some verbs act on, gathered by step. */
function byStep(model: Model, words: (operation: BoundOperation) => readonly string[]): Item[] {
  const numbers = stepNumbers(model);
  const found = new Map<string, Set<string>>();
  for (const { path, operations } of model.steps) {
    const step = numbers.get(path) ?? path;
    for (const operation of operations) {
      if (!isPrinted(model, operation.guard)) continue;
      for (const one of words(operation)) {
        const known = found.get(step) ?? new Set<string>();
        found.set(step, known.add(one));
      }
    }
  }
  return [...found].map(([step, all]) => ({ step, what: titled([...all].join('; ')) }));
}

const METAL: ReadonlySet<string> = new Set(['drill', 'cut', 'weld']);

const metalOf = ({ model }: RecordSource): Item[] =>
  byStep(model, ({ verb, targets }) =>
    METAL.has(verb) ? targets.map((target) => `${verb} ${targetInWords(target)}`) : [],
  );

const HANDLED: ReadonlySet<string> = new Set(['remove', 'unbolt', 'fit', 'bolt-up']);

function heavyOf({ model }: RecordSource): Item[] {
  const numbers = stepNumbers(model);
  const found = new Map<Part, { steps: Set<string>; people: number; aids: Set<string> }>();
  for (const { path, operations, people } of model.steps)
    for (const { verb, targets, guard, aids } of operations) {
      if (!isPrinted(model, guard)) continue;
      for (const target of targets) {
        const part = target.type === 'part' ? target.part : null;
        if (part === null || (part.mass ?? 0) <= BY_HAND_KG) continue;
        const carried = verb === 'support' || verb === 'raise' || verb === 'lower';
        if (!HANDLED.has(verb) && !carried) continue;
        const one = found.get(part) ?? { steps: new Set(), people: 0, aids: new Set() };
        found.set(part, one);
        for (const aid of aids) one.aids.add(nameInWords(aid.name));
        if (carried) continue;
        one.steps.add(numbers.get(path) ?? path);
        one.people = Math.max(one.people, people);
      }
    }
  return [...found].flatMap(([{ name, mass, attributes }, { steps, people, aids }]) =>
    steps.size === 0
      ? []
      : [
          {
            step: inOrder(steps).join(', '),
            what: `${titled(nameInWords(name))}, ${mass} kg: ${people === 1 ? 'one person' : `${people} people`}${aids.size === 0 ? '' : `, ${listed([...aids])}`}${notAsked(attributes)}`,
          },
        ],
  );
}

/** Why the check says nothing of the people for it: `heavy-part-held` and `heavy-part-lifted` leave these out. */
function notAsked({ wheel, axle }: Part['attributes']): string {
  if (!wheel && !axle) return '';
  return ` (${wheel ? 'wheels' : 'axles'} are a matter of handling: the check does not ask who lifts them)`;
}

/** Figures that no second source stands beside: nobody but a person with the maker's data can tell whether they are right. */
function torqueItems({ model }: RecordSource): Item[] {
  const numbers = stepNumbers(model);
  const found = new Map<string, { step: string; source: string; joints: Map<string, string[]> }>();
  for (const { joint, step, figure, maker, operation } of torquesOf(model, numbers)) {
    const data = joint.torque !== null;
    const said = operation.figure.length > 0;
    if (!maker && (figure === null || (data && said))) continue;
    const source = maker
      ? "the vehicle maker's, to be looked up"
      : said
        ? 'by the guide alone'
        : 'by the data alone';
    const key = `${step}\n${source}`;
    const one = found.get(key) ?? { step, source, joints: new Map<string, string[]>() };
    found.set(key, one);
    const shown = maker ? '' : figure!.metric;
    const names = one.joints.get(shown) ?? [];
    if (!names.includes(joint.full)) names.push(joint.full);
    one.joints.set(shown, names);
  }
  return [...found.values()].map(({ step, source, joints }) => ({
    step,
    what: `${titled([...joints].map(([figure, names]) => `${names.map(nameInWords).join('; ')}${figure === '' ? '' : `: ${figure}`}`).join('; '))} (${source})`,
  }));
}

const LOOKS: ReadonlySet<string> = new Set(['check', 'measure']);

/** Checks and measurements of which no figure says how they must come out. */
const checksOf = ({ model }: RecordSource): Item[] =>
  byStep(model, ({ verb, targets, qualifiers }) => {
    const expect = qualifiers.get('expect');
    if (!LOOKS.has(verb) || (typeof expect === 'object' && expect !== null)) return [];
    const words = expect === undefined ? null : String(expect);
    if (words !== null && /\d/.test(words)) return [];
    return targets.map(
      (target) =>
        `${targetInWords(target)}: ${words === null ? 'not said how' : `“${words.replaceAll('-', ' ')}”`}`,
    );
  });

function guessedOf({ things }: Model): Item[] {
  const found = new Map<string, string[]>();
  for (const { origin, kind, name } of things.values())
    if (origin === 'implied' && !isBuiltIn(name)) {
      const key = kind ?? '';
      found.set(key, [...(found.get(key) ?? []), name]);
    }
  return [...found].map(([kind, names]) => ({
    step: null,
    what: `${titled(listed(names.map(nameInWords)))}: ${kind === '' ? 'no kind known' : `taken for ${kind.replaceAll('-', ' ')}`}`,
  }));
}

const picturesOf = (steps: readonly PrintedStep[]): Item[] =>
  steps.flatMap(({ number, figures }) =>
    figures.map(({ file, caption, alt }) => ({
      step: number,
      what: `${file}${caption === null && alt === null ? ', with nothing said of it' : `: ${shortOf(caption ?? alt ?? '', 80)}`}`,
    })),
  );

const sectionsOf = ({ printed }: RecordSource): Item[] =>
  printed.sections.map(({ title, steps }) => ({
    step: steps.length === 1 ? steps[0]!.number : `${steps[0]!.number} – ${steps.at(-1)!.number}`,
    what: title,
  }));

function kitsOf({ printed }: RecordSource): Item[] {
  const vehicle = printed.vehicle === null ? 'the vehicle' : `the ${printed.vehicle}`;
  return [
    ...printed.kits.map((kit) => ({
      step: null,
      what: `${kit} on ${vehicle}: holes, threads, lengths, clearances, loads`,
    })),
    ...(printed.vehicle === null
      ? []
      : [
          {
            step: null,
            what: `The vehicle file is of ${vehicle} as it is sold: joints, threads, torques, slacks`,
          },
        ]),
  ];
}

/** Of what may be anything the figure that was tried is written in. */
const boxed = (value: string): string => (value === 'any' ? '□ any, tried with …………………………' : `□ ${value}`);

function variantsOf({ printed }: RecordSource): Item[] {
  const fixed = new Set(printed.variant.map(({ name }) => name));
  const items = printed.covers
    .filter(({ name }) => !fixed.has(name))
    .map(
      ({ name, values }): Item => ({
        step: null,
        what: `${titled(nameInWords(name))}: ${values.map(boxed).join('   ')}`,
      }),
    );
  if (fixed.size > 0)
    items.unshift({
      step: null,
      what: titled(printed.variant.map(({ name, value }) => `${nameInWords(name)}: ${value}`).join(', ')),
    });
  return items.length > 0 ? items : [{ step: null, what: 'The one vehicle that it is for' }];
}
