import { termInWords } from '../findings/words';
import { factorOf, printShare, shareOf } from '../labour/allowance';
import { type Labour, scaledRange } from '../labour/labour';
import { printHours, tidyMinutes } from '../labour/three-point';
import type { OpenGuide } from '../workspace/guides';
import { labourOfModel, standardTimesOf } from '../workspace/labour';
import type { Closure } from '../workspace/project';
import type { LabourView } from './guide-view-types';

/** What a guide takes, for the status bar. */
export function labourView({ closure, model }: OpenGuide): LabourView {
  return labourInWords(labourOfModel(closure, model, standardTimesOf(closure)), closure);
}

export function labourInWords(labour: Labour, closure: Closure): LabourView {
  const { total, quoted, atLeast, allowance, timed, ranged } = labour;
  const { hourStep } = closure.configuration;
  const share = shareOf(allowance);
  const hours = (minutes: number) => printHours(minutes, hourStep);
  return {
    title: labour.title,
    lowest: tidyMinutes(total.lowest),
    highest: tidyMinutes(total.highest),
    elapsed: tidyMinutes(total.elapsed),
    atLeast,
    unknown: labour.unknown.length,
    lowestPrinted: hours(quoted.atLowest.at50),
    highestPrinted: hours(quoted.atHighest.at50),
    lowestAt90: hours(quoted.atLowest.at90),
    highestAt90: hours(quoted.atHighest.at90),
    elapsedPrinted: hours(quoted.elapsed),
    allowance: share === 0 ? null : `${printShare(share)} of ${allowance.on.replace('-', ' ')}`,
    timed,
    ranged,
    skills: labour.skills.map((one) => {
      const { atLowest, atHighest } = scaledRange(one, factorOf(allowance));
      return {
        skill: one.skill,
        lowestPrinted: hours(atLowest.at50),
        highestPrinted: hours(atHighest.at50),
        atLeast: one.atLeast,
      };
    }),
    lowestWith: total.lowestWith.map(({ name, value }) => termInWords(name, [value])),
    highestWith: total.highestWith.map(({ name, value }) => termInWords(name, [value])),
  };
}
