/** Documents that the tests of reading edit and break. The vehicle is invented. */

export const GUIDE = `kitproof: install/1
title: Upland 50 suspension kit
vehicle: moorhen.vehicle.yaml
covers: { wheelbase: [short, long], lockers: any }   # a trait left out means any
sections:
  - title: Front axle, strip down
    when: { lockers: fitted }
    steps:
      - id: lift
        text: Lift the vehicle at the frame, engage the lift's locks, and take the wheels off.
        do:
          - raise: vehicle
            with: two-post-lift
          - unbolt: [front-wheel, rear-wheel]
        time: 12 min
      # The bar first.
      - id: front-bar-out
        text: >
          Slacken the bar's bolt at the frame.

          Take out its bolt at the axle: swing it aside.
        caution: &drop { signal: warning, text: "The axle \\"drops\\" here." }
        do:
          - loosen: front-track-bar.frame-bolt
          - remove: front-track-bar.axle-bolt
        time: { low: 4 min, likely: 6 min, high: 12 min }

      - id: springs-out
        caution: *drop
        do: [{ lower: front-axle, by: 120 mm }]
    optional: false
  - title: Rear
    steps:
      - id: rear
        text: |
          Let it down.
        do:
          - lower: rear-axle
      - { id: wait, do: [{ wait: 5 min }] }
owes: [{ check: front-wheel.nut, after: 80 km }]
`;

export const VEHICLE = `kitproof: vehicle/1
name: Moorhen
traits: { wheelbase: [short, long], lockers: [none, fitted] }
kinds:
  wheel: &wheel { mass: 32 kg, joints: { nut: { bolts: 5 } } }
parts:
  front-axle: { kind: live-axle, mass: 120 kg, drop: 190 mm }
  front-wheel:
    <<: *wheel
    sided: true
    joins: [front-axle]
  # The shock limits the axle.
  front-shock:
    kind: shock
    joints:
      top-nut: { thread: M12x1.25, torque: 60 N·m }
lines:
  front-hose: { kind: brake-hose, spans: [frame, front-axle], slack: 60 mm }
`;
