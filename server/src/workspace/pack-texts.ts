import airbags from '../rules/packs/airbags.rules.yaml';
import base from '../rules/packs/base.rules.yaml';
import brakes from '../rules/packs/brakes.rules.yaml';
import cooling from '../rules/packs/cooling.rules.yaml';
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
import writing from '../rules/packs/writing.rules.yaml';

/**
 * The texts of the standard packs, base first; a new one is a file in `rules/packs/` and a line here and above. What is
 * bundled carries them twice: here without their examples, and whole beside the program (esbuild.mjs).
 */
export const PACK_TEXTS: Readonly<Record<string, string>> = {
  base,
  airbags,
  brakes,
  cooling,
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
  writing,
};
