import type { Finding, Place } from '../findings/finding';
import type { Rule } from '../rules/rule';
import { rulesOf } from '../rules/rule';
import { isSeen, matches } from '../rules/watching';
import { type OpenDocument, openDocument } from '../schema/document';
import type { Event } from '../simulate/event';
import type { Configuration } from './configuration';
import type { Document } from './document';
import { drive, type Wanted } from './drive';
import { checkGuideOf, judge } from './engine';
import { memoryFiles } from './memory';
import { Project } from './project';

/** An example of a rule, where it is written, as plain data. */
export interface Example {
  readonly rule: Rule;
  readonly which: 'good' | 'bad';
  readonly place: Place;
  readonly says: Readonly<Record<string, unknown>>;
  /** Where each entry of its `do` is written. */
  readonly steps: readonly Place[];
}

/** An example that was run, and what is wrong with it; nothing where it shows what it should. */
export interface Trial {
  readonly example: Example;
  readonly faults: readonly { readonly message: string; readonly place: Place }[];
}

/** The examples of a pack in order, by the ids of their rules. Those that the schema finds fault with are left out. */
export function examplesOf(pack: OpenDocument): ReadonlyMap<string, readonly Example[]> {
  const found = new Map<string, Example[]>();
  if (pack.kind !== 'rules') return found;
  const rules = new Map(rulesOf(pack).map((rule) => [rule.id, rule]));
  for (const document of pack.value.rules ?? []) {
    const rule = rules.get(document.id);
    if (rule === undefined) continue;
    const own = found.get(rule.id) ?? [];
    found.set(rule.id, own);
    for (const which of ['good', 'bad'] as const) {
      const written: unknown = document[which];
      if (written === undefined) continue;
      const list = Array.isArray(written) ? written : [written];
      list.forEach((says: Record<string, unknown>, index) => {
        const steps = Array.isArray(says?.do) ? says.do : null;
        if (steps === null || steps.some((step) => (step as { invalid?: unknown })?.invalid === true)) return;
        own.push({
          rule,
          which,
          place: Array.isArray(written) ? pack.at.value(written, index) : pack.at.key(document, which),
          says,
          steps: steps.map((_, at) => pack.at.value(steps, at)),
        });
      });
    }
  }
  return found;
}

/** What examples are judged by: all packs, and what a house has set. */
export interface TrialGround {
  /** All packs in order, the standard ones first. */
  readonly packs: readonly Document[];
  /** Those of them that are the house's: of their rules only the one that is tried counts. */
  readonly housePacks: readonly Document[];
  readonly configuration: Configuration;
}

export interface TrialOptions {
  readonly wanted?: Wanted;
  /** Told before each example is run. */
  readonly progress?: (done: number, all: number, rule: string) => void;
}

/**
 * Runs examples through the engine: a bad one gets its rule, a good one gets nothing at all. Counted are the standard
 * rules as the configuration has them, and the rule itself.
 * @returns null where it was cancelled.
 */
export async function tryExamples(
  ground: TrialGround,
  examples: readonly Example[],
  { wanted, progress }: TrialOptions = {},
): Promise<readonly Trial[] | null> {
  const files = new Map<string, string>();
  const settings = settingsOf(ground);
  const folders = new Map<string, string>();
  const guides = examples.map((example, index) => {
    // Examples under the same settings stand in one folder, so that these are read once.
    const text = configurationText(ground, settings, example.rule);
    const folder = folders.get(text) ?? `/${folders.size}`;
    folders.set(text, folder);
    files.set(`${folder}/kitproof.yaml`, text);
    for (const [name, content] of exampleTexts(example, index)) files.set(`${folder}/${name}`, content);
    return `${folder}/${guideName(index)}`;
  });
  const project = new Project(memoryFiles(files), ground.packs);
  const trials: Trial[] = [];
  for (const [index, example] of examples.entries()) {
    progress?.(index, examples.length, example.rule.id);
    const document = await project.open(guides[index]!);
    const closure = await project.closureOf(document!);
    const result = await drive(checkGuideOf(closure, NO_DAY), wanted);
    if (result === null) return null;
    const findings = [
      ...[...closure.documents.values()].flatMap((one) => {
        const opened = closure.opened(one);
        return [...opened.findings, ...judge(opened, closure.library, closure.rulebook)];
      }),
      ...result.findings,
    ];
    const undecided = result.coverage.undecided.filter(({ rule }) => rule === example.rule.id);
    const asked =
      ALWAYS_ASKED.has(example.rule.family) ||
      result.simulation.events.some((event: Event) => isSeen(event) && matches(example.rule.watch, event));
    const placed = findings.map((finding) => ({ finding, place: placeIn(example, document!, finding) }));
    const faults =
      example.which === 'good'
        ? faultsOfGood(
            example,
            placed,
            asked,
            undecided.map(({ item, property }) => `the ${property} of ${item}`),
          )
        : faultsOfBad(example, placed, asked);
    trials.push({ example, faults });
  }
  return trials;
}

type Placed = { readonly finding: Finding; readonly place: Place };
type Faults = Trial['faults'];

function faultsOfGood(
  { place }: Example,
  found: readonly Placed[],
  asked: boolean,
  undecided: readonly string[],
): Faults {
  const faults = found.map((one) => ({
    message: `The good example gets ${one.finding.rule}: ${one.finding.message}`,
    place: one.place,
  }));
  if (faults.length > 0) return faults;
  if (!asked)
    return [{ message: 'The good example shows nothing: it never does what the rule looks at.', place }];
  if (undecided.length > 0) {
    const message = `The good example leaves the rule undecided, for want of ${undecided.join(', ')}.`;
    return [{ message, place }];
  }
  return [];
}

function faultsOfBad({ rule, place }: Example, found: readonly Placed[], asked: boolean): Faults {
  // A slip in the example itself is no bad practice that a rule could find.
  const slips = found.filter(({ finding }) => finding.harm === null && finding.severity === 'error');
  if (slips.length > 0)
    return slips.map((one) => ({
      message: `The bad example gets ${one.finding.rule}: ${one.finding.message}`,
      place: one.place,
    }));
  const ids = [...new Set(found.map(({ finding }) => finding.rule))];
  if (ids.includes(rule.id)) return [];
  const why = asked ? '' : ': it never does what the rule looks at';
  const others = ids.length === 0 ? '' : ` It gets ${ids.join(', ')}.`;
  return [{ message: `The bad example does not get ${rule.id}${why}.${others}`, place }];
}

const guideName = (index: number): string => `${index}.install.yaml`;
/** A rule that forbids something may well be shown by an example that leaves it out; a built-in one looks where it likes. */
const ALWAYS_ASKED: ReadonlySet<string> = new Set(['built-in', 'never', 'never-while']);
/** Waivers in examples never run out. */
const NO_DAY = '0000-01-01';

/** The house's settings of standard rules; its own rules are off. */
function settingsOf({ housePacks, configuration }: TrialGround): Readonly<Record<string, string>> {
  const settings: Record<string, string> = {};
  for (const [id, { on }] of configuration.rules) if (on !== null) settings[id] = on ? 'on' : 'off';
  for (const pack of housePacks)
    for (const { id, overrides } of rulesOf(openDocument(pack.uri, pack.reading)))
      if (!overrides) settings[id] = 'off';
  return settings;
}

const configurationText = (
  { configuration }: TrialGround,
  settings: Readonly<Record<string, string>>,
  tried: Rule,
): string =>
  JSON.stringify({
    kitproof: 'config/1',
    // What is on of itself needs no word.
    rules: tried.core && settings[tried.id] === undefined ? settings : { ...settings, [tried.id]: 'on' },
    'strict-loosening': configuration.strictLoosening,
  });

/** The documents of an example: JSON is YAML too. Each step stands on a line of its own. */
function exampleTexts({ says }: Example, index: number): [string, string][] {
  const { vehicle = {}, kit, do: entries, ...rest } = says;
  const steps = (entries as Record<string, unknown>[]).map((entry) =>
    'do' in entry ? entry : { do: [entry] },
  );
  const files: [string, string][] = [
    [
      `${index}.vehicle.yaml`,
      JSON.stringify({ kitproof: 'vehicle/1', name: 'Example', ...(vehicle as object) }),
    ],
  ];
  const named: Record<string, string> = { vehicle: `${index}.vehicle.yaml` };
  if (kit !== undefined) {
    named.kit = `${index}.kit.yaml`;
    files.push([named.kit, JSON.stringify({ kitproof: 'kit/1', name: 'Example', ...(kit as object) })]);
  }
  const head = JSON.stringify({ kitproof: 'install/1', title: 'Example', ...named, ...rest }).slice(0, -1);
  const list = steps.map((step) => JSON.stringify(step)).join(',\n');
  files.push([guideName(index), `${head},"sections":[{"title":"All","steps":[\n${list}\n]}]}\n`]);
  return files;
}

/** Where in the pack a finding in an example's guide stands: at its entry of `do`, else at the example. */
function placeIn(example: Example, guide: Document, { place }: Finding): Place {
  if (place.uri !== guide.uri) return example.place;
  return example.steps[guide.lines.positionAt(place.span.start).line - 1] ?? example.place;
}
