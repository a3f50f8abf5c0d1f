import { standardPacks } from '../workspace/packs';
import { Project } from '../workspace/project';
import { askedOf, FAIL_ON } from './check-asked';
import { checkOnce } from './check-run';
import { COLOUR_CHOICE, COLOUR_OPTION } from './colours';
import type { Arguments, Command } from './command';
import { EXIT, type Exit, type Io } from './io';
import { reporters } from './reporters/registry';
import { watching } from './watch';

export const checkCommand: Command = {
  name: 'check',
  summary: 'find what is out of order, missing or left open',
  options: {
    format: { type: 'string', multiple: true },
    'fail-on': { type: 'string' },
    'require-cover': { type: 'string' },
    baseline: { type: 'string' },
    since: { type: 'string' },
    shard: { type: 'string' },
    merge: { type: 'boolean' },
    watch: { type: 'boolean' },
    fix: { type: 'boolean' },
    undecided: { type: 'boolean' },
    waived: { type: 'boolean' },
    'as-of': { type: 'string' },
    'stdin-name': { type: 'string' },
    ...COLOUR_OPTION,
  },
  choices: { format: Object.keys(reporters), 'fail-on': FAIL_ON, ...COLOUR_CHOICE },
  help: `kitproof check [PATHS…]

Reads guides with the vehicles, kits and rule packs they name, works out the state
of every joint, part, line and jack after each step, for every variant at once, and
tells where following the guide would hurt someone, break something or leave a job
unfinished.

PATHS are files, folders (with all below them) or patterns in quotes; without any,
the folder you are in. "-" reads one document from standard input. Of what is found in
folders, files without the key "kitproof" are left alone; one that you name, or whose
name ends as ours do (.install.yaml), must have it.

  --format FORMAT[=FILE]    text for people (the default), json for programs, sarif
                            (2.1.0) for code scanning, junit for build servers, github
                            for annotations of a run there, markdown for a pull request;
                            given several times it writes each, one to the screen
  --fail-on SEVERITY        what makes the exit status 1: error (the default),
                            warning, info (notes too), or never
  --require-cover PERCENT   exit status 1 too where fewer of the steps could be
                            checked, or there is no step at all
  --baseline FILE           tell and count only what an earlier report (sarif or json)
                            does not have; lines may have moved since
  --since REVISION          check only what changed since a revision of git (a branch, a
                            tag, HEAD~2), committed or not, and what depends on that
  --shard 2/5               check the second of five shares of about the same size
  --merge                   PATHS are what all shards wrote with --format json; tell of
                            them as one check would
  --watch                   check again whenever a file changes, until Ctrl-C
  --fix                     first put slips of the pen right in what is checked: names,
                            keys, quotes, units. What adds work, leaves it out or moves
                            it is for a person to choose, in the editor
  --undecided               list what was not decided and what to write for it, and the
                            steps that were not checked
  --waived                  list what is waived, with who accepts it, why and until when
  --as-of DATE              hold waivers against this day, 2026-03-14, not today
  --stdin-name PATH         where standard input would stand, for paths and settings
  --color auto|always|never colour; auto is on at a terminal unless NO_COLOR is set

Examples
  kitproof check
  kitproof check guides/lift.install.yaml --undecided
  kitproof check "guides/**/*.install.yaml" --fail-on warning --require-cover 95
  kitproof check --fix guides
  kitproof check --format json > findings.json
  kitproof check --since origin/main --format github
  kitproof check --shard 2/5 --format json=shard-2.json --fail-on never
  kitproof check --merge shard-*.json --format junit=k.xml --require-cover 95
  kitproof check --format text --format sarif=k.sarif --format junit=k.xml
  kitproof check - --stdin-name guides/lift.install.yaml < draft.yaml

Exit status
  0  nothing at or above --fail-on, and cover as required
  1  something is
  2  the command line is wrong
  3  something could not be read, or a file named as ours is none, or there was
     nothing to check (the rest is told of all the same), or Kitproof itself failed

A guide without findings is not certified by anyone: the vehicle maker's data, local
rules and a qualified person come first.
`,
  run,
};

async function run(args: Arguments, io: Io): Promise<Exit> {
  const asked = await askedOf(args, io);
  if (asked.watch) return watching(asked, io);
  const once = await checkOnce(asked, io, new Project(asked.files, standardPacks()));
  return once?.exit ?? EXIT.failed;
}
