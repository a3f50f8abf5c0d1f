import airbags from '../rules/packs/airbags.rules.yaml';
import base from '../rules/packs/base.rules.yaml';
import brakes from '../rules/packs/brakes.rules.yaml';
import driveline from '../rules/packs/driveline.rules.yaml';
import electrical from '../rules/packs/electrical.rules.yaml';
import fasteners from '../rules/packs/fasteners.rules.yaml';
import fuel from '../rules/packs/fuel.rules.yaml';
import general from '../rules/packs/general.rules.yaml';
import highVoltage from '../rules/packs/high-voltage.rules.yaml';
import lifting from '../rules/packs/lifting.rules.yaml';
import steering from '../rules/packs/steering.rules.yaml';
import suspension from '../rules/packs/suspension.rules.yaml';
import towing from '../rules/packs/towing.rules.yaml';
import wheels from '../rules/packs/wheels.rules.yaml';
import { type Document, readDocument } from './document';

/** The standard packs, base first; a new one is a file in `rules/packs/` and a line here and above. */
const PACKS: Readonly<Record<string, string>> = {
  base,
  airbags,
  brakes,
  driveline,
  electrical,
  fasteners,
  fuel,
  general,
  'high-voltage': highVoltage,
  lifting,
  steering,
  suspension,
  towing,
  wheels,
};

let read: readonly Document[] | null = null;

/** The standard packs as documents. Their texts never change, so they are read once. */
export function standardPacks(): readonly Document[] {
  read ??= Object.entries(PACKS).flatMap(
    ([name, text]) => readDocument(`kitproof://packs/${name}.rules.yaml`, text) ?? [],
  );
  return read;
}
