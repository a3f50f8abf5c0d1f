import type { Finding } from '../../server/src/findings/finding';
import { bindGuide } from '../../server/src/model/bind';
import { checkDeclarations } from '../../server/src/model/declarations';
import type { Joint, Line, Model, Part } from '../../server/src/model/model';
import type { Library, OpenDocument } from '../../server/src/model/source';
import { openDocument } from '../../server/src/schema/document';
import type { FixtureFile } from '../support/fixture';

/** A small pack: the tests of binding must not change with the base pack. */
export const PACK = `
kitproof: rules/1
pack: small
kinds:
  wheel: { system: wheels, sided: true, reach: outside, words: [road-wheel] }
  axle: { system: suspension, axle: true }
  live-axle: { kind: axle }
  shock: { system: suspension, sided: true, bushed: true, limits-drop: true, words: [damper, shock-absorber] }
  coil-spring: { system: suspension, stores-energy: true, words: [coil] }
  track-bar: { system: suspension, bushed: true }
  bracket: { }
  line: { }
  hydraulic-line: { kind: line, line-type: hydraulic }
  brake-hose: { kind: hydraulic-line, system: brakes }
  plug: { kind: line, line-type: electrical }
  cable: { kind: line, line-type: mechanical }
aids:
  two-post-lift: { raises: true, carries: true, lowers: true, work-under: true }
  trolley-jack: { raises: true, carries: true, lowers: true, jack: true, rating: 3000 kg }
  axle-stands: { carries: true, work-under: true, words: [stands] }
  wire: { holds: true }
pieces:
  nut: { single-use: no }
  bush: { single-use: no, words: [bushes] }
  split-pin: { single-use: out, words: [pin, cotter-pin] }
  sealing-washer: { single-use: out, words: [copper-washer] }
`;

/** Opens the files of a project, rule packs and place keys as the workspace would. */
export function library(files: readonly FixtureFile[], placeKeys: readonly string[] = []): Library {
  const keys = new Set(placeKeys);
  const opened = new Map<string, OpenDocument>();
  for (const { name, text } of files) opened.set(name, openDocument(name, text, { placeKeys: keys }));
  const documents = [...opened.values()];
  const packs = documents.filter((document) => document.kind === 'rules');
  return {
    document: (uri) => opened.get(uri) ?? null,
    resolve: (_from, path) => path,
    packs: packs.length > 0 ? packs : [openDocument('small.rules.yaml', PACK)],
    vehicles: documents.filter((document) => document.kind === 'vehicle'),
  };
}

export interface Project {
  readonly library: Library;
  readonly model: Model;
  readonly findings: readonly Finding[];
}

/** Binds the first guide of a project. */
export function bind(files: readonly FixtureFile[], placeKeys: readonly string[] = []): Project {
  const made = library(files, placeKeys);
  const guide = files.find((file) => made.document(file.name)?.kind === 'install')!;
  const model = bindGuide(made.document(guide.name)!, made);
  return { library: made, model, findings: model.findings };
}

/** Everything that is found in a project by reading, and by binding its guides and declarations. */
export function checkProject(files: readonly FixtureFile[]): Finding[] {
  const made = library(files);
  return files.flatMap(({ name }) => {
    const document = made.document(name)!;
    const own =
      document.kind === 'install' ? bindGuide(document, made).findings : checkDeclarations(document, made);
    return [...document.findings, ...own];
  });
}

export function partOf(model: Model, name: string): Part {
  const thing = model.things.get(name);
  if (thing?.type !== 'part') throw new Error(`no part ${name}`);
  return thing;
}

export function lineOf(model: Model, name: string): Line {
  const thing = model.things.get(name);
  if (thing?.type !== 'line') throw new Error(`no line ${name}`);
  return thing;
}

export function jointOf(model: Model, full: string): Joint {
  const [part = '', joint = ''] = full.split('.');
  const found = partOf(model, part).joints.get(joint);
  if (found === undefined) throw new Error(`no joint ${full}`);
  return found;
}
