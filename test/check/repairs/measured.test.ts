import { expect, it } from 'vitest';
import { fixesOf, titles } from './support';

it('a whole section that waits for a finding has it measured before', async () => {
  const fixes = await fixesOf('found-without-measure', {
    vehicle: 'parts: { joint: { kind: ball-joint, sided: false, joins: [frame] } }\n',
    steps: `
      - when: { found: worn }
        text: Tell the owner.
        do: [{ check: owner }]
      - do: [{ measure: joint, expect: { below: 1.5 mm }, else: worn }]
    `,
  });
  expect(titles(fixes)[0]).toBe('Move step 1.2 before step 1.1, where it is needed');
});
