// The moment when the weight comes back on the wheels.
import { type Corner, isOn, isThere, type Part, RIDE } from './car.ts';
import { isA } from './facts.ts';
import { type Floor, jointName, nameOf } from './floor.ts';

/** The vehicle comes to stand on its wheels at these corners. */
export function landed(floor: Floor, corners: readonly Corner[]): void {
  for (const corner of corners) {
    wheelCarries(floor, corner);
    jointsCarry(floor, corner);
    bellowsCarry(floor, corner);
  }
  for (const corner of corners) {
    corner.tyre = true;
    corner.lift.clear();
    corner.hang = RIDE;
  }
}

/** Without a wheel it comes down on its hub; on loose nuts the wheel tilts and tears the studs. */
function wheelCarries(floor: Floor, corner: Corner): void {
  if (corner.wheels.length === 0) return;
  const wheels = corner.wheels.filter(isOn);
  if (wheels.length === 0) {
    floor.note('crushes', corner.wheels[0]!.fact.name, `There is no wheel at ${corner.name} to stand on.`);
    return;
  }
  for (const wheel of wheels)
    for (const joint of wheel.joints)
      if (joint.grip === 'out' || joint.grip === 'caught' || joint.grip === 'slack')
        floor.note(
          'loose',
          wheel.fact.name,
          `The weight comes on ${nameOf(wheel)} before its nuts are seated.`,
        );
}

/** A bolt that only hangs in its thread is sheared, or drops out, when arm or link takes the weight. */
function jointsCarry(floor: Floor, corner: Corner): void {
  for (const part of floor.car.everyPart) {
    if (!isThere(part) || !carriesWheel(floor, corner, part)) continue;
    for (const joint of part.joints)
      if (joint.grip === 'out' || joint.grip === 'caught')
        floor.note(
          'loose',
          jointName(joint),
          `The weight comes on ${jointName(joint)}, which is only started.`,
        );
  }
}

/** What is between wheel and frame: it is in the wheel's own chain, or bolted to it as a part of suspension or steering. */
function carriesWheel({ car }: Floor, corner: Corner, part: Part): boolean {
  if (isA(part.fact, 'wheel') || !(car.cornersOf.get(part)?.includes(corner) ?? false)) return false;
  if (corner.chain.has(part)) return true;
  const system = part.fact.body.system;
  if (system !== 'suspension' && system !== 'steering') return false;
  return part.fact.joins.some((name) =>
    [...corner.chain].some((one) => one.fact.name === name || one.fact.replaces.includes(name)),
  );
}

/** Bellows without air are pinched between their plates. */
function bellowsCarry(floor: Floor, corner: Corner): void {
  for (const part of floor.car.everyPart) {
    if (!isOn(part) || !isA(part.fact, 'air-spring')) continue;
    if (!(floor.car.cornersOf.get(part)?.includes(corner) ?? false)) continue;
    if (part.pressure < (part.fact.pressure?.low ?? 1) * 0.98)
      floor.note(
        'crushes',
        part.fact.name,
        `The weight comes on ${nameOf(part)} while there is no air in it.`,
      );
  }
}
