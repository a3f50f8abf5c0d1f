import { Outlines } from '../guide/outlines';
import { plainText, textInWords } from '../guide/text-in-words';
import type { BoundStep, Model } from '../model/model';
import type { Closure } from '../workspace/project';

/** Titles of steps with what they name printed: `{torque:front-shock.lower-bolt}` as the figure. */
export class Titles {
  private readonly outlines: Outlines;
  private readonly steps: ReadonlyMap<string, BoundStep>;

  constructor(
    private readonly model: Model,
    closure: Closure,
  ) {
    this.outlines = new Outlines((uri) => closure.library.document(uri));
    this.steps = new Map(model.steps.map((step) => [step.path, step]));
  }

  of({ path, title, place }: Pick<BoundStep, 'path' | 'title' | 'place'>): string {
    const step = this.steps.get(path);
    const outline = this.outlines.of(place.uri);
    if (step === undefined || outline === null || !title.includes('{')) return title;
    return plainText(textInWords(title, this.model, outline, step));
  }
}
