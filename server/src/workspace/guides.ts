import type { Model } from '../model/model';
import type { Document } from './document';
import { bindGuideOf } from './engine';
import type { Closure, Project } from './project';

/** A guide as features of an editor see it: bound, and run as far as they ask. */
export interface OpenGuide {
  readonly document: Document;
  readonly closure: Closure;
  readonly model: Model;
}

/** Guides by document, each bound once for each text. */
export class Guides {
  private readonly known = new WeakMap<
    Document,
    { readonly beside: readonly Document[]; readonly guide: OpenGuide }
  >();

  constructor(private readonly project: Project) {}

  /** The guide of a name; null where it is none. */
  async open(name: string): Promise<OpenGuide | null> {
    const document = await this.project.open(name);
    if (document?.kind !== 'install') return null;
    const closure = await this.project.closureOf(document);
    const beside = [...closure.documents.values(), ...closure.housePacks, ...closure.times];
    const known = this.known.get(document);
    if (
      known !== undefined &&
      known.guide.closure.configuration === closure.configuration &&
      known.beside.length === beside.length &&
      known.beside.every((one, index) => one === beside[index])
    )
      return known.guide;
    const guide = { document, closure, model: bindGuideOf(closure) };
    this.known.set(document, { beside, guide });
    return guide;
  }
}
