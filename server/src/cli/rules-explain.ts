import { TOLD_WHILE_BINDING } from '../model/told-while-binding';
import { spelledOut } from '../rules/in-words';
import type { Rule } from '../rules/rule';
import { printYaml } from '../text/print';
import type { Example } from '../workspace/examples';
import { isStandardPack } from '../workspace/packs';
import { relativePath } from '../workspace/paths';
import { effectiveRules, examplesOfRule, type RuleInForce } from '../workspace/rules';
import { nearestWord } from './command';
import { EXIT, type Exit, UsageError } from './io';
import { harmIn, nameFor, type RulesPage, widthOfPage } from './rules-page';
import { padded, printable, wrap } from './width';

/** `kitproof rules explain`: all that a pack says of one rule. */
export async function explainRule(words: readonly string[], page: RulesPage): Promise<Exit> {
  const [id, path, ...rest] = words;
  if (id === undefined || rest.length > 0)
    throw new UsageError('kitproof rules explain takes one rule, such as left-loose, and a path.');
  const inForce = await page.project.rulesAt(await nameFor(page.io, path));
  const rules = effectiveRules(inForce);
  const found = rules.find(({ rule }) => rule.id === id);
  if (found === undefined) {
    const near = nearestWord(
      id,
      rules.map(({ rule }) => rule.id),
    );
    throw new UsageError(
      near === undefined
        ? `No pack has a rule "${printable(id)}"; kitproof rules list names them all.`
        : `No pack has a rule "${printable(id)}"; did you mean ${near}?`,
    );
  }
  const examples = await examplesOfRule(found.rule, inForce.packs);
  page.io.out(`${[...sectionsOf(found, examples, page)].join('\n\n')}\n`);
  return EXIT.clean;
}

function* sectionsOf(
  { rule, on, set }: RuleInForce,
  examples: readonly Example[],
  { io, colours }: RulesPage,
) {
  const columns = widthOfPage(io);
  const paragraph = (text: string) => wrap(printable(text), columns - 2).map((line) => `  ${line}`);
  const state = `${on ? 'on' : 'off'} here${set === null ? '' : ', by kitproof.yaml'}`;
  yield [
    `${colours.bold(rule.id)}  ${harmIn(colours, rule.harm)}, ${rule.core ? 'core' : 'house'}, ${on ? colours.green(state) : colours.dim(state)}`,
    ...paragraph(rule.says).map((line) => colours.italic(line)),
  ].join('\n');
  yield paragraph(rule.reason).join('\n');
  yield factsOf(rule, io.folder)
    .flatMap(([name, text]) =>
      wrap(printable(text), columns - 12).map(
        (line, index) => `  ${colours.dim(padded(index === 0 ? name : '', 10))}${line}`,
      ),
    )
    .join('\n');
  for (const which of ['good', 'bad'] as const) {
    const [first] = examples.filter((example) => example.which === which);
    if (first === undefined) continue;
    const title =
      which === 'good' ? colours.green('Good: nothing is found') : colours.red('Bad: this rule is found');
    const yaml = printYaml(first.says, columns - 4)
      .trimEnd()
      .split('\n');
    yield [`  ${title}`, ...yaml.map((line) => `    ${printable(line)}`)].join('\n');
  }
  yield [
    '  To switch it on or off, or to change how it counts, in kitproof.yaml:',
    `    rules: { ${rule.id}: ${on ? 'off' : 'on'} }`,
    `    rules: { ${rule.id}: { severity: warning, harm: ${rule.harm} } }`,
    '  To accept it in one place, at the operation, the step or the section:',
    `    waive: [{ rule: ${rule.id}, because: …, by: …, until: … }]`,
    ...(TOLD_WHILE_BINDING.includes(rule.id) ? [] : byCaution(rule)),
  ]
    .map((line) => colours.dim(line))
    .join('\n');
}

const byCaution = ({ id }: Rule): string[] => [
  '  To answer it by a caution of the step that says what the rule is about:',
  `    caution: { signal: warning, covers: [${id}], text: … }`,
];

function factsOf(rule: Rule, folder: string): [string, string][] {
  const { looksAt, found, excused } = spelledOut(rule);
  const { uri } = rule.place;
  const pack = isStandardPack(uri) ? 'standard' : relativePath(folder, uri);
  return [
    ...(looksAt === null ? [] : [['Looks at', `${looksAt}.`] as [string, string]]),
    ['Found', `${found}.`],
    ...(excused === null ? [] : [['Excused', `${excused}.`] as [string, string]]),
    ['Source', `${rule.source}.`],
    [
      'Pack',
      `${rule.pack} (${pack})${rule.overrides ? ', in place of the rule of this id in another pack' : ''}.`,
    ],
  ];
}
