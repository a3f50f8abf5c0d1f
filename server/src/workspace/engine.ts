import { bindGuide } from '../model/bind';
import type { Model } from '../model/model';
import { checkGuarded, type GuardedCheck } from './guard';
import type { Closure } from './project';

/** A guide bound to its vehicle, kits and packs. */
export function bindGuideOf(closure: Closure): Model {
  return bindGuide(closure.opened(closure.document), closure.library);
}

/** The check of a guide, as work to be driven. */
export function* checkGuideOf(closure: Closure, today: string): Generator<unknown, GuardedCheck, void> {
  const model = bindGuideOf(closure);
  yield;
  return yield* checkGuarded(model, closure.rulebook, today);
}
