import { type GuideSource, printedGuide } from '../guide/compose';
import type { PrintedGuide } from '../guide/printed';
import type { Model } from '../model/model';
import { checkDocuments, type ProjectCheck } from './check';
import type { Document } from './document';
import { bindGuideOf } from './engine';
import { labourOfModel, standardTimesOf } from './labour';
import { folderOf, resolvePath } from './paths';
import type { Closure, Project } from './project';
import { ofVariants, variantsWith } from './variant';

/**
 * All that is printed of a guide.
 * @param variant traits and options that are fixed, name to value; `VariantUnknown` where the guide has no such thing.
 * @param today the day that waivers are held against, `2026-03-14`.
 */
export async function publishedGuide(
  project: Project,
  guide: Document,
  variant: ReadonlyMap<string, string>,
  today: string,
): Promise<PrintedGuide> {
  const closure = await project.closureOf(guide);
  const whole = bindGuideOf(closure);
  const model = ofVariants(whole, variantsWith(whole, variant));
  return printedOf(closure, model, variant, await checkDocuments(project, [guide.uri], { today }));
}

/** What is printed of a guide that is bound and checked. */
export function printedOf(
  closure: Closure,
  model: Model,
  variant: ReadonlyMap<string, string>,
  checked: ProjectCheck | null,
): PrintedGuide {
  const { library, configuration } = closure;
  const declaring = [...closure.documents.values()]
    .filter(({ kind }) => kind === 'vehicle' || kind === 'kit')
    .map((document) => closure.opened(document));
  const source: GuideSource = {
    model,
    variant,
    document: closure.opened(closure.document),
    declaring,
    open: (uri) => library.document(uri),
    resolve: (from, path) => resolvePath(folderOf(from), path),
    check: { coverage: checked?.coverage ?? NOTHING_CHECKED },
    findings: checked?.findings ?? [],
    labour: labourOfModel(closure, model, standardTimesOf(closure)),
    hourStep: configuration.hourStep,
  };
  return printedGuide(source);
}

const NOTHING_CHECKED = { steps: 0, checkedSteps: 0, unchecked: [], undecided: [], waived: 0 };
