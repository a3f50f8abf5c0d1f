/** Threads and classes that nothing is known of. */

import { it } from 'vitest';
import { expectChecked } from '../support/marked';

it('are told where they stand, with what is known', async () => {
  await expectChecked(`
    # file: v.vehicle.yaml
    kitproof: vehicle/1
    name: Moorhen
    kinds:
      clamp:
        joints:
          bolt: { thread: M12x17.5, class: "8.8" }
          #               ^^^^^^^^ warning[unknown-thread]: A pitch of 17.5 mm does not fit on a diameter of 12 mm
    parts:
      brace:
        kind: brace
        joins: [frame]
        joints:
          bolt: { thread: M10, class: "10.8", nut-class: "10" }
          #                           ^^^^^^ warning[unknown-class]: Nothing is known of bolts of class "10.8", so no torque is held against it; known are 4.6, 4.8, 5.6, 5.8, 6.8, 8.8, 9.8, 10.9, 12.9, grade 2, grade 5 and grade 8.
          stud: { thread: M10x1.5-6g, class: A2-70, nut-class: ten }
          #                                  ^^^^^ info[unknown-class]: Nothing is known of bolts of class "A2-70"
          #                                                    ^^^ info[unknown-class]: Nothing is known of nuts of class "ten", so none is held against its bolt; known are 5, 6, 8, 9, 10, 12, 04, 05.
          plug: { thread: G 1/4 }
          #               ^^^^^ info[unknown-thread]: Nothing is known of the thread "G 1/4", so no figure is held against it; known are metric and unified ones, such as M12x1.25 and 3/8-24.
        holes:
          hole: { bolt: M12x1.25, tap: 3/8-24 }
          other: { bolt: M1O }
          #              ^^^ warning[unknown-thread]: in "M1O" is not understood
    # file: k.kit.yaml
    kitproof: kit/1
    name: Bolts
    for: Moorhen
    hardware:
      bolt-m10: { thread: M10x1.5, class: grade 8, quantity: 1, for: brace.bolt }
      nut-m10: { thread: M10x1.5, class: "10", quantity: 1, for: brace.bolt.nut }
      nut-m11: { thread: M11, class: "10.9", nut: plain, quantity: 1 }
      #                  ^^^ warning[unknown-thread]: M11 has no standard coarse pitch; write the pitch behind it, such as M12x1.25. No figure is held against it as it stands.
      #                              ^^^^^^ warning[unknown-class]: Nothing is known of nuts of class "10.9"
  `);
});
