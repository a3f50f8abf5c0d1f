/** Changes of state in the words of the trade, for the trace. */

import type { Value } from '../simulate/state';

interface ChangeWords {
  readonly item: string;
  readonly side: string;
  readonly from: string;
  readonly to: string;
}

/** Item kinds that are shown: key prefix to the words of a value. The rest is bookkeeping. */
const SHOWN: Readonly<Record<string, (value: Value) => string>> = {
  position: (value) => String(value),
  part: (value) => {
    const text = String(value);
    if (text === 'boxed') return 'in the box';
    return text.startsWith('with:') ? `off with ${text.slice(5)}` : text;
  },
  line: (value) => (value === 'boxed' ? 'in the box' : String(value)),
  connected: (value) => (value === true ? 'connected' : 'disconnected'),
  clipped: (value) => (value === true ? 'clipped' : 'unclipped'),
  path: (value) => `by ${value}`,
  unbled: (value) => (value === true ? 'open, to be bled' : 'bled'),
  freed: (value) => (value === true ? 'freed' : 'seated'),
  compressed: (value) => (value === true ? 'compressed' : 'relaxed'),
  unloaded: (value) => (value === true ? 'unloaded' : 'loaded'),
  pressure: (value) => (typeof value === 'number' ? `${Math.round(value)} kPa` : String(value)),
  hold: (value) => (value === '' ? 'not held' : `held by ${String(value).replaceAll('+', ' and ')}`),
  drained: (value) => (value === true ? 'drained' : 'full'),
  safe: (value) => (value === true ? 'safe' : 'live'),
  switch: (value) => String(value),
  hole: (value) => (value === 'none' ? 'not drilled' : value === 'size' ? 'drilled to size' : String(value)),
  edge: (value) => (value === '' ? 'as it was' : String(value)),
  carry: (value) => (value === 'wheel' ? 'on its wheels' : `carried at the ${value}`),
  hang: (value) =>
    typeof value === 'number' ? (value === 0 ? 'hanging' : `${value} mm below hanging`) : 'at ride height',
  aids: (value) => (value === '' ? 'nothing' : String(value).replaceAll('+', ' and ')),
  chocked: (value) => (value === true ? 'chocked' : 'free to roll'),
  'lacks-pin': (value) => (value === true ? 'without its pin' : 'with its pin'),
};

/** The change in words, or null where it is no news to a reader. */
export function changeInWords(key: string, from: Value, to: Value): ChangeWords | null {
  const colon = key.indexOf(':');
  const kind = key.slice(0, colon);
  const words = SHOWN[kind];
  if (words === undefined) return null;
  const rest = key.slice(colon + 1);
  const { item, side } =
    kind === 'carry' || kind === 'hang' || kind === 'chocked'
      ? cornerOf(rest)
      : kind === 'aids'
        ? spotOf(rest)
        : instanceOf(rest);
  return { item, side, from: words(from), to: words(to) };
}

function instanceOf(text: string): { item: string; side: string } {
  const at = text.lastIndexOf('@');
  return at < 0
    ? { item: trimDot(text), side: '' }
    : { item: trimDot(text.slice(0, at)), side: text.slice(at + 1) };
}

/** The one end of a line without named ends has no name. */
const trimDot = (text: string) => (text.endsWith('.') ? text.slice(0, -1) : text);

function cornerOf(text: string): { item: string; side: string } {
  const colon = text.lastIndexOf(':');
  return { item: text.slice(0, colon), side: text.slice(colon + 1) };
}

function spotOf(text: string): { item: string; side: string } {
  if (text.startsWith('part:')) {
    const { item, side } = instanceOf(text.slice(5));
    return { item: `under ${item}`, side };
  }
  const at = text.indexOf('@');
  const { item, side } = cornerOf(text.slice(at + 1));
  return { item: text.startsWith('body') ? `under the body at ${item}` : `under ${item}`, side };
}
