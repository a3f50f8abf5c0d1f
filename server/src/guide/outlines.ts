import type { BoundStep } from '../model/model';
import { type GuideOutline, outlineOf, type StepOutline } from '../model/outline';
import type { OpenDocument } from '../schema/document';

/** The outlines of a guide and of those whose sections it uses, each made once. */
export class Outlines {
  private readonly made = new Map<string, GuideOutline | null>();

  /** @param open a document by its uri; null where there is none. */
  constructor(private readonly open: (uri: string) => OpenDocument | null) {}

  /** Null for what is no guide. */
  of(uri: string): GuideOutline | null {
    const known = this.made.get(uri);
    if (known !== undefined) return known;
    const document = this.open(uri);
    const outline = document?.kind === 'install' ? outlineOf(document) : null;
    this.made.set(uri, outline);
    return outline;
  }

  /** A step as it is written, be it in another guide; null where that cannot be read. */
  step({ path, place }: BoundStep): StepOutline | null {
    const own = path
      .slice(path.lastIndexOf('/') + 1)
      .split('.')
      .slice(-2)
      .join('.');
    const sections = this.of(place.uri)?.sections ?? [];
    return sections.flatMap(({ steps }) => steps).find((one) => one.path === own) ?? null;
  }
}
