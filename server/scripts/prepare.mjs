/**
 * `npm run prepare`: builds the command line. npm does so by itself where it installs from this repository (for a pre-commit
 * hook, or by the address of a git server), and nowhere else.
 */
import { install } from './house.mjs';

// Asked to install a git address globally, npm installs what the build needs globally too, which is to say not at all.
for (const name of Object.keys(process.env)) if (/^npm_config_/i.test(name)) delete process.env[name];
install();
const { generate } = await import('./generate.mjs');
await generate();
const { bundle } = await import('../../esbuild.mjs');
await bundle();
