import { standardPacks } from '../workspace/packs';
import { Project } from '../workspace/project';
import { COLOUR_CHOICE, COLOUR_OPTION, coloursFor } from './colours';
import { type Arguments, type Command, choiceOf, nearestWord } from './command';
import { type Exit, type Io, UsageError } from './io';
import { explainRule } from './rules-explain';
import { listRules } from './rules-list';
import { testRules } from './rules-test';

/** What `kitproof rules` can do, by its second word. */
const WORKS = { list: listRules, explain: explainRule, test: testRules } as const;

export const rulesCommand: Command = {
  name: 'rules',
  summary: "list the rules in force, explain one, or test the house's own",
  options: { format: { type: 'string' }, ...COLOUR_OPTION },
  parts: [
    { name: 'list', summary: 'the rules in force', options: ['format', 'color'] },
    { name: 'explain', summary: 'all about one rule', options: ['color'] },
    { name: 'test', summary: 'the examples of rule packs', options: ['color'] },
  ],
  choices: { format: ['text', 'json'], ...COLOUR_CHOICE },
  help: `kitproof rules list [PATH]
kitproof rules explain RULE [PATH]
kitproof rules test [PACKS…]

list     the rules that documents in PATH are checked against, pack by pack: what
         harm each is about, whether it is core (on of itself) or a house rule (off
         until chosen), whether it is on there, and what says so
explain  one rule: what it looks at and what it asks, why, where it comes from, a good
         and a bad example, how to switch it off and how to waive it
test     runs the examples of rule packs: a bad one must get its rule, a good one
         nothing at all; without PACKS those that kitproof.yaml lists, and the
         standard ones

PATH is a file or a folder, the one you are in if left out; the nearest kitproof.yaml
above it counts. PACKS are files, folders or patterns in quotes.

  --format text|json        of list: text for people (the default), json for programs
  --color auto|always|never colour; auto is on at a terminal unless NO_COLOR is set

Examples
  kitproof rules list
  kitproof rules list guides --format json > rules.json
  kitproof rules explain left-loose
  kitproof rules test house.rules.yaml

Exit status
  0  shown; or every example shows what it should
  1  test: an example does not, or a pack has mistakes
  2  the command line is wrong, or there is no such rule
  3  something could not be read, or Kitproof itself failed

How rules are written is told in schemas/house-rules.md.
`,
  run,
};

async function run(args: Arguments, io: Io): Promise<Exit> {
  const [word, ...rest] = args.positionals;
  const names = Object.keys(WORKS);
  if (word === undefined || !Object.hasOwn(WORKS, word)) {
    const near = word === undefined ? undefined : nearestWord(word, names);
    const said = word === undefined ? '' : `; "${word}" is none of them`;
    throw new UsageError(
      `kitproof rules goes on with list, explain or test${said}${near === undefined ? '.' : `; did you mean ${near}?`}`,
    );
  }
  const format = choiceOf(args, 'format', ['text', 'json'], 'text');
  if (format === 'json' && word !== 'list')
    throw new UsageError('--format json goes with kitproof rules list.');
  const project = new Project(io.files, standardPacks());
  const page = { io, project, colours: coloursFor(args, io), format };
  return WORKS[word as keyof typeof WORKS](rest, page);
}
