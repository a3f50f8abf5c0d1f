/** `npm test`: installs what is missing, generates, checks types, lints, builds and runs every test. Never needs root. */
import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { install, needNode, root, say, tool } from './house.mjs';

needNode();
install();

/** What this machine lacks for a part of the run; said again at the end, and a failure where CI is set. */
const lacking = [];
const failures = [];

say('Generating types and validators');
const { generate } = await import('./generate.mjs');
await generate();

say('Checking types');
run('types', 'node_modules/typescript/bin/tsc', ['--noEmit', '-p', '.']);

say('Linting');
if (hasProgram('@biomejs', 'cli-'))
  run('lint', 'node_modules/@biomejs/biome/bin/biome', ['check', '--error-on-warnings', '.']);
else lacking.push("the linter's program for this platform (@biomejs/cli-…): nothing was linted");

say('Building');
const { bundle } = await import('../../esbuild.mjs');
await bundle();

say('Testing');
const report = process.env.KITPROOF_TEST_REPORT;
const reporters = report ? ['--reporter=default', '--reporter=json', `--outputFile.json=${report}`] : [];
run('tests', 'node_modules/vitest/vitest.mjs', ['run', ...reporters, ...process.argv.slice(2)]);

if (lacking.length > 0) {
  say('THIS MACHINE LACKS');
  for (const what of lacking) console.log(`  ${what}`);
  if (process.env.CI) failures.push('what this machine lacks, since CI is set');
}
say(failures.length === 0 ? 'All passed.' : `Failed: ${failures.join(', ')}.`);
process.exit(failures.length === 0 ? 0 : 1);

function run(name, script, words) {
  if (tool(script, words) !== 0) failures.push(name);
}

/** Whether a scope of node_modules holds a package of this platform. */
function hasProgram(scope, prefix) {
  const folder = join(root, 'node_modules', scope);
  return (
    existsSync(folder) && readdirSync(folder).some((name) => name.startsWith(`${prefix}${process.platform}`))
  );
}
