import { factorOf } from '../../labour/allowance';
import type { Range } from '../../labour/labour';
import type { Figures } from '../../labour/spread';
import { tidyMinutes } from '../../labour/three-point';
import type { LabourReport } from './report';

/** The report for programs, in minutes. */
export function reportJson({ labour, file, variant, unknown, steps }: LabourReport): string {
  const { total, quoted, allowance, timed, ranged } = labour;
  const report = {
    version: 1,
    guide: file,
    ...(variant.size === 0 ? {} : { variant: Object.fromEntries(variant) }),
    atLeast: labour.atLeast,
    total: { ...rangeOf(total), elapsed: tidyMinutes(total.elapsed) },
    allowance: {
      on: allowance.on,
      shares: Object.fromEntries(allowance.shares.map(({ name, share }) => [name, tidyMinutes(share)])),
      factor: tidyMinutes(factorOf(allowance)),
    },
    quoted: { ...rangeOf(quoted), elapsed: tidyMinutes(quoted.elapsed) },
    sections: labour.sections.map((section) => ({
      title: section.title,
      ...rangeOf(section),
      atLeast: section.atLeast,
    })),
    skills: labour.skills.map((skill) => ({
      skill: skill.skill,
      ...rangeOf(skill),
      atLeast: skill.atLeast,
    })),
    timedSteps: timed,
    stepsWithRange: ranged,
    unknown: unknown.map(({ file, line, step }) => ({ file, line, step })),
    ...(steps === null
      ? {}
      : {
          steps: steps.map(({ lowest, highest, minutes, ...step }) => ({
            ...step,
            lowest: tidyMinutes(lowest),
            highest: tidyMinutes(highest),
            minutes: minutes.map(({ elapsed, labour, ...one }) => ({
              ...one,
              elapsed: tidyMinutes(elapsed),
              labour: tidyMinutes(labour),
            })),
          })),
        }),
  };
  return `${JSON.stringify(report, null, 2)}\n`;
}

/** `lowest` and `highest` are expected minutes; what else is known of them stands beside. */
function rangeOf({ lowest, highest, atLowest, atHighest }: Range) {
  return {
    lowest: tidyMinutes(lowest),
    highest: tidyMinutes(highest),
    atLowest: figures(atLowest),
    atHighest: figures(atHighest),
  };
}

function figures({ deviation, at50, at90, least, most }: Figures) {
  return {
    p50: tidyMinutes(at50),
    p90: tidyMinutes(at90),
    deviation: tidyMinutes(deviation),
    least: tidyMinutes(least),
    most: tidyMinutes(most),
  };
}
