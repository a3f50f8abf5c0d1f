/** Names that always exist. */

/** Words for where load and parts go to; a part that joins one of the first three stands on the vehicle itself. */
export const FIXED: ReadonlySet<string> = new Set(['frame', 'body', 'ground']);
/** The vehicle's own metal: a guide may drill, cut, weld and paint it, and a file may say what holes and faces it has. */
export const STRUCTURE: ReadonlySet<string> = new Set(['frame', 'body']);
/** What may be said of these in `parts`. */
export const SAID_OF_STRUCTURE: ReadonlySet<string> = new Set(['holes', 'faces', 'sided', 'note']);
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
