import picocolors from 'picocolors';
import { type Arguments, choiceOf } from './command';
import type { Io } from './io';

export type Colours = ReturnType<typeof picocolors.createColors>;

export const COLOUR_OPTION = { color: { type: 'string' } } as const;

/** What it takes. */
export const COLOUR_CHOICE = { color: ['auto', 'always', 'never'] } as const;

/** Colour as asked for; of itself on a terminal, unless NO_COLOR is set to anything or the terminal is dumb. */
export function coloursFor(args: Arguments, io: Io): Colours {
  const asked = choiceOf(args, 'color', COLOUR_CHOICE.color, 'auto');
  const { NO_COLOR, TERM } = io.environment;
  const wanted = io.outIsTerminal && (NO_COLOR === undefined || NO_COLOR === '') && TERM !== 'dumb';
  return picocolors.createColors(asked === 'always' || (asked === 'auto' && wanted));
}
