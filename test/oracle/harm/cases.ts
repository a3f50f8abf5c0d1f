// A small sound job on a small car, for spoiling by hand: springs and shocks of one axle, a drag link, a hose, a cable, a drilled bracket.
export const VEHICLE = `
kitproof: vehicle/1
name: Small
traits: { lockers: [none, fitted] }
kinds: { wheel: { mass: 20 kg, joints: { nut: { bolts: 5, torque: 100 N·m } } } }
parts:
  front-axle: { kind: live-axle, mass: 100 kg, drop: 180 mm, limited-by: [front-shock] }
  rear-axle: { kind: live-axle, mass: 100 kg, drop: 180 mm, limited-by: [rear-shock] }
  front-wheel: { kind: wheel, joins: [front-axle] }
  rear-wheel: { kind: wheel, joins: [rear-axle] }
  front-shock: { kind: shock, mass: 4 kg, joins: [frame, front-axle], joints: { top-bolt: { torque: 60 N·m }, lower-bolt: { torque: 90 N·m, nut: self-locking } } }
  rear-shock: { kind: shock, mass: 4 kg, joins: [frame, rear-axle], joints: { bolt: { torque: 60 N·m } } }
  front-coil: { kind: coil-spring, mass: 7 kg, joins: [frame, front-axle], free-at: 100 mm }
  front-arm: { kind: radius-arm, mass: 9 kg, joins: [frame, front-axle], joints: { bolt: { torque: 120 N·m } } }
  drag-link:
    kind: drag-link
    mass: 3 kg
    under: guard
    joins: [box, front-axle]
    joints: { axle-nut: { nut: slotted, bushed: false, torque: 50-70 N·m } }
    ends: { axle-taper: { seat: taper } }
  box: { kind: steering-box, mass: 14 kg, joins: [frame] }
  guard: { kind: undertray, mass: 18 kg, joins: [frame], joints: { bolt: { bolts: 4, torque: 25 N·m } } }
lines:
  front-hose: { kind: brake-hose, sided: true, spans: [frame, front-axle], slack: 150 mm }
  locker-plug: { kind: plug, spans: [frame, front-axle], slack: 40 mm, when: { lockers: fitted } }
  park-cable: { kind: parking-brake-cable, spans: [frame, rear-axle], slack: 100 mm, retracts: true }
`;

export const KIT = `
kitproof: kit/1
name: Small springs
for: Small
parts:
  tall-coil: { kind: coil-spring, replaces: front-coil, pair: handed, quantity: 2, mass: 8 kg, free-at: 110 mm }
  rod-bracket: { kind: bracket, joins: [front-axle], mass: 2 kg, joints: { bolt: { bolts: 2, torque: 80 N·m } }, holes: { bolt-hole: { count: 2, size: 13 mm } } }
`;

export const GUIDE = `
kitproof: install/1
title: Tall springs
vehicle: v.yaml
kit: k.yaml
owes: [{ check: alignment, before: road }]
sections:
  - title: Job
    steps:
      - do: [{ loosen: [front-wheel.nut, rear-wheel.nut] }]
      - do: [{ raise: vehicle, with: two-post-lift }]
      - do: [{ unbolt: front-wheel }]
      - when: { lockers: fitted }
        do: [{ disconnect: locker-plug }]
      - do:
          - hold: park-cable
            with: locking-pliers
          - switch: parking-brake
            to: "off"
          - disconnect: park-cable
          - connect: park-cable
          - release: park-cable
          - switch: parking-brake
            to: "on"
      - people: 2
        do: [{ unbolt: guard }]
      - do:
          - remove: drag-link.axle-nut
          - free: drag-link.axle-taper
            with: ball-joint-puller
      - do: [{ loosen: front-arm }]
      - do: [{ support: front-axle, with: pole-jacks }]
      - do: [{ unbolt: front-shock }]
      - do:
          - lower: front-axle
            by: 120 mm
          - remove: front-coil
          - discard: front-coil
      - do:
          - offer: rod-bracket
          - mark: rod-bracket.bolt-hole
          - withdraw: rod-bracket
          - drill: rod-bracket.bolt-hole
            to: 13 mm
          - deburr: rod-bracket.bolt-hole
          - coat: rod-bracket.bolt-hole
          - bolt-up: rod-bracket
          - torque: rod-bracket.bolt
      - do: [{ fit: tall-coil }]
      - do: [{ raise: front-axle, by: 120 mm }]
      - do:
          - bolt-up: front-shock
          - snug: front-shock
            new: [nut]
          - seat: drag-link.axle-taper
          - torque: drag-link.axle-nut
          - renew: drag-link.axle-nut.pin
      - people: 2
        do:
          - bolt-up: guard
          - torque: guard.bolt
      - do:
          - lower: front-axle
          - unsupport: front-axle
      - when: { lockers: fitted }
        do: [{ connect: locker-plug }]
      - do:
          - bolt-up: front-wheel
          - snug: [front-wheel.nut, rear-wheel.nut]
      - do: [{ lower: vehicle }]
      - do:
          - torque: [front-wheel.nut, rear-wheel.nut]
            to: 100 N·m
          - torque: [front-arm, front-shock]
            at: ride-height
`;
