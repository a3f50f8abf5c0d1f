import { type Edit, type Finding, type Fix, type Place, plainFinding } from '../findings/finding';
import type { Value } from './convert';
import type { Places } from './located';
import { childSpot, openSpot, type Schema, type Spot } from './spots';

/** More mistakes than this are counted, not told. */
const MAX_FINDINGS = 200;

/** What is found of keys that stand where they do not belong, as after a lost dash or a line that does not line up. */
const ECHOES: ReadonlySet<string> = new Set(['unknown-key', 'several-verbs', 'bad-condition']);

export type Holder = Value[] | { [key: string]: Value };
export type Key = string | number;

/** What the checks of one document share: its places, what was found, and what was left out because of it. */
export class Checking {
  /** Keys of maps whose value was dropped, or a list of which something was dropped. */
  readonly lost = new Map<object, Set<string>>();
  /** Quantities that were right, by dimension and text: guides repeat their figures. */
  readonly soundQuantities = new Set<string>();
  private readonly found: Finding[] = [];
  private readonly known = new Set<string>();
  private untold: Place | null = null;
  private readonly doomed = new Map<object, Set<Key>>();
  private readonly spots = new Map<Schema, Spot>();

  constructor(
    readonly places: Places,
    readonly placeKeys: ReadonlySet<string>,
    /** The text of the document where it is at hand. */
    readonly source: string | null,
  ) {}

  /** Tells of a mistake, once for each place: what an alias names is met at every use. */
  report(rule: string, place: Place, message: string, fixes: readonly Fix[] = []): void {
    const identity = `${rule} ${place.span.start} ${place.span.end}`;
    if (this.known.has(identity)) return;
    this.known.add(identity);
    // In a piece that could not be read whole a key out of place is most likely its echo.
    if (ECHOES.has(rule) && this.places.inDamage(place)) return;
    if (this.found.length < MAX_FINDINGS) this.found.push(plainFinding(rule, place, message, { fixes }));
    else this.untold ??= place;
  }

  /** Everything found, in order of place. */
  findings(): Finding[] {
    const sorted = this.found.sort((a, b) => a.place.span.start - b.place.span.start);
    if (this.untold === null) return sorted;
    const more = this.known.size - MAX_FINDINGS;
    const message = `${more} more mistakes of this sort were found; mend those told first.`;
    return [...sorted, plainFinding('too-many-findings', this.untold, message)];
  }

  /** Marks a value that is not of the right type; it is dropped when the document is pruned. */
  doom(holder: Holder, key: Key): void {
    const keys = this.doomed.get(holder);
    if (keys) keys.add(key);
    else this.doomed.set(holder, new Set([key]));
  }

  isDoomed(holder: Holder, key: Key): boolean {
    return this.doomed.get(holder)?.has(key) ?? false;
  }

  /** Remembers that a key of a map lost its value, or something of it. */
  lose(holder: object, key: string): void {
    const keys = this.lost.get(holder);
    if (keys) keys.add(key);
    else this.lost.set(holder, new Set([key]));
  }

  /** The schema of a key or element; each definition is opened once. */
  child(spot: Spot, key: Key): Spot | null {
    return childSpot(spot, key, (schema, file) => {
      let opened = this.spots.get(schema);
      if (!opened) {
        opened = openSpot(schema, file);
        this.spots.set(schema, opened);
      }
      return opened;
    });
  }
}

/** A fix that replaces one place. Choosing a word is a person's decision, so it is not safe to do unseen unless said. */
export function replacing(place: Place, text: string, title: string, safe = false): Fix {
  const edit: Edit = { place, text };
  return { title, edits: [edit], safe };
}
