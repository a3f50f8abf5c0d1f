import { type InlayHint, InlayHintKind, type Range } from 'vscode-languageserver/lib/common/api.js';
import { changeInWords } from '../check/changes';
import { stepLabours } from '../labour/labour';
import { thingOfTarget } from '../model/target';
import { schemaAt } from '../schema/describe';
import { keyOf } from '../simulate/state';
import { follow, keyName } from '../text/access';
import type { Node } from '../text/tree';
import { otherUnit } from '../units/format';
import { parseQuantity } from '../units/quantity';
import type { Document } from '../workspace/document';
import type { OpenGuide } from '../workspace/guides';
import { standardTimesOf } from '../workspace/labour';
import { stateItemsOf } from '../workspace/moment';
import { answering, type Context, type Feature } from './context';
import { minutesInWords } from './minutes';

/**
 * In the text: the kind that a name which nobody declares is taken for, the running time after each step, the number that
 * a step is printed with, a figure in the other unit, the state that a step leaves a thing in. Each can be switched.
 */
export const hints: Feature = {
  capabilities: () => ({ inlayHintProvider: true }),
  register(connection, context) {
    connection.languages.inlayHint.on(
      answering<{ textDocument: { uri: string }; range: Range }, InlayHint[]>(
        context,
        [],
        async ({ textDocument, range }) => {
          const document = await context.document(textDocument.uri);
          if (document === null) return [];
          const inside = ({ position: { line } }: InlayHint) =>
            range.start.line <= line && line <= range.end.line;
          return (await hintsOf(context, document)).filter(inside);
        },
      ),
    );
  },
};

async function hintsOf(context: Context, document: Document): Promise<InlayHint[]> {
  const { hints: shown } = context.settings.values;
  const found = shown.unit ? unitHints(document) : [];
  const guide = await context.guides.open(document.uri);
  if (guide === null) return found;
  if (shown.number) found.push(...numberHints(guide, document));
  if (shown.kind) found.push(...kindHints(guide, document));
  if (shown.time) found.push(...timeHints(guide, document));
  if (shown.state) found.push(...stateHints(guide, document));
  return found;
}

function kindHints({ model }: OpenGuide, document: Document): InlayHint[] {
  const told = new Set<string>();
  const found: InlayHint[] = [];
  for (const step of model.steps)
    for (const operation of step.operations)
      for (const target of operation.place.uri === document.uri ? operation.targets : []) {
        const thing = thingOfTarget(target);
        if (thing === null || thing.origin !== 'implied' || thing.kind === null || told.has(thing.name))
          continue;
        told.add(thing.name);
        found.push({
          position: document.lines.positionAt(target.span.end),
          label: `a ${thing.kind}?`,
          kind: InlayHintKind.Type,
          paddingLeft: true,
          tooltip: 'Guessed from the name. Declare the part in the vehicle file to say for certain.',
        });
      }
  return found;
}

function timeHints({ model, closure }: OpenGuide, document: Document): InlayHint[] {
  const times = standardTimesOf(closure);
  let lowest = 0;
  let highest = 0;
  let atLeast = false;
  const { diagrams } = model.world;
  const steps = new Map(model.steps.map((step) => [step.path, step]));
  return stepLabours(model, times).flatMap((labour): InlayHint[] => {
    const step = steps.get(labour.path);
    // Variants that leave the step out take nothing for it.
    if (step !== undefined && diagrams.implies(model.universe, step.guard)) lowest += labour.lowest;
    highest += labour.highest;
    atLeast ||= labour.atLeast;
    if (step === undefined || step.place.uri !== document.uri) return [];
    const { line } = document.lines.positionAt(step.place.span.start);
    return [
      {
        position: { line, character: document.lines.lineAt(line).length },
        label: `${atLeast ? '≥ ' : ''}${minutesInWords(lowest, highest)}`,
        paddingLeft: true,
        tooltip: `Labour up to the end of this step${atLeast ? '; some steps have no time' : ''}.`,
      },
    ];
  });
}

/** The number of a step as it is printed, before its first key. */
function numberHints({ model }: OpenGuide, document: Document): InlayHint[] {
  const told = new Set<string>();
  return model.steps.flatMap(({ path, place }): InlayHint[] => {
    if (place.uri !== document.uri || path.includes('/') || told.has(path)) return [];
    told.add(path);
    return [{ position: document.lines.positionAt(place.span.start), label: path, paddingRight: true }];
  });
}

const BOTH_UNITS: ReadonlySet<unknown> = new Set(['torque', 'length', 'mass', 'pressure']);

/** Behind a figure what it is in the unit of the other half of the trade; not where both stand there. */
function unitHints(document: Document): InlayHint[] {
  const { reading, kind, lines, text } = document;
  const { root } = reading;
  if (root === null || kind === null) return [];
  const found: InlayHint[] = [];
  const visit = (node: Node, path: readonly (string | number)[]): void => {
    if (follow(node, reading) !== node) return;
    node.items?.forEach((item, index) => {
      const key = node.keys?.[index];
      const name = key === undefined ? index : keyName(key, reading);
      if (name !== null) visit(item, [...path, name]);
    });
    if (node.kind !== 'scalar' || typeof node.value !== 'string' || !/[0-9]/.test(node.value)) return;
    const dimension = schemaAt(kind, root, reading, path)?.['x-dimension'];
    if (!BOTH_UNITS.has(dimension) || text.slice(node.start, node.end).includes('(')) return;
    const read = parseQuantity(node.value, dimension as 'torque');
    const other = read.ok ? otherUnit(read.quantity) : undefined;
    if (other !== undefined)
      found.push({ position: lines.positionAt(node.end), label: other, paddingLeft: true });
  };
  visit(root, []);
  return found;
}

/** Behind what an operation acts on the state that its step leaves that in, where all variants and sides agree. */
function stateHints(guide: OpenGuide, document: Document): InlayHint[] {
  const found: InlayHint[] = [];
  const { model } = guide;
  const { diagrams } = model.world;
  guide.eachStep((sim, step) => {
    if (step.path.includes('/')) return;
    for (const operation of step.operations)
      for (const target of operation.targets) {
        const states = new Set<string>();
        for (const { item, presence } of stateItemsOf(target)) {
          const within = diagrams.and(diagrams.and(presence, step.guard), model.universe);
          if (within === 0) continue;
          for (const { value } of sim.state.valuesWithin(item, within))
            states.add(changeInWords(keyOf(item), value, value)?.to ?? String(value));
        }
        const [state] = states;
        if (states.size !== 1 || state === undefined) continue;
        found.push({
          position: document.lines.positionAt(target.span.end),
          label: `→ ${state}`,
          paddingLeft: true,
          tooltip: 'The state that this step leaves it in.',
        });
      }
  });
  return found;
}
