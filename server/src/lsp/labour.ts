import { type Labour, labourOf } from '../labour/labour';
import { readStandardTimes, type StandardTime } from '../labour/standard-times';
import { printHours, tidyMinutes } from '../labour/three-point';
import type { Model } from '../model/model';
import type { OpenGuide } from '../workspace/guides';
import { sectionTitles } from '../workspace/labour';
import type { Closure } from '../workspace/project';
import { termInWords } from '../workspace/words';
import type { LabourView } from './guide-view-types';

/** What a guide takes, for the status bar. */
export function labourView({ closure, model }: OpenGuide): LabourView {
  return labourInWords(labourOfModel(closure, model, standardTimesOf(closure)), closure);
}

export function standardTimesOf(closure: Closure): StandardTime[] {
  return closure.times.flatMap((document) => readStandardTimes(document.uri, document.reading));
}

export function labourOfModel(closure: Closure, model: Model, times: readonly StandardTime[]): Labour {
  return labourOf(model, sectionTitles(closure.document), times);
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
