import { configDefaults, defineConfig, type Plugin } from 'vitest/config';

/** YAML files that are imported are texts, as in the bundle (esbuild.mjs). */
const yamlAsText: Plugin = {
  name: 'yaml-as-text',
  enforce: 'pre',
  transform(code, id) {
    if (id.endsWith('.yaml')) return { code: `export default ${JSON.stringify(code)};`, map: null };
    return undefined;
  },
};

export default defineConfig({
  plugins: [yamlAsText],
  test: {
    include: ['test/**/*.test.ts'],
    // The real editor is driven by itself, after these: test/editor/run.mjs.
    exclude: [...configDefaults.exclude, 'test/editor/**'],
    testTimeout: 60_000,
    hookTimeout: 60_000,
    maxWorkers: 2,
  },
});
