import type { PrintedGuide } from '../../server/src/guide/printed';
import type { Table } from '../../server/src/guide/table';
import { plainText } from '../../server/src/guide/text-in-words';
import { diskFiles } from '../../server/src/workspace/disk';
import { memoryFiles } from '../../server/src/workspace/memory';
import { standardPacks } from '../../server/src/workspace/packs';
import { Project } from '../../server/src/workspace/project';
import { publishedGuide } from '../../server/src/workspace/publish';

export const VEHICLE = `kitproof: vehicle/1
name: Moorhen
traits: { wheelbase: [short, long], lockers: [none, fitted] }
parts:
  front-axle: { kind: live-axle, mass: 120 kg, drop: 190 mm, limited-by: [front-shock] }
  front-wheel: { kind: wheel, sided: true, joins: [front-axle], mass: 25 kg, joints: { nut: { bolts: 5, thread: M14x1.5, hex: 21 mm, torque: 130 N·m } } }
  front-shock:
    kind: shock
    sided: true
    mass: 4 kg
    joins: [frame, front-axle]
    joints:
      top-nut: { thread: M12x1.25, hex: 18 mm, nut: self-locking, stack: [bush], torque: 60 N·m, counterhold: 6 mm key }
      lower-bolt: { thread: M12x1.75, class: "10.9", hex: 18 mm, torque: 90 N·m }
  step-plate: { kind: trim, joins: [body], mass: 2 kg, joints: { screw: { bolts: 4, thread: M6x1.0, key: 5 mm, torque: 8 N·m } } }
`;

export const KIT = `kitproof: kit/1
name: Upland
options: { lift: [40 mm, 50 mm] }
parts:
  front-shock-50: { kind: shock, replaces: front-shock, quantity: 2, mass: 4.5 kg }
  guard: { kind: skid-plate, joins: [frame], mass: 21 kg, when: { lockers: fitted }, joints: { bolt: { bolts: 3, thread: M8x1.25, torque: 22 N·m } }, holes: { frame-hole: { count: 2, size: 9 mm } } }
hardware:
  bolt-m12x70: { thread: M12x1.75, class: "10.9", quantity: 2, for: front-shock-50.lower-bolt }
`;

/** A guide of these steps, for the vehicle and kit above. */
export const guideOf = (steps: string, head = ''): string => `kitproof: install/1
title: Upland kit
revision: B
date: 2026-03-01
vehicle: moorhen.vehicle.yaml
kit: upland.kit.yaml
${head}sections:
  - title: The work
    steps:
${steps.replace(/^/gm, '      ').trimEnd()}
`;

/** What is printed of a guide in memory. */
export async function printedOf(
  guide: string,
  { variant = {}, files = {} }: { variant?: Record<string, string>; files?: Record<string, string> } = {},
): Promise<PrintedGuide> {
  const contents = new Map(
    Object.entries({
      'moorhen.vehicle.yaml': VEHICLE,
      'upland.kit.yaml': KIT,
      'lift.install.yaml': guide,
      ...files,
    }).map(([name, text]) => [`/shop/${name}`, text]),
  );
  const project = new Project(memoryFiles(contents), standardPacks());
  const document = await project.open('/shop/lift.install.yaml');
  return publishedGuide(project, document!, new Map(Object.entries(variant)), '2026-03-14');
}

/** What is printed of a sample. */
export async function printedSample(path: string): Promise<PrintedGuide> {
  const project = new Project(diskFiles, standardPacks());
  const document = await project.open(`${process.cwd()}/samples/${path}.install.yaml`);
  return publishedGuide(project, document!, new Map(), '2026-03-14');
}

/** The rows of a list as maps by key, without what is empty. */
export const rowsOf = ({ columns, rows }: Table) =>
  rows.map((row) =>
    Object.fromEntries(
      columns.flatMap(({ key }, index) => {
        const cell = row[index];
        return cell === null || cell === '' || cell === undefined ? [] : [[key, cell]];
      }),
    ),
  );

export const stepOf = (guide: PrintedGuide, number: string) => {
  const step = guide.sections.flatMap(({ steps }) => steps).find((one) => one.number === number);
  if (step === undefined) throw new Error(`no step ${number}`);
  return { ...step, words: plainText(step.text) };
};
