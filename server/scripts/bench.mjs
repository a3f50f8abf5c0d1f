/** `npm run bench`: bundles `test/bench/run.ts` and runs it from the repository's root. */
import { runBundled } from './bundled.mjs';
import { install, needNode } from './house.mjs';

needNode();
install();
const { generate } = await import('./generate.mjs');
await generate();
process.exitCode = await runBundled('test/bench/run.ts', []);
