// Threads, classes and holes for the joints of a random project, from a source of their own: what else is drawn stays as it is.
import { seeded } from './random.ts';
import { isMap, map, type Raw } from './raw.ts';

/** Gives some joints and holes of a document what bolts are judged by; some fit the figures, some do not. */
export function addBolts(seed: number, document: Raw): void {
  const random = seeded(seed ^ 0x5eed);
  for (const part of Object.values(map(document.parts))) {
    if (!isMap(part)) continue;
    for (const joint of Object.values(map(part.joints))) {
      if (!isMap(joint) || !random.chance(0.5)) continue;
      joint.thread = random.one(['M6', 'M8x1.25', 'M10x1.5', 'M12x1.75', 'M12x1.25', 'M14x1.5', 'M16']);
      if (joint.class === undefined && random.chance(0.8)) joint.class = random.one(['8.8', '10.9', '12.9']);
      if (random.chance(0.3)) joint.lubricated = true;
      if (random.chance(0.4)) joint.structural = seed % 4 !== 3;
      if (random.chance(0.3)) joint['nut-class'] = random.one(['8', '10', '12', '05']);
      if (random.chance(0.3)) {
        joint.into = random.one(['steel', 'cast-iron', 'aluminium']);
        joint.engagement = random.one(['8 mm', '12 mm', '18 mm', '25 mm', '1 in']);
      }
    }
    for (const hole of Object.values(map(part.holes))) {
      if (!isMap(hole)) continue;
      const use = random.one(['bolt', 'tap', 'none']);
      if (use === 'bolt') hole.bolt = random.one(['M8x1.25', 'M10x1.5', 'M12x1.75', 'M14']);
      if (use === 'tap') hole.tap = random.one(['M14', 'M16x1.5', 'M10']);
    }
  }
  for (const one of Object.values(map(document.hardware)))
    if (isMap(one)) {
      if (random.chance(0.5)) one.class = random.one(['8', '10']);
      if (random.chance(0.5)) one.thread = random.one(['M8x1.25', 'M10x1.5', 'M12x1.75', 'M12x1.25']);
    }
}
