import { counted } from '../findings/words';
import { spelledOut } from '../rules/in-words';
import { type Rule, rulesOf } from '../rules/rule';
import { STATES } from '../rules/vocabulary';
import { type OpenDocument, openDocument } from '../schema/document';
import { printYaml } from '../text/print';
import { type Example, examplesOf } from './examples';
import { wholeStandardPacks } from './packs';

/** Cells that an example keeps to. */
const WIDTH = 100;

/** The catalogue of the standard rules. */
export async function standardCatalogue(): Promise<string> {
  const packs = await wholeStandardPacks();
  return cataloguePage(packs.map(({ uri, reading, text }) => openDocument(uri, reading, { source: text })));
}

/** The states that rules may ask for, as a table of Markdown: what each is said of, and what it means. */
export function statesTable(): string {
  const rows = new Map<string, string[]>();
  for (const [word, { of, about }] of Object.entries(STATES)) {
    const sorts = SAID_OF[of.join(' ')] ?? of.join(', ');
    rows.set(sorts, [...(rows.get(sorts) ?? []), `\`${word}\` (${about})`]);
  }
  const lines = [...rows].map(([sorts, words]) => `| ${sorts} | ${words.join(', ')} |`);
  return ['| said of | states |', '| --- | --- |', ...lines].join('\n');
}

/** What the commonest lists of sorts are called. */
const SAID_OF: Readonly<Record<string, string>> = {
  'joint piece part': 'a joint; a part with one such joint',
  'part joint end hole face line piece': 'a part, or a line; what belongs to a part means the part',
  'end part': 'an end that holds by itself',
  'hole face part': 'metal: a hole, a face, or a part with one of these',
  'part joint end hole face line piece built-in': 'anything on the vehicle, and the vehicle',
  'joint part line end hole face piece built-in words': 'anything',
  line: 'a line, hose, plug or cable',
  hole: 'a hole',
  part: 'a spring or piston',
  'built-in': 'a system: battery, airbags, high-voltage, fuel-pressure …',
};

/** The catalogue of rules as a page of Markdown: pack by pack, each rule with what it asks, why, and two small examples. */
export function cataloguePage(packs: readonly OpenDocument[]): string {
  const books = packs.flatMap((pack) => {
    const rules = rulesOf(pack);
    return pack.kind !== 'rules' || rules.length === 0
      ? []
      : [{ pack: pack.value, rules, examples: examplesOf(pack) }];
  });
  const all = books.flatMap(({ rules }) => rules);
  const core = (rules: readonly Rule[]) => rules.filter((rule) => rule.core).length;
  const rows = books.map(
    ({ pack, rules }) =>
      `| [${pack.pack}](#${pack.pack}) | ${rules.length} | ${core(rules)} | ${pack.note ?? ''} |`,
  );
  const head = `# The rules there are

Made by \`node server/scripts/catalogue.mjs\` from the standard packs in \`server/src/rules/packs/\`, so edit those. A core rule is
on unless \`kitproof.yaml\` switches it off, a house rule off until it is switched on. *Injury* is shown as an error, *damage*
as a warning, *rework* and *paperwork* as information. \`kitproof rules explain RULE\` tells all about one, with whole examples;
how to write your own is told in [house-rules.md](house-rules.md), what built-in rules ask exactly in [semantics.md](semantics.md).

${counted(all.length, 'rule')}, ${core(all)} of them core.

| pack | rules | core | about |
| --- | --- | --- | --- |
${rows.join('\n')}`;
  const chapters = books.map(({ pack, rules, examples }) =>
    [`## ${pack.pack}`, ...rules.map((rule) => ruleOf(rule, examples.get(rule.id) ?? []))].join('\n\n'),
  );
  return `${[head, ...chapters].join('\n\n')}\n`;
}

function ruleOf(rule: Rule, examples: readonly Example[]): string {
  const { looksAt, found, excused } = spelledOut(rule);
  const asks = [
    ...(looksAt === null ? [] : [`Looks at ${looksAt}.`]),
    rule.family === 'built-in'
      ? `Built in: \`${rule.id}\` in [semantics.md](semantics.md).`
      : `Found ${found}.`,
    ...(excused === null ? [] : [`Excused ${excused}.`]),
  ];
  const shown = Object.fromEntries(
    (['good', 'bad'] as const).flatMap((which) => {
      const example = examples.find((one) => one.which === which);
      return example === undefined ? [] : [[which, jobOf(example)]];
    }),
  );
  return [
    `### ${rule.id}`,
    `*${literal(rule.says)}*\n${literal(rule.reason)}`,
    asks.map(literal).join(' '),
    `**${rule.harm}**, ${rule.core ? 'core' : 'house'}. Source: ${literal(rule.source)}.`,
    `\`\`\`yaml\n${printYaml(shown, WIDTH)}\`\`\``,
  ].join('\n\n');
}

/** The job of an example without its vehicle and kit: its operations alone, where that is all. */
function jobOf({ says }: Example): unknown {
  const { vehicle: _vehicle, kit: _kit, ...job } = says;
  return Object.keys(job).length === 1 ? job.do : job;
}

/** Text in which Markdown would read marks of its own. */
const literal = (text: string): string =>
  text.replaceAll(/[*_<>|[\]]/g, (mark) => `\\${mark}`).replaceAll('\\[semantics.md\\](', '[semantics.md](');
