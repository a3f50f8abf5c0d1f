import { textInWords } from '../lsp/text-in-words';
import type { BoundStep, Model } from '../model/model';
import { type GuideOutline, outlineOf } from '../model/outline';
import type { Closure } from '../workspace/project';

/** Titles of steps with what they name printed: `{torque:front-shock.lower-bolt}` as the figure. */
export class Titles {
  private readonly outlines = new Map<string, GuideOutline | null>();
  private readonly steps: ReadonlyMap<string, BoundStep>;

  constructor(
    private readonly model: Model,
    private readonly closure: Closure,
  ) {
    this.steps = new Map(model.steps.map((step) => [step.path, step]));
  }

  of({ path, title, place }: Pick<BoundStep, 'path' | 'title' | 'place'>): string {
    const step = this.steps.get(path);
    const outline = this.outline(place.uri);
    if (step === undefined || outline === null || !title.includes('{')) return title;
    return textInWords(title, this.model, outline, step)
      .map(({ text }) => text)
      .join('');
  }

  /** The guide that a step is written in, which its texts speak of. */
  private outline(uri: string): GuideOutline | null {
    let outline = this.outlines.get(uri);
    if (outline === undefined) {
      const document = this.closure.documents.get(uri);
      const opened = document === undefined ? null : this.closure.opened(document);
      outline = opened?.kind === 'install' ? outlineOf(opened) : null;
      this.outlines.set(uri, outline);
    }
    return outline;
  }
}
