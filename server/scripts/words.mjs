/**
 * Makes `schemas/words.md`, the words a writer has: the verbs from the schema of guides, the kinds, aids and pieces from
 * the standard packs. Run as `node server/scripts/words.mjs`; a test holds the page to what `wordsPage()` gives.
 */
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { load } from 'js-yaml';

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const PAGE = join(root, 'schemas', 'words.md');
const PACKS = join(root, 'server', 'src', 'rules', 'packs');

/** The page as it should be. */
export function wordsPage() {
  const schema = JSON.parse(readFileSync(join(root, 'schemas', 'install.schema.json'), 'utf8'));
  const packs = readdirSync(PACKS)
    .filter((name) => name.endsWith('.rules.yaml'))
    .sort()
    .map((name) => load(readFileSync(join(PACKS, name), 'utf8')));
  const all = (key) => Object.assign({}, ...packs.map((pack) => pack[key] ?? {}));
  return [
    `# The words there are

What you may write in a guide and in the files beside it without declaring anything: verbs, kinds of part and line, aids,
and small pieces. Made by \`node server/scripts/words.mjs\` from the schemas and the standard packs, so edit those.
What each verb does to the state of the vehicle, exactly, is said in [semantics.md](semantics.md).`,
    `## Verbs

An operation is one verb with what it acts on: \`- torque: front-shock.lower-bolt\`. What else may stand beside a verb
(\`with\`, \`to\`, \`by\` …) is shown by the editor as you type.`,
    verbsOf(schema),
    `## Kinds of part and line

A part says its kind in the vehicle or kit file: \`front-shock: { kind: shock }\`. Where nothing declares a part, its kind is
guessed from the last word of its name. A kind takes over what is said of the one it is a sort of. Any of the other words
will do too. A kind that is missing here is declared under \`kinds:\` in the vehicle, kit or rules file.`,
    kindsOf(all('kinds')),
    `## Aids

What carries, holds or helps: \`raise: vehicle\` with \`with: two-post-lift\`. A person works under a vehicle only on an aid that
allows it. One of your own is declared under \`aids:\` in a rules file.`,
    aidsOf(all('aids')),
    `## Small pieces

Pieces that stand in the \`stack:\` or \`nut:\` of a joint. One that is used up is replaced by a new one, which the guide says with
\`new:\`. One of your own is declared under \`pieces:\` in a rules file.`,
    piecesOf(all('pieces')),
  ]
    .join('\n\n')
    .concat('\n');
}

function verbsOf(schema) {
  const rows = Object.entries(schema.$defs).flatMap(([name, definition]) => {
    if (!name.startsWith('verb-')) return [];
    const verb = name.slice('verb-'.length);
    const [example] = definition.properties[verb].examples ?? [];
    return [[`\`${verb}\``, definition.description, example === undefined ? '' : `\`${verb}: ${example}\``]];
  });
  return table(['verb', 'what is done, and to what', 'such as'], rows);
}

/** What a kind's attributes mean to a writer, in the order in which they are told. */
const SAID_OF_KINDS = [
  ['axle', 'an axle: carries two wheels'],
  ['arm', 'carries one wheel and moves with it'],
  ['hub', 'carries a wheel on a bearing'],
  ['structural', 'its joints carry the structure'],
  ['limits-drop', 'limits how far the axle or arm drops'],
  ['stores-energy', 'loaded while it is fitted'],
  ['adjusted', 'loaded and unloaded by an adjuster'],
  ['inflates', 'filled with air'],
  ['bushed', 'rubber bushes: tightened at ride height'],
  ['sided', 'one on the left, one on the right'],
];
const LINE_TYPES = {
  hydraulic: 'a brake, clutch or steering line: checked or bled once opened',
  fuel: 'a fuel line: checked once opened',
};

function kindsOf(kinds) {
  const whole = (name, depth = 0) => {
    const own = kinds[name] ?? {};
    return own.kind === undefined || depth > 20 ? own : { ...whole(own.kind, depth + 1), ...own };
  };
  const systems = new Map();
  for (const name of Object.keys(kinds)) {
    const system = whole(name).system ?? '';
    if (!systems.has(system)) systems.set(system, []);
    systems.get(system).push(name);
  }
  const sorted = [...systems].sort(([a], [b]) => (a === '') - (b === '') || (a < b ? -1 : 1));
  return sorted
    .map(([system, names]) => {
      const rows = names.map((name) => {
        const { words = [] } = kinds[name];
        return [`\`${name}\``, saidOfKind(kinds[name], whole(name)), otherWords(words)];
      });
      const title = system === '' ? 'Of any system' : capital(system.replaceAll('-', ' '));
      return `### ${title}\n\n${table(['kind', 'what is known of it', 'other words'], rows)}`;
    })
    .join('\n\n');
}

function saidOfKind(own, whole) {
  const said = SAID_OF_KINDS.flatMap(([key, words]) => (whole[key] === true ? [words] : []));
  if (own.bushed === false) said.push('no rubber bushes');
  const line = whole['line-type'];
  if (line !== undefined) said.push(LINE_TYPES[line] ?? `a line: ${line}`);
  if (whole.reach === 'outside') said.push('worked on from outside');
  if (whole.mass !== undefined) said.push(whole.mass);
  const sort = own.kind === undefined ? [] : [`a sort of \`${own.kind}\``];
  return [...sort, ...said].join('; ');
}

const SAID_OF_AIDS = [
  ['raises', 'raises'],
  ['carries', 'carries'],
  ['lowers', 'lowers'],
  ['work-under', '**work under it**'],
  ['takes-wheels', 'the vehicle stands on its wheels'],
  ['holds', 'holds'],
  ['compresses', 'compresses springs or pistons'],
  ['frees', 'frees tapers and press fits'],
  ['jack', 'a jack'],
];

function aidsOf(aids) {
  const rows = Object.entries(aids).map(([name, aid]) => {
    const can = SAID_OF_AIDS.flatMap(([key, words]) => (aid[key] === true ? [words] : []));
    if (aid.rating !== undefined) can.push(`up to ${aid.rating}`);
    return [`\`${name}\``, can.join(', '), otherWords(aid.words ?? [])];
  });
  return table(['aid', 'what it can', 'other words'], rows);
}

const USED_UP = { out: 'used up once it was out', slackened: 'used up once it was slackened' };

function piecesOf(pieces) {
  const rows = Object.entries(pieces).map(([name, piece]) => [
    `\`${name}\``,
    USED_UP[piece['single-use']] ?? 'used again',
    otherWords(piece.words ?? []),
  ]);
  // Those that are used up come first: they are why the list is read.
  rows.sort((a, b) => (a[1] === 'used again') - (b[1] === 'used again'));
  return table(['piece', 'when its joint comes apart', 'other words'], rows);
}

const otherWords = (words) => words.join(', ');
const capital = (text) => text.charAt(0).toUpperCase() + text.slice(1);

function table(head, rows) {
  const line = (cells) => `| ${cells.map((cell) => cell.replaceAll('|', '\\|')).join(' | ')} |`;
  return [line(head), line(head.map(() => '---')), ...rows.map(line)].join('\n');
}

if (process.argv[1] && fileURLToPath(import.meta.url) === process.argv[1]) writeFileSync(PAGE, wordsPage());
