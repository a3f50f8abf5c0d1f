import { type Hover, MarkupKind } from 'vscode-languageserver/lib/common/api.js';
import { listed, variantsInWords } from '../findings/words';
import type { BoundOperation, Target } from '../model/model';
import { thingOfTarget } from '../model/target';
import { rulesOf } from '../rules/rule';
import { verbDescriptions } from '../schema/describe';
import { otherUnit } from '../units/format';
import { parseQuantity } from '../units/quantity';
import { type At, lookAt, placeholderAt, traitAt } from '../workspace/at';
import {
  aidInWords,
  figureInWords,
  jointInWords,
  ruleInWords,
  sourceOf,
  thingInWords,
  usualTorque,
} from '../workspace/describe';
import type { OpenGuide } from '../workspace/guides';
import { aidNamed, hardwareNamed, targetAt, targetNamed } from '../workspace/meaning';
import { type StateWords, stateOf } from '../workspace/moment';
import type { Closure } from '../workspace/project';
import { ruleWordAbout } from '../workspace/rule-words';
import { tradeAt } from '../workspace/trade-at';
import { holeInWords } from '../workspace/trade-facts';
import { answering, type Feature, rangeOf } from './context';

/** What a word is, what is known of it, and how it stands before and after this step. */
export const hover: Feature = {
  capabilities: () => ({ hoverProvider: true }),
  register(connection, context) {
    connection.onHover(
      answering<
        { textDocument: { uri: string }; position: { line: number; character: number } },
        Hover | null
      >(context, null, async ({ textDocument, position }) => {
        const document = await context.document(textDocument.uri);
        if (document === null) return null;
        const offset = document.lines.offsetAt(position);
        const at = lookAt(document, offset);
        if (at === null) return null;
        const guide = await context.guides.open(document.uri);
        const closure = guide?.closure ?? (await context.project.closureOf(document));
        const inText = placeholderAt(document, offset);
        if (guide !== null && inText !== null && at.keys.at(-1) === 'text') {
          const said = wordsOfPlaceholder(guide, inText.word, inText.name, at);
          return said === null ? null : { contents: markdown(said), range: rangeOf(document.lines, inText) };
        }
        const said = wordsAt(guide, closure, at);
        return said.length === 0
          ? null
          : { contents: markdown(said), range: rangeOf(document.lines, at.node) };
      }),
    );
  },
};

const markdown = (paragraphs: readonly string[]) => ({
  kind: MarkupKind.Markdown,
  value: paragraphs.join('\n\n'),
});

/** What the pointer on a name of a guide would tell, in Markdown, as in a step; null where it is no name. */
export function nameTold(guide: OpenGuide, name: string, step: string | null): string | null {
  const target = targetNamed(guide.model, name);
  if (target !== null) return markdown(targetInWords(guide, step, target)).value;
  const aid = aidNamed(guide.model, name);
  return aid === null ? null : markdown([`**${plain(aid.name)}**`, list(aidInWords(aid))]).value;
}

/** Facts as a list. Names of users' files may hold anything, so what markdown would read is taken out. */
const list = (facts: readonly string[]): string => facts.map((fact) => `- ${plain(fact)}`).join('\n');
const plain = (text: string): string => text.replaceAll(/[<>[\]*_#|\\]/g, (mark) => `\\${mark}`);

function wordsAt(guide: OpenGuide | null, closure: Closure, at: At): string[] {
  if (at.written === null) return described(at);
  const operation = guide === null ? null : operationAt(guide, at);
  if (at.onKey && operation !== null && at.written === operation.verb) {
    const verb = verbDescriptions().find(({ verb: name }) => name === at.written);
    return [
      `**${at.written}**`,
      verb?.description ?? '',
      ...(guide === null ? [] : statesOf(guide, at.step, operation.targets)),
    ].filter(Boolean);
  }
  if (at.names === 'rule') {
    const rule = closure.rulebook.rules.get(at.written);
    return rule === undefined
      ? []
      : [`**${rule.id}**`, list(ruleInWords(rule, closure.rulebook.on.has(rule.id)))];
  }
  if (guide !== null) {
    const said = wordsInGuide(guide, at, operation);
    if (said !== null) return said;
  }
  const inRule = closure.document.kind === 'rules' ? wordsInRule(closure, at) : null;
  if (inRule !== null) return inRule;
  const kind = at.names === 'kind' ? kindInWords(closure, at.written) : null;
  if (kind !== null) return kind;
  const figure = figureAt(at);
  const trade = tradeAt(at, closure);
  return [
    ...(figure === null ? [] : [figure]),
    ...(trade.length === 0 ? [] : [list(trade)]),
    ...described(at),
  ];
}

/** In a pack: the rule whose id it is, or what a word of the rule language means; null where it is none. */
function wordsInRule(closure: Closure, at: At): string[] | null {
  const { document, rulebook, library } = closure;
  const written = at.written!;
  if (at.keys[0] === 'rules' && at.keys[2] === 'id' && at.keys.length === 3 && !at.onKey) {
    const rule = rulesOf(closure.opened(document)).find(({ id }) => id === written);
    if (rule === undefined) return null;
    const counts = rulebook.on.has(rule.id) && rulebook.rules.get(rule.id)?.place.uri === document.uri;
    return [`**${plain(rule.id)}**`, list(ruleInWords(rule, counts))];
  }
  if (at.names === null) return null;
  const place = { document, keys: at.onKey ? at.keys.slice(0, -1) : at.keys };
  const about = ruleWordAbout(at.names, written, place, { packs: library.packs, rulebook });
  return about === null ? null : [`**${plain(written)}**`, plain(about)];
}

/** What the schema says of a key, or of the value under it. */
function described(at: At): string[] {
  const key = at.path.at(-1)?.key;
  const text = (at.schema ?? at.around)?.description;
  if (text === undefined) return [];
  return typeof key === 'string' ? [`**${plain(key)}**`, text] : [text];
}

function figureAt({ schema, written, onKey }: At): string | null {
  const dimension = schema?.['x-dimension'];
  if (dimension === undefined || dimension === 'any' || onKey || written === null) return null;
  const read = parseQuantity(written, dimension as never);
  if (!read.ok) return null;
  return otherUnit(read.quantity) === undefined ? null : `**${figureInWords(read.quantity)}**`;
}

function operationAt({ model }: OpenGuide, at: At): BoundOperation | null {
  if (at.operation === null) return null;
  for (const step of model.steps)
    for (const operation of step.operations) if (operation.path === at.operation) return operation;
  return null;
}

function wordsInGuide(guide: OpenGuide, at: At, operation: BoundOperation | null): string[] | null {
  const { model, document } = guide;
  const trait = traitAt(document, at);
  if (trait !== null) {
    const variable = model.world.variables.find(({ name }) => name === trait.name);
    if (variable !== undefined)
      return [
        `**${plain(variable.name)}**`,
        `${kindOfVariable(variable.kind)}: ${listed(variable.values, 'or')}.`,
      ];
  }
  if (at.names === 'aid' && !at.onKey) {
    const aid = aidNamed(model, at.written!);
    if (aid !== null) return [`**${plain(aid.name)}**`, list(aidInWords(aid))];
  }
  if (operation !== null && !at.onKey && at.keys.includes('to') && operation.verb === 'torque')
    return torqueInWords(guide, at, operation);
  if (at.onKey && at.names === null) return null;
  const target = at.names === null ? null : targetAt(model, at);
  if (target !== null) return targetInWords(guide, at.step, target, at.written!);
  const hardware = hardwareNamed(model, at.written!);
  if (hardware === null) return null;
  const serves = hardware.serves.map(({ joint, piece }) =>
    piece === null ? joint.full : `${joint.full} (${piece})`,
  );
  return [
    `**${plain(hardware.name)}**`,
    list([
      'Hardware of the kit.',
      ...(hardware.quantity === null ? [] : [`${hardware.quantity} in the box.`]),
      ...(serves.length === 0 ? [] : [`For ${listed(serves)}.`]),
    ]),
  ];
}

const kindOfVariable = (kind: string): string =>
  kind === 'trait'
    ? 'A trait of the vehicle'
    : kind === 'option'
      ? 'An option of the kit'
      : 'A branch of this guide';

function targetInWords(
  guide: OpenGuide,
  step: string | null,
  target: Target,
  written = target.written,
): string[] {
  const { model } = guide;
  const thing = thingOfTarget(target);
  const facts =
    target.type === 'joint' || target.type === 'piece'
      ? jointInWords(target.joint, model)
      : target.type === 'hole'
        ? holeInWords(target.hole)
        : thing !== null
          ? thingInWords(thing, model)
          : [];
  return [`**${plain(target.written || written)}**`, list(facts), ...statesOf(guide, step, [target])].filter(
    Boolean,
  );
}

/** How targets stand before and after the step. */
function statesOf(guide: OpenGuide, step: string | null, targets: readonly Target[]): string[] {
  if (step === null) return [];
  const before = guide.before(step);
  const after = guide.before(step, Number.POSITIVE_INFINITY);
  if (before === null || after === null) return [];
  const rows = targets.slice(0, 8).flatMap((target) => {
    const was = statesInWords(stateOf(before, target));
    const is = statesInWords(stateOf(after, target));
    if (was === '' && is === '') return [];
    const name = targets.length > 1 ? `${target.written}: ` : '';
    return [
      was === is
        ? `${name}${was} before and after this step.`
        : `${name}${was} before this step; ${is} after it.`,
    ];
  });
  return rows.length === 0 ? [] : [list(rows)];
}

function statesInWords(states: readonly StateWords[]): string {
  return states
    .slice(0, 6)
    .map(({ words, sides, variants }) => {
      const where = [sides.length === 1 ? sides[0]! : null, variantsInWords(variants)].filter(
        (one) => one !== null,
      );
      return where.length === 0 ? words : `${words} (${where.join(', ')})`;
    })
    .join(', or ');
}

function torqueInWords(guide: OpenGuide, at: At, operation: BoundOperation): string[] | null {
  const read = parseQuantity(at.written!, 'torque');
  const facts = operation.targets.flatMap((target) => {
    if (target.type !== 'joint') return [];
    const { joint } = target;
    return joint.torque === null
      ? [`No file gives a torque for ${joint.full}; this figure is the guide's own.`]
      : [
          `${joint.full} has ${figureInWords(joint.torque)}, ${sourceOf(joint, guide.model)}.`,
          ...usualTorque(joint),
        ];
  });
  if (at.written === 'maker')
    return ['**The vehicle maker’s data**', ...(facts.length === 0 ? [] : [list(facts)])];
  if (!read.ok) return null;
  return [`**${figureInWords(read.quantity)}**`, ...(facts.length === 0 ? [] : [list(facts)])];
}

function kindInWords(closure: Closure, name: string): string[] | null {
  for (const pack of [...closure.library.packs].reverse()) {
    if (pack.kind !== 'rules') continue;
    const kind = (pack.value.kinds as Record<string, unknown> | undefined)?.[name];
    if (kind === undefined) continue;
    const said = Object.entries(kind as object).filter(([, value]) => typeof value !== 'object');
    return [
      `**${plain(name)}**`,
      list([`A kind of the pack ${pack.value.pack}.`, ...said.map(([key, value]) => `${key}: ${value}.`)]),
    ];
  }
  return null;
}

function wordsOfPlaceholder(guide: OpenGuide, word: string, name: string, at: At): string[] | null {
  const { model } = guide;
  if (word === 'step') {
    const step = model.steps.find(({ id }) => id === name);
    return step === undefined ? null : [`**Step ${step.path}**`, plain(step.title)];
  }
  const target = targetNamed(model, name);
  return target === null ? null : targetInWords(guide, at.step, target);
}
