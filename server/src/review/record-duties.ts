/** Every rule in force: what it was asked in a guide, and what came of it. */

import type { Finding } from '../findings/finding';
import { counted, listed } from '../findings/words';
import { markOf } from '../guide/variants';
import { TOLD_WHILE_BINDING } from '../model/told-while-binding';
import type { Rule } from '../rules/rule';
import { type CheckRecord, type Duty, dutyInWords, HARMS, type Result } from './record';
import { StepOf, stepsNamed } from './record-places';
import type { RecordSource } from './record-source';

export function dutiesOf(
  source: RecordSource,
): Pick<CheckRecord, 'duties' | 'neverAsked' | 'reading' | 'off' | 'notChosen'> {
  const { rulebook, model, asked, findings, waived, covered, coverage } = source;
  const steps = new StepOf(model);
  const told = new Set(TOLD_WHILE_BINDING);
  const on = [...rulebook.rules.values()].filter(({ id }) => rulebook.on.has(id));
  const duties: Duty[] = [];
  const never = new Map(HARMS.map((harm) => [harm, [] as string[]]));
  const reading: string[] = [];
  for (const rule of on) {
    const { id } = rule;
    const results: Result[] = [];
    const said: string[] = [];
    const tell = (result: Result, words: string, where: string) => {
      results.push(result);
      said.push(where === '' ? words : `${words}, ${where}`);
    };
    const open = findings.filter((finding) => finding.rule === id);
    if (open.length > 0) tell('open', `${open.length} open`, whereOf(open, steps));
    const accepted = waived.flatMap(({ finding }) => (finding.rule === id ? [finding] : []));
    if (accepted.length > 0) tell('waived', `${accepted.length} waived`, whereOf(accepted, steps));
    const cautioned = new Set(
      covered.flatMap((one) => (one.rule === id ? (steps.number(one.event?.step.path) ?? []) : [])),
    );
    if (cautioned.size > 0) tell('covered', 'covered by a caution', stepsNamed(cautioned));
    if (findings.some((finding) => finding.rule === 'internal-fault' && finding.item === id))
      tell('undecided', 'not checked, by a fault of the program', '');
    const missing = new Set(coverage.undecided.flatMap((one) => (one.rule === id ? [one.item] : [])));
    if (missing.size > 0) tell('undecided', `not decided for ${counted(missing.size, 'thing')}`, '');
    const count = asked.get(id);
    if (results.length === 0) {
      if (told.has(id)) {
        reading.push(id);
        continue;
      }
      if (count === undefined) {
        never.get(rule.harm)!.push(id);
        continue;
      }
      tell('held', 'in order', '');
    }
    duties.push({
      rule: id,
      duty: dutyInWords(id),
      reason: rule.reason,
      harm: rule.harm,
      house: !rule.core || source.isHouses(id),
      asked: count === undefined ? (told.has(id) ? null : 0) : count.times,
      steps:
        count === undefined ? 0 : new Set([...count.steps].map((path) => steps.number(path) ?? path)).size,
      variants: count === undefined ? null : markOf(model, count.set),
      results,
      said: listed(said),
    });
  }
  const off = [...rulebook.rules.values()].filter(({ id }) => !rulebook.on.has(id));
  return {
    duties: HARMS.flatMap((harm) => duties.filter((duty) => duty.harm === harm).sort(byResult)),
    neverAsked: HARMS.flatMap((harm) => {
      const rules = never.get(harm)!;
      return rules.length === 0 ? [] : [{ harm, rules: [...rules].sort() }];
    }),
    reading,
    off: off.filter(({ core }) => core).map(({ id, harm }: Rule) => ({ rule: id, harm })),
    notChosen: off.filter(({ core }) => !core).length,
  };
}

/** What a reader is to look at stands first. */
const LOOKED_AT: readonly Result[] = ['open', 'undecided', 'covered', 'waived', 'held'];
const gravest = ({ results }: Duty): number => Math.min(...results.map((one) => LOOKED_AT.indexOf(one)));
const byResult = (a: Duty, b: Duty): number => gravest(a) - gravest(b);

function whereOf(findings: readonly Finding[], steps: StepOf): string {
  return stepsNamed(findings.flatMap(({ operation }) => steps.number(operation) ?? []));
}
