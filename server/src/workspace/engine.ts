import { asRuled } from '../check/check';
import { checkFasteners } from '../check/fasteners';
import type { Finding } from '../findings/finding';
import { checkTimes } from '../labour/check-times';
import { bindGuide } from '../model/bind';
import { checkDeclarations } from '../model/declarations';
import type { Model } from '../model/model';
import type { Library } from '../model/source';
import { checkPack } from '../rules/check-pack';
import type { Rulebook } from '../rules/rulebook';
import type { OpenDocument } from '../schema/document';
import { checkGuarded, type GuardedCheck } from './guard';
import type { Closure } from './project';

/** What is wrong in a vehicle, a kit, a pack or a file of times itself, whoever uses it. */
export function judge(document: OpenDocument, library: Library, rulebook: Rulebook): Finding[] {
  return [
    ...asRuled(checkDeclarations(document, library), rulebook),
    ...checkFasteners(document),
    ...checkPack(document, library),
    ...checkTimes(document, library),
  ];
}

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
