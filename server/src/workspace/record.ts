import { AskedCounter } from '../check/asked';
import type { Place } from '../findings/finding';
import type { CheckRecord, RecordFile, RecordPack } from '../review/record';
import { recordOf } from '../review/record-of';
import { checkDocuments, KeptGuides } from './check';
import type { Document } from './document';
import { drive } from './drive';
import { bindGuideOf } from './engine';
import { checkGuarded } from './guard';
import { isStandardPack } from './packs';
import { folderOf, relativePath } from './paths';
import type { Closure, Project } from './project';
import { printedOf } from './publish';
import { effectiveRules } from './rules';
import { ofVariants, variantsWith } from './variant';

/**
 * The check record of a guide.
 * @param variant traits and options that are fixed, name to value; `VariantUnknown` where the guide has no such thing.
 * @param today the day that waivers are held against, `2026-03-14`.
 * @param version of the program.
 */
export async function recordOfGuide(
  project: Project,
  guide: Document,
  variant: ReadonlyMap<string, string>,
  today: string,
  version: string,
): Promise<CheckRecord> {
  const closure = await project.closureOf(guide);
  const whole = bindGuideOf(closure);
  const model = ofVariants(whole, variantsWith(whole, variant));
  const counter = new AskedCounter(closure.rulebook);
  const result = (await drive(checkGuarded(model, closure.rulebook, today, counter)))!;
  // What is wrong in the documents that it leads to is told with it, and the run that was counted is the one that is told of.
  const kept = new KeptGuides();
  kept.set(closure, today, result);
  const checked = (await checkDocuments(project, [guide.uri], { today, kept }))!;
  // A waiver for other variants than these is of use there.
  const findings =
    variant.size === 0 ? checked.findings : checked.findings.filter(({ rule }) => rule !== 'unused-waiver');
  const folder = closure.configuration.folder ?? folderOf(guide.uri);
  const rules = effectiveRules(await project.rulesAt(guide.uri));
  const documents = documentsOf(closure);
  const all = new Map([...checked.documents, ...documents.map((one) => [one.uri, one] as const)]);
  return recordOf({
    model,
    printed: printedOf(closure, model, variant, checked),
    rulebook: closure.rulebook,
    asked: counter.result(),
    covered: counter.covered(),
    findings,
    waived: checked.waived,
    coverage: checked.coverage,
    files: await Promise.all(
      documents.map(
        async ({ uri, kind, text }): Promise<RecordFile> => ({
          file: relativePath(folder, uri),
          kind: KINDS[kind ?? ''] ?? 'no document of ours',
          hash: await hashOf(text),
        }),
      ),
    ),
    packs: packsOf(rules, folder),
    asOf: today,
    version,
    isHouses: (id) => {
      const rule = closure.rulebook.rules.get(id);
      return rule !== undefined && !isStandardPack(rule.place.uri);
    },
    lineOf: ({ uri, span }: Place) => {
      const line = all.get(uri)?.lines.lineColumnAt(span.start).line;
      return `${relativePath(folder, uri)}${line === undefined ? '' : `:${line}`}`;
    },
  });
}

const KINDS: Readonly<Record<string, string>> = {
  install: 'guide',
  vehicle: 'vehicle',
  kit: 'kit',
  rules: 'rules of the house',
  times: 'standard times',
  config: 'settings',
};

/** The guide, what it leads to, and what says how it is checked; each once. */
function documentsOf({ document, documents, configuration, housePacks }: Closure): Document[] {
  const settings = configuration.document;
  return [
    ...new Set([
      document,
      ...[...documents.values()].filter(({ uri }) => !isStandardPack(uri)),
      ...(settings === null ? [] : [settings]),
      ...housePacks,
    ]),
  ];
}

function packsOf(rules: ReturnType<typeof effectiveRules>, folder: string): RecordPack[] {
  const found = new Map<string, { pack: string; file: string | null; rules: number; on: number }>();
  for (const { rule, on } of rules) {
    const { uri } = rule.place;
    const file = isStandardPack(uri) ? null : relativePath(folder, uri);
    const one = found.get(uri) ?? { pack: rule.pack, file, rules: 0, on: 0 };
    found.set(uri, one);
    one.rules++;
    if (on) one.on++;
  }
  return [...found.values()];
}

/** Digits enough to tell texts apart that one workshop has, and few enough to be compared by eye. */
const DIGITS = 12;

async function hashOf(text: string): Promise<string> {
  const bytes = await crypto.subtle.digest('SHA-256', new TextEncoder().encode(text));
  return [...new Uint8Array(bytes)]
    .map((byte) => byte.toString(16).padStart(2, '0'))
    .join('')
    .slice(0, DIGITS);
}
