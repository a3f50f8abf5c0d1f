import { baseName, relativePath, resolvePath } from '../workspace/paths';
import type { Arguments, Command } from './command';
import { EXIT, type Exit, type Io, ReadError, UsageError } from './io';
import configuration from './starter/kitproof.yaml';
import vehicle from './starter/moorhen.vehicle.yaml';
import guide from './starter/rear-shocks.install.yaml';
import kit from './starter/trail-shocks.kit.yaml';
import { listed } from './words';

/** What is written, in the order in which a reader should open it. */
const STARTER: readonly (readonly [name: string, text: string])[] = [
  ['kitproof.yaml', configuration],
  ['moorhen.vehicle.yaml', vehicle],
  ['trail-shocks.kit.yaml', kit],
  ['rear-shocks.install.yaml', guide],
];

export const initCommand: Command = {
  name: 'init',
  summary: 'write a small vehicle, kit and guide to begin with',
  options: {},
  help: `kitproof init [FOLDER]

Writes four small documents that belong together: settings (kitproof.yaml), the
vehicle as it arrives, a kit, and the guide that fits it. They pass "kitproof check";
change them into your own. The vehicle and the kit are invented, and so are their
figures. Files that are there already are left alone, and then nothing is written.

Examples
  kitproof init
  kitproof init my-kit && kitproof check my-kit

Exit status
  0  written
  2  the command line is wrong
  3  one of the files is there already, or the folder cannot be written
`,
  run,
};

async function run(args: Arguments, io: Io): Promise<Exit> {
  if (args.positionals.length > 1) throw new UsageError('kitproof init takes one folder.');
  const folder = resolvePath(io.folder, args.positionals[0] ?? '.');
  const shown = relativePath(io.folder, folder);
  if ((await io.files.kind(folder)) === 'file')
    throw new ReadError(`Nothing was written: ${shown} is a file, and kitproof init takes a folder.`);
  const names = STARTER.map(([name]) => resolvePath(folder, name));
  const there: string[] = [];
  for (const name of names) if ((await io.files.kind(name)) !== null) there.push(baseName(name));
  if (there.length > 0) {
    throw new ReadError(
      `Nothing was written: ${listed(there)} ${there.length === 1 ? 'is' : 'are'} in ${shown === '.' ? 'this folder' : shown} already.`,
    );
  }
  for (const [index, [, text]] of STARTER.entries()) {
    const name = names[index]!;
    const written = await io.create(name, text).catch((error: unknown) => {
      throw new ReadError(
        `Cannot write ${relativePath(io.folder, name)}: ${error instanceof Error ? error.message : error}`,
      );
    });
    if (!written)
      throw new ReadError(
        `${relativePath(io.folder, name)} came to be there meanwhile; the rest was not written.`,
      );
    io.out(`wrote ${relativePath(io.folder, name)}\n`);
  }
  const at = shown === '.' ? '' : ` ${shown}`;
  io.out(`\nNext: kitproof check${at}, then open the guide and change it into your own.\n`);
  return EXIT.clean;
}
