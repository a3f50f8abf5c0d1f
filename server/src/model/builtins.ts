/** Names that always exist. */

/** Words for where load and parts go to; a part that joins one of the first three stands on the vehicle itself. */
export const FIXED: ReadonlySet<string> = new Set(['frame', 'body', 'ground']);
export const SPATIAL: ReadonlySet<string> = new Set(['vehicle', 'body', 'frame', 'ground', 'front', 'rear']);
/** Systems that are isolated, restored, switched, drained and filled. */
export const SYSTEMS: ReadonlySet<string> = new Set([
  'battery',
  'airbags',
  'high-voltage',
  'ignition',
  'levelling',
  'parking-brake',
  'fuel-pressure',
  'air-tank',
]);

export const isBuiltIn = (name: string): boolean => SPATIAL.has(name) || SYSTEMS.has(name);
