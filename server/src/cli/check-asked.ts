import type { Severity } from '../findings/finding';
import { resolvePath } from '../workspace/paths';
import { withOverlay } from '../workspace/port';
import { dayOf } from './as-of';
import { type Colours, coloursFor } from './colours';
import { type Arguments, choiceOf } from './command';
import { type Io, UsageError } from './io';
import { type Output, outputsOf } from './outputs';
import { reporters } from './reporters/registry';
import { type Shard, shardOf } from './shard';
import { INPUT_NAME } from './targets';

export const FAIL_ON = ['error', 'warning', 'info', 'never'] as const;

/** What a command line asks of `check`, read and held to be possible; nothing but standard input was read yet. */
export interface CheckAsked {
  readonly paths: readonly string[];
  /** Files, with standard input in the place of one of them where it is asked for. */
  readonly files: Io['files'];
  /** What standard input stands for; null where it is not read. */
  readonly input: string | null;
  /** The same, where nobody said what it stands for. */
  readonly unnamedInput: string | null;
  readonly outputs: readonly Output[];
  readonly failOn: Severity | 'never';
  /** Per cent. */
  readonly cover: number | null;
  readonly baseline: string | null;
  readonly since: string | null;
  readonly shard: Shard | null;
  /** Whether the paths are reports of shards. */
  readonly merge: boolean;
  readonly watch: boolean;
  readonly fix: boolean;
  readonly undecided: boolean;
  readonly waived: boolean;
  readonly today: string;
  readonly colours: Colours;
}

/** Pairs of options that make no sense together, and why. */
const APART: readonly (readonly [one: string, other: string, why: string])[] = [
  ['fix', 'shard', '--fix changes files, and a shard tells of its share of them.'],
  ['fix', 'merge', '--fix changes files, and --merge reads reports.'],
  ['fix', 'watch', '--fix changes files, and --watch would check what it wrote.'],
  ['merge', 'shard', '--merge takes reports of shards; it makes none.'],
  ['merge', 'since', '--since goes with the checks whose reports are merged.'],
  ['merge', 'watch', '--watch goes with guides, not with reports.'],
];

export async function askedOf(args: Arguments, io: Io): Promise<CheckAsked> {
  const isGiven = (name: string) => args.flag(name) || args.text(name) !== undefined;
  for (const [one, other, why] of APART) if (isGiven(one) && isGiven(other)) throw new UsageError(why);
  const outputs = outputsOf(args, Object.keys(reporters), 'text');
  const failOn = choiceOf(args, 'fail-on', FAIL_ON, 'error');
  const cover = coverOf(args.text('require-cover'));
  const today = dayOf(args.text('as-of')) ?? io.today;
  const colours = coloursFor(args, io);
  const shard = shardOf(args.text('shard'));
  const merge = args.flag('merge');
  if (merge && args.positionals.length === 0)
    throw new UsageError(
      '--merge takes the reports of all shards, such as "kitproof check --merge shard-*.json".',
    );
  const { paths, overlay, input, unnamedInput } = await inputOf(args, io);
  if (input !== null) {
    if (args.flag('fix')) throw new UsageError('--fix changes files; standard input is none.');
    if (args.flag('watch')) throw new UsageError('--watch looks at files; standard input is none.');
    if (merge) throw new UsageError('--merge reads files; standard input is none.');
  }
  return {
    paths,
    files: withOverlay(io.files, overlay),
    input,
    unnamedInput,
    outputs,
    failOn,
    cover,
    baseline: args.text('baseline') ?? null,
    since: args.text('since') ?? null,
    shard,
    merge,
    watch: args.flag('watch'),
    fix: args.flag('fix'),
    undecided: args.flag('undecided'),
    waived: args.flag('waived'),
    today,
    colours,
  };
}

interface Input {
  readonly paths: readonly string[];
  /** What stands in place of files, by name. */
  readonly overlay: ReadonlyMap<string, string>;
  readonly input: string | null;
  readonly unnamedInput: string | null;
}

async function inputOf(args: Arguments, io: Io): Promise<Input> {
  const name = args.text('stdin-name');
  const asked = args.positionals.length === 0 ? ['.'] : args.positionals;
  if (!asked.includes('-')) {
    if (name !== undefined) throw new UsageError('--stdin-name goes with "-", which reads standard input.');
    return { paths: asked, overlay: new Map(), input: null, unnamedInput: null };
  }
  const path = name ?? INPUT_NAME;
  const file = resolvePath(io.folder, path);
  const overlay = new Map([[file, await io.readInput()]]);
  const paths = asked.map((one) => (one === '-' ? path : one));
  return { paths, overlay, input: file, unnamedInput: name === undefined ? file : null };
}

function coverOf(written: string | undefined): number | null {
  if (written === undefined) return null;
  const percent = Number(written.replace(/ ?%$/, ''));
  if (written.trim() === '' || !(percent >= 0 && percent <= 100)) {
    throw new UsageError(`--require-cover takes a percentage from 0 to 100; "${written}" is none.`);
  }
  return percent;
}
