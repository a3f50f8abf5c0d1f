import { describe, expect, test } from 'vitest';
import { guideOf, printedOf, rowsOf } from './printed';

const tools = async (steps: string) => rowsOf((await printedOf(guideOf(steps))).lists.tools);
const names = async (steps: string) => (await tools(steps)).map(({ tool }) => tool);

describe('the tools', () => {
  test('are each there once, with the steps that want them', async () => {
    expect(
      await tools(`- { text: Slack., do: [{ loosen: front-wheel.nut }] }
- { text: Up., do: [{ raise: vehicle, with: two-post-lift }] }
- { text: Off., do: [{ unbolt: front-wheel }, { support: front-axle, with: pole-jacks }] }
- { text: Out., do: [{ remove: front-shock.lower-bolt }, { remove: front-shock.top-nut }] }`),
    ).toEqual([
      { sort: 'Lifting and holding', tool: 'Pole jack', steps: '1.3' },
      { sort: 'Lifting and holding', tool: 'Two-post lift', steps: '1.2' },
      { sort: 'Spanners and sockets', tool: '18 mm', steps: '1.4' },
      { sort: 'Spanners and sockets', tool: '21 mm', steps: '1.1, 1.3' },
      { sort: 'Keys and bits', tool: '6 mm key', steps: '1.4' },
    ]);
  });

  test('have what something is let down onto, and chocks that nobody names', async () => {
    expect(
      await names(
        '- { text: A., do: [{ chock: front-wheel }, { raise: front, with: trolley-jack }, { lower: front, onto: frame-stands }] }',
      ),
    ).toEqual(['Frame stands', 'Trolley jack', 'Wheel chocks']);
  });

  test('say that a size is that of the standard where the data have none', async () => {
    // ISO 4014: M8 has a hexagon of 13 mm.
    expect(await names('- { text: Guard., do: [{ bolt-up: guard }] }')).toEqual([
      '13 mm by standard for M8x1.25, to be measured',
    ]);
  });

  test('have as few torque wrenches as reach from the least to the greatest figure', async () => {
    expect(
      await names(
        '- { text: All., do: [{ torque: step-plate.screw }, { torque: front-shock.top-nut }, { torque: front-wheel.nut }] }',
      ),
    ).toEqual(
      expect.arrayContaining([
        'Torque wrench for 8 N·m (71 lbf·in)',
        'Torque wrench for 60–130 N·m (44–96 lbf·ft)',
      ]),
    );
  });

  test('have a bit for each hole, and not twice where the step names it or opens it otherwise', async () => {
    expect(
      await names(
        `- { text: Drill., do: [{ drill: guard.frame-hole, to: 5 mm }, { drill: guard.frame-hole, to: 9 mm }] }`,
      ),
    ).toEqual(['5 mm bit', '9 mm bit']);
    expect(
      await names(
        `- { text: Drill., tools: [drill, 9 mm bit], do: [{ drill: guard.frame-hole, to: 9 mm }] }`,
      ),
    ).toEqual(['9 mm bit', 'Drill']);
    expect(
      await names(`- { text: Drill., tools: [step drill], do: [{ drill: guard.frame-hole, to: 9 mm }] }`),
    ).toEqual(['Step drill']);
  });

  test('are those of the variant that is printed', async () => {
    const guide = guideOf('- { text: Guard., do: [{ bolt-up: guard }] }');
    const none = await printedOf(guide, { variant: { lockers: 'none' } });
    expect(rowsOf(none.lists.tools)).toEqual([]);
    expect(none.sections).toHaveLength(1);
  });

  test('have no torque wrench for a figure of another variant', async () => {
    const guide = await printedOf(
      guideOf(
        '- { text: A., do: [{ torque: front-wheel.nut, to: [{ when: { wheelbase: long }, is: 300 N·m }, { is: 120 N·m }] }] }',
      ),
      { variant: { wheelbase: 'short' } },
    );
    expect(rowsOf(guide.lists.tools).map(({ tool }) => tool)).toContain(
      'Torque wrench for 120 N·m (89 lbf·ft)',
    );
  });
});
