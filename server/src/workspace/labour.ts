import { type Labour, labourOf } from '../labour/labour';
import { readStandardTimes } from '../labour/standard-times';
import { find, items } from '../text/access';
import type { Document } from './document';
import { bindGuideOf } from './engine';
import type { Project } from './project';

export interface GuideLabour {
  readonly labour: Labour;
  /** Hours to which printed totals are rounded up. */
  readonly hourStep: number;
  /** Errors in reading and binding, because of which something may be missing. */
  readonly problems: number;
}

/** What a guide takes, by its own times and the standard times that its configuration lists. */
export async function labourOfGuide(project: Project, guide: Document): Promise<GuideLabour> {
  const closure = await project.closureOf(guide);
  const model = bindGuideOf(closure);
  const times = closure.times.flatMap((document) => readStandardTimes(document.uri, document.reading));
  const findings = [...closure.opened(guide).findings, ...model.findings];
  return {
    labour: labourOf(model, sectionTitles(guide), times),
    hourStep: closure.configuration.hourStep,
    problems: findings.filter((finding) => finding.severity === 'error').length,
  };
}

/** The titles of a guide's sections in order; one without a title is called by its number. */
export function sectionTitles(guide: Document): string[] {
  const { reading } = guide;
  const sections = reading.root === null ? undefined : find(reading.root, 'sections', reading);
  if (sections === undefined) return [];
  return items(sections.value, reading).map(({ value }, index) => {
    const title = find(value, 'title', reading)?.value.value ?? find(value, 'id', reading)?.value.value;
    return title === undefined || title === null ? `Section ${index + 1}` : String(title);
  });
}
