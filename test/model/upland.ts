/** A vehicle, a kit and a guide in one fixture. */
export const UPLAND = `
# file: moorhen.vehicle.yaml
kitproof: vehicle/1
name: Moorhen
traits: { wheelbase: [short, long], lockers: [none, fitted] }
kinds:
  wheel: { mass: 32 kg, joints: { nut: { bolts: 5, thread: M14x1.5, hex: 21 mm, torque: 130 N·m } } }
parts:
  front-axle: { kind: live-axle, mass: 120 kg, drop: 190 mm, limited-by: [front-shock] }
  front-wheel: { kind: wheel, sided: true, joins: [front-axle] }
  front-shock:
    kind: shock
    sided: true
    joins: [frame, front-axle]
    joints:
      top-nut: { thread: M12x1.25, nut: self-locking, stack: [retainer, bush, bush, retainer], bushed: false, torque: 60 N·m }
      lower-bolt: { thread: M12x1.75, class: "10.9", hex: 18 mm, torque: 90 N·m }
  front-coil: { kind: coil-spring, sided: true, joins: [frame, front-axle], free-at: 110 mm }
  front-hose-bracket: { kind: bracket, sided: true, joins: [front-axle], joints: { bolt: { thread: M8x1.25, torque: 22 N·m } } }
lines:
  front-locker-plug: { kind: plug, spans: [frame, front-axle], slack: 40 mm, when: { lockers: fitted } }
  front-hose: { kind: brake-hose, sided: true, spans: [frame, front-axle], held-by: front-hose-bracket, slack: 60 mm, slack-free: 220 mm }
# file: upland.kit.yaml
kitproof: kit/1
name: Upland 50
for: Moorhen
parts:
  lift-coil: { kind: coil-spring, replaces: front-coil, free-at: 170 mm }
  long-shock: { kind: shock, replaces: front-shock, joints: { lower-bolt: { torque: 95 N·m } } }
hardware:
  shock-nut: { nut: self-locking, quantity: 2, for: long-shock.top-nut }
# file: guide.install.yaml
kitproof: install/1
title: Upland 50
vehicle: moorhen.vehicle.yaml
kit: upland.kit.yaml
covers: { wheelbase: [short, long], lockers: any }
sections:
  - title: Front axle
    steps:
      - id: lift
        text: Lift the vehicle.
        do:
          - raise: vehicle
            with: two-post-lift
          - unbolt: front-wheel
        time: 12 min
      - id: locker-plug
        when: { lockers: fitted }
        do: [{ disconnect: front-locker-plug }]
      - id: springs-out
        people: 2
        caution: { signal: warning, text: The axle drops., covers: [spring-loaded] }
        do:
          - support: front-axle
            with: trolley-jack
          - remove: front-shock.lower-bolt
          - lower: front-axle
            by: 120 mm
          - remove: front-coil
          - fit: lift-coil
          - torque: long-shock.lower-bolt
            to: [{ when: { wheelbase: long }, is: 140 N·m }, { is: 95 N·m }]
`;
