import { type InlayHint, InlayHintKind, type Range } from 'vscode-languageserver/lib/common/api.js';
import { stepLabours } from '../labour/labour';
import { readStandardTimes } from '../labour/standard-times';
import type { Document } from '../workspace/document';
import type { OpenGuide } from '../workspace/guides';
import { thingOfTarget } from '../workspace/meaning';
import { answering, type Feature } from './context';
import { minutesInWords } from './minutes';

/** In the text of a guide: the kind that a name which nobody declares is taken for, and the running time after each step. */
export const hints: Feature = {
  capabilities: () => ({ inlayHintProvider: true }),
  register(connection, context) {
    connection.languages.inlayHint.on(
      answering<{ textDocument: { uri: string }; range: Range }, InlayHint[]>(
        context,
        [],
        async ({ textDocument, range }) => {
          const document = await context.document(textDocument.uri);
          if (document === null || !context.settings.values.hints) return [];
          const guide = await context.guides.open(document.uri);
          if (guide === null) return [];
          const inside = ({ position: { line } }: InlayHint) =>
            range.start.line <= line && line <= range.end.line;
          return [...kindHints(guide, document), ...timeHints(guide, document)].filter(inside);
        },
      ),
    );
  },
};

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
  const times = closure.times.flatMap((one) => readStandardTimes(one.uri, one.reading));
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
