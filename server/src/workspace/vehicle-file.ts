import { applyEdits } from '../edit/apply';
import { setKey } from '../edit/maps';
import { asElement, IN_BRACES, type Layout, type Value } from '../edit/write';
import type { Edit, Finding } from '../findings/finding';
import { STRUCTURE } from '../model/builtins';
import type { Joint, Model, Part, Thing } from '../model/model';
import { openDocument } from '../schema/document';
import { find } from '../text/access';
import { drive } from './drive';
import { checkGuideOf } from './engine';
import type { OpenGuide } from './guides';
import { declarationOf } from './missing';
import { baseName, folderOf, resolvePath } from './paths';
import type { Closure, Project } from './project';

/** A vehicle file to be made for a guide that has none, and what makes the guide name it. */
export interface NewVehicle {
  readonly uri: string;
  readonly text: string;
  /** In the guide; none where it names the file already. */
  readonly edits: readonly Edit[];
}

const LINES: Layout = { ...IN_BRACES, flow: (_, depth) => depth > 1 };

/**
 * The vehicle file for a guide without one: what the guide names, with kinds as guessed, sides, joints and figures as the
 * guide has them. Nothing where there is one, where its place is taken, or where the guide would be judged worse for it.
 */
export async function newVehicleFor(
  guide: OpenGuide,
  project: Project,
  today: string,
): Promise<NewVehicle | null> {
  const { document, closure, model } = guide;
  const { root } = document.reading;
  if (!model.withoutVehicle || root?.kind !== 'map') return null;
  const named = find(root, 'vehicle', document.reading)?.value.value;
  const path = typeof named === 'string' ? named.trim() : `${stem(baseName(document.uri))}.vehicle.yaml`;
  const uri = resolvePath(folderOf(document.uri), path);
  if (await project.exists(uri)) return null;
  const edits =
    typeof named === 'string'
      ? []
      : setKey(document, root, 'vehicle', path, { behind: ['kitproof', 'title'] });
  const things = [...model.things.values()].filter(isOfVehicle);
  const guideText = edits === null ? null : applyEdits(document.text, edits);
  if (edits === null || guideText === null || things.length === 0) return null;
  const before = (await drive(checkGuideOf(closure, today)))?.findings ?? [];
  // What joins what is a guess: where it makes the guide worse, the file says nothing of it.
  for (const joined of [true, false]) {
    const text = vehicleText(model, things, joined);
    const after = await drive(checkGuideOf(withVehicle(closure, uri, text, guideText), today));
    if (after !== null && isNoWorse(before, after.findings)) return { uri, text, edits };
  }
  return null;
}

const isOfVehicle = (thing: Thing): boolean =>
  thing.origin === 'implied' && !thing.startsOff && !STRUCTURE.has(thing.name);

const stem = (name: string): string => name.replace(/(\.install)?\.ya?ml$/, '');

function vehicleText(model: Model, things: readonly Thing[], joined: boolean): string {
  const figures = figuresOf(model);
  const parts: Record<string, Value> = {};
  const lines: Record<string, Value> = {};
  for (const thing of things) {
    const { joints: _, ...said } = declarationOf(thing);
    if (thing.type === 'line') {
      lines[thing.name] = said;
      continue;
    }
    const joins = joined ? joinsOf(thing, things) : [];
    const joints = [...thing.joints.values()].map((joint): [string, Value] => {
      const torque = figures.get(joint);
      return [joint.name, torque === undefined ? {} : { torque }];
    });
    parts[thing.name] = {
      ...said,
      ...(joins.length > 0 ? { joins } : {}),
      ...(joints.length > 0 ? { joints: Object.fromEntries(joints) } : {}),
    };
  }
  const value: Value = {
    kitproof: 'vehicle/1',
    name: 'Vehicle',
    note: 'Drawn up from what a guide names. Put in its name, what joins what, and the figures of the vehicle maker.',
    ...(Object.keys(parts).length > 0 ? { parts } : {}),
    ...(Object.keys(lines).length > 0 ? { lines } : {}),
  };
  return `${asElement(value, 0, LINES, '\n')}\n`;
}

/** The figures to which the guide torques joints, as it writes them; none where it writes several. */
function figuresOf(model: Model): Map<Joint, string> {
  const figures = new Map<Joint, string>();
  const unclear = new Set<Joint>();
  for (const step of model.steps)
    for (const operation of step.operations) {
      const to = operation.qualifiers.get('to');
      if (operation.verb !== 'torque' || typeof to !== 'string' || operation.figure === null) continue;
      for (const target of operation.targets) {
        const joints =
          target.type === 'joint'
            ? [target.joint]
            : target.type === 'part'
              ? [...target.part.joints.values()]
              : [];
        for (const joint of joints) {
          if (figures.has(joint) && figures.get(joint) !== to) unclear.add(joint);
          figures.set(joint, to);
        }
      }
    }
  for (const joint of unclear) figures.delete(joint);
  return figures;
}

const ENDS = ['front', 'rear'] as const;

/** A wheel joins the axle of its end; what limits its drop, and a spring, joins it to the frame. */
function joinsOf(part: Part, things: readonly Thing[]): string[] {
  const words = part.name.split('-');
  const end = ENDS.find((word) => words.includes(word));
  const axle = things.find(
    (one) =>
      one.type === 'part' && one.attributes.axle && end !== undefined && one.name.split('-').includes(end),
  );
  if (axle === undefined || axle === part) return [];
  if (part.attributes.wheel) return [axle.name];
  return part.attributes.limitsDrop || part.attributes.storesEnergy ? ['frame', axle.name] : [];
}

/** The closure as it will be with the file and the edits made. */
function withVehicle(closure: Closure, uri: string, vehicleText: string, guideText: string): Closure {
  const { document, library } = closure;
  const vehicle = openDocument(uri, vehicleText, { ours: true });
  const guide = openDocument(document.uri, guideText, { ours: true });
  return {
    ...closure,
    opened: (one) => (one === document ? guide : closure.opened(one)),
    library: {
      ...library,
      document: (asked) =>
        asked === uri ? vehicle : asked === document.uri ? guide : library.document(asked),
      vehicles: [vehicle],
    },
  };
}

/** What only a kit can say is the writer's next step. */
const WANTS_A_KIT: ReadonlySet<string> = new Set(['left-without']);

/** Whether nothing is found that was not found before. */
function isNoWorse(before: readonly Finding[], after: readonly Finding[]): boolean {
  const known = new Set(before.map(identity));
  return after.every((finding) => known.has(identity(finding)) || WANTS_A_KIT.has(finding.rule));
}

/** What a finding is about; its place is another where text was put in before it. */
const identity = ({ rule, item = '', operation = '', message }: Finding): string =>
  [rule, item, operation, operation === '' ? message : ''].join('\n');
