import { isStandardPack } from '../workspace/packs';
import type { Context } from './context';
import { uriOfName } from './uris';

/** Where the rules are described: the catalogue that comes with the program, and the packs of a house. */
export class RulePages {
  private lines: Promise<ReadonlyMap<string, number>> | null = null;

  /** @param catalogue the name of `rules.md`; null where the program comes without it. */
  constructor(
    private readonly context: Context,
    private readonly catalogue: string | null,
  ) {}

  /** For each of some rules that a document is checked against, the address of what is said of it, with its line. */
  async of(document: string, rules: ReadonlySet<string>): Promise<ReadonlyMap<string, string>> {
    const { context, catalogue } = this;
    const found = new Map<string, string>();
    const rulebook = context.checker.closureOf(document)?.rulebook;
    this.lines ??= this.read();
    const lines = await this.lines;
    for (const id of rules) {
      const place = rulebook?.rules.get(id)?.place;
      if (place !== undefined && !isStandardPack(place.uri)) {
        const pack = await context.linesOf(place.uri);
        if (pack !== null)
          found.set(id, `${context.uriOf(place.uri)}#L${pack.positionAt(place.span.start).line + 1}`);
        continue;
      }
      const line = lines.get(id);
      if (line !== undefined && catalogue !== null) found.set(id, `${uriOfName(catalogue)}#L${line}`);
    }
    return found;
  }

  /** The line of each rule's heading in the catalogue, from 1. */
  private async read(): Promise<ReadonlyMap<string, number>> {
    const text = this.catalogue === null ? null : await this.context.texts.read(this.catalogue);
    const lines = new Map<string, number>();
    (text ?? '').split(/\r?\n/).forEach((line, index) => {
      if (line.startsWith(HEADING)) lines.set(line.slice(HEADING.length).trim(), index + 1);
    });
    return lines;
  }
}

const HEADING = '### ';
