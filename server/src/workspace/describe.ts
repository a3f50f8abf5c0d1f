import { knownJoint } from '../calc/joint';
import { counted, listed } from '../findings/words';
import type { Aid, Joint, Line, Model, Part, Target, Thing } from '../model/model';
import { spelledOut } from '../rules/in-words';
import type { Rule } from '../rules/rule';
import { otherUnit, printQuantity } from '../units/format';
import type { Quantity } from '../units/quantity';
import type { Document } from './document';
import { baseName } from './paths';
import { handsInWords, spannerInWords, tyreInWords, tyreReplaced } from './trade-facts';
import { lengthInWords, trackBarInWords } from './travel-facts';

/** What is known of a thing, a fact a line. */
export function thingInWords(thing: Thing, model: Model): string[] {
  return thing.type === 'part' ? partInWords(thing, model) : lineInWords(thing, model);
}

function commonInWords(thing: Thing, model: Model): string[] {
  const facts: string[] = [];
  const what = thing.type === 'part' ? 'part' : 'line';
  if (thing.origin === 'implied') {
    facts.push(
      thing.kind === null
        ? `No file declares this ${what}; its kind could not be guessed from its name.`
        : `No file declares this ${what}; from its name it is taken for a ${thing.kind}.`,
    );
  } else {
    const file = thing.declared === null ? null : baseName(thing.declared.uri);
    facts.push(
      `${thing.kind === null ? `A ${what}` : `A ${thing.kind}`} of the ${thing.origin}${file === null ? '' : ` (${file})`}.`,
    );
  }
  if (thing.kinds.length > 1) facts.push(`Kinds: ${thing.kinds.join(', ')}.`);
  if (thing.instances.length > 1)
    facts.push(
      `${counted(thing.instances.length, 'place')}: ${thing.instances.map(({ label }) => label).join(', ')}.`,
    );
  if (thing.replaces.length > 0) facts.push(`Replaces ${listed(thing.replaces.map(({ name }) => name))}.`);
  if (thing.origin === 'kit') facts.push(`${thing.quantity} in the box.`);
  if (!model.world.diagrams.implies(model.universe, thing.presence)) facts.push('Not in every variant.');
  return facts;
}

function partInWords(part: Part, model: Model): string[] {
  const facts = commonInWords(part, model);
  if (part.joins.length > 0)
    facts.push(`Joins ${listed(part.joins.map((one) => (typeof one === 'string' ? one : one.name)))}.`);
  if (part.mass !== null) facts.push(`Mass ${part.mass} kg.`, ...handsInWords(part.mass));
  if (part.tyre !== null) facts.push(...tyreInWords(part.tyre, tyreReplaced(part)));
  if (part.droop !== null)
    facts.push(
      `Goes down ${part.droop} mm from where it stands${part.bump === null ? '' : `, and up ${part.bump} mm`}.`,
    );
  facts.push(...trackBarInWords(part, model.world));
  if (part.drop !== null) facts.push(`Drops ${part.drop} mm with nothing limiting it.`);
  if (part.freeAt !== null) facts.push(`Free ${part.freeAt} mm below hanging.`);
  if (part.limitedBy.length > 0)
    facts.push(
      `Its drop is limited by ${listed(part.limitedBy.map((chain) => listed(chain.map(nameOf), 'then')))}.`,
    );
  for (const { how, part: over } of part.coveredBy) facts.push(`Stands ${how} ${over.name}.`);
  for (const joint of part.joints.values()) {
    const torque = joint.torque === null ? '' : `, ${figureInWords(joint.torque)}`;
    facts.push(`Joint \`${joint.name}\`: ${counted(joint.bolts, 'bolt')}${torque}.`);
  }
  return facts;
}

const nameOf = (one: Part | Joint): string => (one.type === 'joint' ? one.full : one.name);

function lineInWords(line: Line, model: Model): string[] {
  const facts = commonInWords(line, model);
  const ends = line.ends.filter((end) => end !== '');
  if (ends.length > 0) facts.push(`Ends: ${listed(ends)}.`);
  if (line.spans.length > 0)
    facts.push(`Spans ${listed(line.spans.map((one) => (typeof one === 'string' ? one : one.name)))}.`);
  if (line.slack !== null) facts.push(`Slack ${line.slack} mm below hanging.`);
  if (line.slackFree !== null) facts.push(`${line.slackFree} mm with its bracket off.`);
  facts.push(...lengthInWords(line));
  if (line.heldBy !== null) facts.push(`Held by ${line.heldBy.name}.`);
  for (const [path, slack] of line.paths)
    facts.push(`Path \`${path}\`${slack === null ? '' : `: ${slack} mm`}.`);
  if (line.retracts) facts.push('It runs back when it is let go: hold it before disconnecting.');
  return facts;
}

/** What is known of a joint, and where its figure comes from. */
export function jointInWords(joint: Joint, model: Model): string[] {
  const facts = [`${counted(joint.bolts, 'bolt')} of ${joint.part.name}, on each side it has.`];
  const sizes = [
    joint.thread,
    joint.class === null ? null : `class ${joint.class}`,
    joint.hex === null ? null : `hex ${joint.hex}`,
    joint.counterhold === null ? null : `held with ${joint.counterhold}`,
  ].filter((one) => one !== null);
  if (sizes.length > 0) facts.push(`${sizes.join(', ')}.`);
  facts.push(...spannerInWords(joint));
  if (joint.nut !== null) facts.push(`Nut: ${joint.nut}.`);
  if (joint.stack.length > 0) facts.push(`Stack, in order: ${joint.stack.join(', ')}.`);
  if (joint.bushed) facts.push('Bonded bush: final torque at ride height.');
  if (joint.loosenFirst !== null) facts.push('To be loosened on its own, on the ground.');
  if (joint.singleUse.size > 0)
    facts.push(`Used up: ${listed([...joint.singleUse].map(([piece, when]) => `${piece} once ${when}`))}.`);
  if (joint.torque === null) facts.push(joint.handTight ? 'Tightened by hand.' : 'No file gives its torque.');
  else facts.push(`Torque ${figureInWords(joint.torque)}, ${sourceOf(joint, model)}.`);
  facts.push(...usualTorque(joint));
  if (joint.takesOver !== null) facts.push(`Takes over ${joint.takesOver.joint.full}.`);
  return facts;
}

/** What a joint of such a thread and class usually takes, whatever its data say; nothing where these do not say enough. */
export function usualTorque({ thread, class: strength, lubricated, stretch }: Joint): string[] {
  const known = knownJoint({
    thread: thread ?? undefined,
    class: strength ?? undefined,
    lubricated: lubricated === true,
    stretch,
  });
  if (!known.ok) return [];
  const { low, high } = known.joint.expected;
  const range = { low: Math.round(low), high: Math.round(high) };
  const quantity = {
    ...range,
    nominal: (low + high) / 2,
    dimension: 'torque',
    unit: 'N·m',
    symbol: 'N·m',
  } as const;
  return [
    `${thread} of class ${strength} usually takes ${figureInWords(quantity)}, ${lubricated === true ? 'oiled' : 'as delivered'}; the maker's figure comes first.`,
  ];
}

/** The file that a joint's figure comes from. */
export function sourceOf(joint: Joint, model: Model): string {
  const from = joint.declared ?? joint.part.declared;
  if (from === null) return 'from its kind';
  const own = joint.declared === null ? 'from its kind, ' : 'from ';
  return `${own}${baseName(from.uri)}${from.uri === model.uri ? ' itself' : ''}`;
}

/** `90 N·m (66 lbf·ft)`. */
export function figureInWords(quantity: Quantity): string {
  const other = otherUnit(quantity);
  return other === undefined ? printQuantity(quantity) : `${printQuantity(quantity)} (${other})`;
}

export function aidInWords(aid: Aid): string[] {
  if (!aid.known) return ['No pack knows this aid.'];
  const can = [
    aid.raises ? 'raises' : null,
    aid.carries ? 'carries' : null,
    aid.lowers ? 'lowers' : null,
    aid.holds ? 'holds' : null,
    aid.compresses ? 'compresses a spring' : null,
  ].filter((one) => one !== null);
  const facts = can.length === 0 ? [] : [`It ${listed(can)}.`];
  facts.push(
    aid.workUnder ? 'A person may work beneath it.' : 'Nobody may work beneath what it carries alone.',
  );
  if (aid.rating !== null) facts.push(`Rated for ${aid.rating} kg.`);
  return facts;
}

export function ruleInWords(rule: Rule, on: boolean): string[] {
  const { looksAt, found, excused } = spelledOut(rule);
  const asks = rule.family === 'built-in' ? [] : [`Looks at ${looksAt}.`, `Found ${found}.`];
  return [
    rule.reason,
    ...asks,
    ...(excused === null ? [] : [`Excused ${excused}.`]),
    `Harm: ${rule.harm}. ${on ? 'On' : 'Off'} here; ${rule.core ? 'on' : 'off'} unless chosen. Pack: ${rule.pack}.`,
    `Source: ${rule.source}.`,
  ];
}

/** A one-line description of a target, for a list. */
export function targetInShort(target: Target): string {
  switch (target.type) {
    case 'part':
      return `${target.part.kind ?? 'part'}${target.part.origin === 'implied' ? ' (guessed)' : `, ${target.part.origin}`}`;
    case 'joint':
      return `joint${target.joint.torque === null ? '' : `, ${printQuantity(target.joint.torque)}`}`;
    case 'line':
      return target.lines[0]?.kind ?? 'line';
    default:
      return target.type;
  }
}

/** The text of a document that a value is written by. */
export const writtenIn = (
  document: Document,
  node: { readonly start: number; readonly end: number },
): string => document.text.slice(node.start, node.end);
