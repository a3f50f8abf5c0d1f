import { expect, it } from 'vitest';
import { fixesOf, titles } from './support';

it('steps that were swapped are swapped back', async () => {
  const fixes = await fixesOf('move-only-when-down', {
    steps: `
      - do: [{ raise: vehicle, with: two-post-lift }]
      - text: Roll it out.
        do: [{ move: vehicle }]
      - text: Let it down.
        do: [{ lower: vehicle }]
    `,
  });
  expect(titles(fixes)[0]).toBe('Move “Let it down” (1.3) before “Roll it out” (1.2)');
});
