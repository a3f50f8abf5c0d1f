import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { completed } from '../../server/src/cli/completion/table';
import { commands } from '../../server/src/cli/main';

const file = join(import.meta.dirname, '../../README.md');
const BEGIN = '<!-- commands -->\n';
const END = '<!-- /commands -->\n';

/** More words than these are told by help. */
const MOST_PARTS = 4;

/** What the README says of the commands: how each is called, what it does, the names of its options. */
function block(): string {
  return commands
    .map((command) => {
      const { name, summary, options, parts } = completed(command);
      const usage = command.help.split('\n')[0]!.split(' [--')[0]!;
      const words = parts.map((part) => part.name).join('|');
      const called = words === '' || parts.length > MOST_PARTS ? usage : `kitproof ${name} ${words}`;
      const own = options.map((option) => `\`--${option.name}\``).join(' ');
      return `- **\`${called}\`** ${summary}${own === '' ? '' : `  \n  ${own}`}\n`;
    })
    .join('');
}

it('the README tells of every command and every option that help tells of', () => {
  const readme = readFileSync(file, 'utf8').replaceAll('\r\n', '\n');
  const start = readme.indexOf(BEGIN) + BEGIN.length;
  const end = readme.indexOf(END);
  expect(start).toBeGreaterThan(BEGIN.length);
  expect(end).toBeGreaterThanOrEqual(start);
  if (process.env.KITPROOF_UPDATE)
    writeFileSync(file, `${readme.slice(0, start)}${block()}${readme.slice(end)}`);
  else expect(readme.slice(start, end), 'KITPROOF_UPDATE=1 npx vitest run test/house/commands').toBe(block());
});
