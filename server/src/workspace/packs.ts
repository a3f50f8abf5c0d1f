import base from '../rules/packs/base.rules.yaml';
import fasteners from '../rules/packs/fasteners.rules.yaml';
import lifting from '../rules/packs/lifting.rules.yaml';
import wheels from '../rules/packs/wheels.rules.yaml';
import { type Document, readDocument } from './document';

/** The standard packs, base first; a new one is a file in `rules/packs/` and a line here and above. */
const PACKS: Readonly<Record<string, string>> = { base, fasteners, lifting, wheels };

/** The standard packs as documents, read afresh. */
export function standardPacks(): Document[] {
  return Object.entries(PACKS).flatMap(([name, text]) => readDocument(`kitproof://packs/${name}.rules.yaml`, text) ?? []);
}
