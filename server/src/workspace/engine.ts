import { checkGuide, type GuideCheck } from '../check/check';
import { bindGuide } from '../model/bind';
import type { Model } from '../model/model';
import type { Closure } from './project';

/** A guide bound to its vehicle, kits and packs. */
export function bindGuideOf(closure: Closure): Model {
  return bindGuide(closure.opened(closure.document), closure.library);
}

/** The check of a guide, as work to be driven. */
export function* checkGuideOf(closure: Closure, today: string): Generator<unknown, GuideCheck, void> {
  const model = bindGuideOf(closure);
  yield;
  return yield* checkGuide(model, closure.rulebook, today);
}
