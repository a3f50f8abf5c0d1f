/** `npm start`: sets everything up on a fresh machine, checks the samples and shows what comes out. */
import { spawnSync } from 'node:child_process';
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { install, isFaultySample, needNode, root, say } from './house.mjs';

const GOOD = 'samples/upland-50.install.yaml';
/** Shown where it is there; else the first of the folder. */
const FAULTY = ['axle-not-carried'];

needNode();
install();
say('Building');
const { generate } = await import('./generate.mjs');
await generate();
const { bundle } = await import('../../esbuild.mjs');
const program = await bundle();

say('Checking the samples');
const all = kitproof(['check', 'samples', '--format', 'json', '--fail-on', 'never']);
const { findings, summary } = JSON.parse(all.stdout);
const guides = new Set(findings.map((finding) => finding.file));
console.log(
  `${summary.files} documents, ${summary.coverage.steps} steps: ${findings.length} findings in ${guides.size} documents, ` +
    `${[...guides].every(isFaultySample) ? 'all' : 'NOT all'} in folders called faulty, where each has one fault on purpose.`,
);

const faulty = readdirSync(join(root, 'samples', 'faulty'))
  .filter((name) => name.endsWith('.install.yaml'))
  .sort();
const shown = FAULTY.map((word) => faulty.find((name) => name.includes(word))).find(Boolean) ?? faulty[0];
if (shown !== undefined) {
  say(`$ kitproof check samples/faulty/${shown}`);
  kitproof(['check', `samples/faulty/${shown}`], 'inherit');
}
say(`$ kitproof check ${GOOD}`);
const good = kitproof(['check', GOOD], 'inherit');
say(`$ kitproof labour ${GOOD}`);
const hours = kitproof(['labour', GOOD], 'inherit');

say('Where to go next');
console.log(`  node dist/cli.js --help                 all there is to ask
  node dist/cli.js init my-kit            a small vehicle, kit and guide of your own
  node dist/cli.js trace ${GOOD}
                                          what each step changes and what is still open
  npm test                                builds and runs every test
  README.md                               the first guide in ten lines; the cautions
`);
process.exit(good.status === 0 && hours.status === 0 ? 0 : 1);

function kitproof(words, output = 'pipe') {
  const run = spawnSync(process.execPath, [program, ...words], {
    cwd: root,
    encoding: 'utf8',
    stdio: ['ignore', output, 'inherit'],
    maxBuffer: 1 << 28,
  });
  if (run.status === null || run.status > 1) process.exit(run.status ?? 1);
  return run;
}
