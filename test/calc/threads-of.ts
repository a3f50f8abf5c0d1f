import { type GradeName, type Strength, strengthOf } from '../../server/src/calc/strength';
import { parseThread, type Thread } from '../../server/src/calc/threads';

/** A thread that must be one. */
export function thread(text: string): Thread {
  const result = parseThread(text);
  if (!result.ok) throw new Error(result.message);
  return result.thread;
}

/** Why a text is no thread. */
export function refusal(text: string): string {
  const result = parseThread(text);
  if (result.ok) throw new Error(`${text} was read as ${JSON.stringify(result.thread)}`);
  return result.message;
}

/** The strength of a class or grade that must go with a thread. */
export function strength(grade: GradeName, of: Thread): Strength {
  const result = strengthOf(grade, of);
  if (!result.ok) throw new Error(result.message);
  return result.strength;
}
