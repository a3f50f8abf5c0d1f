import { counted } from '../findings/words';
import { type Labour, labourOf } from '../labour/labour';
import { readStandardTimes, type StandardTime } from '../labour/standard-times';
import { KindTable } from '../model/kinds';
import type { Model } from '../model/model';
import { find, items } from '../text/access';
import { configurationFindings } from './configuration-findings';
import type { Document } from './document';
import { bindGuideOf } from './engine';
import { relativePath } from './paths';
import type { Closure, Project } from './project';
import { referencesOf } from './references';
import { ofVariants, variantsWith } from './variant';

export interface GuideLabour {
  readonly labour: Labour;
  readonly model: Model;
  readonly times: readonly StandardTime[];
  readonly closure: Closure;
  /** Hours to which printed totals are rounded up. */
  readonly hourStep: number;
  /** Errors in reading and binding, because of which something may be missing. */
  readonly problems: number;
}

/**
 * What a guide takes, by its own times and the standard times that its configuration lists.
 * @param variant traits and options that are fixed, name to value; the totals then speak of those variants alone.
 */
export async function labourOfGuide(
  project: Project,
  guide: Document,
  variant: ReadonlyMap<string, string> = new Map(),
): Promise<GuideLabour> {
  const closure = await project.closureOf(guide);
  const whole = bindGuideOf(closure);
  const model = ofVariants(whole, variantsWith(whole, variant));
  const times = standardTimesOf(closure);
  const findings = [...closure.opened(guide).findings, ...model.findings];
  return {
    labour: labourOfModel(closure, model, times),
    model,
    times,
    closure,
    hourStep: closure.configuration.hourStep,
    problems: findings.filter((finding) => finding.severity === 'error').length,
  };
}

/** What of the files of standard times that `kitproof.yaml` lists cannot be counted, a sentence each. */
export function unreadTimes(closure: Closure): string[] {
  const { configuration, configured } = closure;
  const missing = configurationFindings(configuration, configured, closure.rulebook.rules.keys()).flatMap(
    ({ rule, message, place }) => {
      const role = referenceAt(configuration.document, place.span.start);
      return role === 'times' && (rule === 'missing-file' || rule === 'wrong-document')
        ? [`in kitproof.yaml: ${message} No time of it counts.`]
        : [];
    },
  );
  const broken = closure.times.flatMap((document) => {
    const errors = closure.opened(document).findings.filter(({ severity }) => severity === 'error').length;
    return errors === 0
      ? []
      : [
          `${counted(errors, 'error')} in reading ${relativePath(configuration.folder ?? '', document.uri)}; kitproof check tells. What could be read counts.`,
        ];
  });
  return [...missing, ...broken];
}

const referenceAt = (settings: Document | null, start: number) =>
  settings === null ? undefined : referencesOf(settings).find(({ node }) => node.start === start)?.role;

/** The standard times that count for a guide, of the file that is listed first before those of the next. */
export function standardTimesOf(closure: Closure): StandardTime[] {
  if (closure.times.length === 0) return [];
  const { known, packs } = closure.library;
  const kinds = known?.kinds ?? new KindTable(packs);
  return closure.times.flatMap(({ uri, reading }) =>
    readStandardTimes(uri, reading, (written) => kinds.nameOf(written)),
  );
}

/** What a guide, or what is left of it for some variants, takes with the allowances of its configuration. */
export function labourOfModel(closure: Closure, model: Model, times: readonly StandardTime[]): Labour {
  return labourOf(model, sectionTitles(closure.document), times, closure.configuration.allowance);
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
