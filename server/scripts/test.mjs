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
// The page of the preview runs in a browser, so it has types of its own.
run('types of the preview', 'node_modules/typescript/bin/tsc', ['--noEmit', '-p', 'client/preview/page']);

say('Linting');
if (hasProgram('@biomejs', 'cli-'))
  run('lint', 'node_modules/@biomejs/biome/bin/biome', ['check', '--error-on-warnings', '.']);
else lacking.push("the linter's program for this platform (@biomejs/cli-…): nothing was linted");

say('Building');
const { bundle, bundleExtension } = await import('../../esbuild.mjs');
await Promise.all([bundle(), bundleExtension()]);

say('Testing');
const report = process.env.KITPROOF_TEST_REPORT;
const reporters = (name) =>
  report ? ['--reporter=default', '--reporter=json', `--outputFile.json=${report}${name}`] : [];
const wanted = process.argv.slice(2);
run('tests', 'node_modules/vitest/vitest.mjs', ['run', ...reporters(''), ...wanted]);

// Who asks for some tests only does not wait for a browser; `npm run test:editor` runs that one alone.
if (wanted.length === 0) {
  const { editorTestLacks, runEditorTest } = await import('../../test/editor/run.mjs');
  const lacks = editorTestLacks();
  if (lacks === null) {
    say('Testing in the real editor');
    if ((await runEditorTest(reporters('.editor'))) !== 0) failures.push('the journey in the real editor');
  } else lacking.push(lacks);
}

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
