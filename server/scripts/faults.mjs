/** `npm run faults`: bundles `test/faults/run.ts` and runs it from the repository's root; words after `--` pick guides. */

import { runBundled } from './bundled.mjs';
import { install, needNode } from './house.mjs';

needNode();
install();
const { generate } = await import('./generate.mjs');
await generate();
process.exitCode = await runBundled('test/faults/run.ts', process.argv.slice(2));
