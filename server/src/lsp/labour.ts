import type { Labour } from '../labour/labour';
import { printHours, tidyMinutes } from '../labour/three-point';
import type { OpenGuide } from '../workspace/guides';
import { labourOfModel, standardTimesOf } from '../workspace/labour';
import type { Closure } from '../workspace/project';
import { termInWords } from '../workspace/words';
import type { LabourView } from './guide-view-types';

/** What a guide takes, for the status bar. */
export function labourView({ closure, model }: OpenGuide): LabourView {
  return labourInWords(labourOfModel(closure, model, standardTimesOf(closure)), closure);
}

export function labourInWords(labour: Labour, closure: Closure): LabourView {
  const { total, atLeast } = labour;
  const { hourStep } = closure.configuration;
  return {
    title: labour.title,
    lowest: tidyMinutes(total.lowest),
    highest: tidyMinutes(total.highest),
    elapsed: tidyMinutes(total.elapsed),
    atLeast,
    unknown: labour.unknown.length,
    lowestPrinted: printHours(total.lowest, hourStep),
    highestPrinted: printHours(total.highest, hourStep),
    elapsedPrinted: printHours(total.elapsed, hourStep),
    lowestWith: total.lowestWith.map(({ name, value }) => termInWords(name, [value])),
    highestWith: total.highestWith.map(({ name, value }) => termInWords(name, [value])),
  };
}
