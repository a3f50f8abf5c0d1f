import type { Place } from '../findings/finding';
import type { Document } from '../workspace/document';
import { isStandardPack } from '../workspace/packs';
import { baseName, relativePath, resolvePath } from '../workspace/paths';
import { type PackTrial, tryPacks } from '../workspace/rules';
import { EXIT, type Exit, ReadError } from './io';
import { Progress } from './progress';
import { nameFor, type RulesPage, widthOfPage } from './rules-page';
import { targetsOf } from './targets';
import { printable, wrap } from './width';
import { counted, listed } from './words';

/** `kitproof rules test`: the examples of packs, run. */
export async function testRules(words: readonly string[], page: RulesPage): Promise<Exit> {
  const { io, project, colours } = page;
  const packs = words.length === 0 ? await configuredPacks(page) : await namedPacks(words, page);
  const progress = new Progress(io);
  const results = await tryPacks(project, packs, {
    progress: (done, all, rule) => progress.show('Trying', done, all, rule),
  }).finally(() => progress.end());
  for (const result of results) io.out(`${blockOf(result, page).join('\n')}\n\n`);
  const trials = results.flatMap((result) => result.trials);
  const failed = trials.filter(({ faults }) => faults.length > 0).length;
  const rules = results.reduce((count, result) => count + result.rules, 0);
  const broken = results.some(({ mistakes }) => mistakes > 0);
  const verdict =
    failed === 0
      ? broken || trials.length === 0
        ? colours.red(broken ? 'the pack itself is to be mended first' : 'there is nothing to try')
        : colours.green('each shows what it should')
      : colours.red(
          `${failed === 1 ? '1 does' : `${failed} do`} not show what ${failed === 1 ? 'it' : 'they'} should`,
        );
  io.out(`${counted(rules, 'rule')}, ${counted(trials.length, 'example')}: ${verdict}.\n`);
  return failed > 0 || broken ? EXIT.found : EXIT.clean;
}

/** The packs that the configuration lists, and the standard ones. */
async function configuredPacks({ io, project }: RulesPage): Promise<(Document | null)[]> {
  const { configuration, configured, housePacks } = await project.rulesAt(await nameFor(io, undefined));
  const gone = configuration.packs.filter((name) => configured.get(name)?.kind !== 'rules');
  if (gone.length > 0)
    throw new ReadError(
      `${listed(gone.map((name) => relativePath(io.folder, name)))}, which kitproof.yaml lists, ${gone.length === 1 ? 'is no rule pack' : 'are no rule packs'} or not there.`,
    );
  return [...housePacks, null];
}

/** Packs that are named, and those in the folders and patterns that are named. */
async function namedPacks(words: readonly string[], { io, project }: RulesPage): Promise<Document[]> {
  for (const word of words) {
    const name = resolvePath(io.folder, word);
    if ((await io.files.kind(name)) === 'file' && (await project.open(name))?.kind !== 'rules')
      throw new ReadError(`${word} is no rule pack: a rule pack begins with "kitproof: rules/1".`);
  }
  const { names } = await targetsOf(words, io, project, () => {});
  const documents = await Promise.all(names.map((name) => project.open(name)));
  const packs = documents.filter((document) => document?.kind === 'rules');
  if (packs.length === 0) throw new ReadError(`There is no rule pack in ${words.join(', ')}.`);
  return packs as Document[];
}

function blockOf(result: PackTrial, { io, colours }: RulesPage): string[] {
  const { pack, rules, trials, lacking, mistakes } = result;
  const columns = widthOfPage(io);
  const path = pack === null ? 'standard packs' : relativePath(io.folder, pack.uri);
  const about = `${counted(rules, 'rule')}, ${counted(trials.length, 'example')}`;
  const lines = [`${colours.bold(printable(path))}  ${colours.dim(about)}`];
  const say = (text: string) => lines.push(...wrap(printable(text), columns - 2).map((line) => `  ${line}`));
  for (const { example, faults } of trials)
    for (const { message, place } of faults) {
      lines.push(`  ${colours.red(example.rule.id)}  ${colours.dim(whereIs(place, result, io.folder))}`);
      lines.push(...wrap(printable(message), columns - 4).map((line) => `    ${line}`));
    }
  if (lacking.length > 0) {
    const names = lacking.map(({ rule, what }) =>
      what.length === 2 ? rule.id : `${rule.id} (no ${what[0]} one)`,
    );
    say(`Without examples: ${listed(names)}.`);
  }
  if (mistakes > 0)
    say(`The pack itself has ${counted(mistakes, 'mistake')}; kitproof check ${path} tells them.`);
  return lines;
}

function whereIs({ uri, span }: Place, { documents }: PackTrial, folder: string): string {
  const line = (documents.get(uri)?.lines.positionAt(span.start).line ?? 0) + 1;
  return `${isStandardPack(uri) ? baseName(uri) : relativePath(folder, uri)}:${line}`;
}
