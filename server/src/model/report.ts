/** Makes the findings of names: one plain sentence, the nearest known name, and the fix that writes it. */

import { type Finding, type Fix, type Place, plainFinding } from '../findings/finding';

/** Collects findings and drops a second one for the same rule and place. */
export class Report {
  readonly findings: Finding[] = [];
  private readonly seen = new Set<string>();

  /** A report that nobody reads. */
  quietly(): Report {
    return new Report();
  }

  /** Takes a finding that was made elsewhere. */
  keep(finding: Finding): void {
    this.findings.push(finding);
  }

  /** @param about tells findings of one rule at one place apart. */
  add(
    rule: string,
    place: Place,
    message: string,
    more: Partial<Finding> = {},
    about: string = more.item ?? '',
  ): void {
    const key = `${rule} ${place.uri} ${place.span.start} ${place.span.end} ${about}`;
    if (this.seen.has(key)) return;
    this.seen.add(key);
    this.findings.push(plainFinding(rule, place, message, more));
  }
}

/** Tells what is wrong in a section of another guide at the `use` that takes it: there it can be seen, and put right by `with:`. */
export class UseReport extends Report {
  constructor(
    private readonly inner: Report,
    private readonly place: Place,
    private readonly section: string,
  ) {
    super();
  }

  override add(rule: string, place: Place, message: string, more: Partial<Finding> = {}): void {
    const related = [{ place, message: 'Written here' }, ...(more.related ?? [])];
    const told = { ...more, related, fixes: [] };
    this.inner.add(rule, this.place, inSection(this.section, message), told, more.item ?? message);
  }
}

/** `In "Rear up": …`, for what a section of another guide says. */
export const inSection = (section: string, message: string): string =>
  section === '' ? `In the section used here: ${message}` : `In "${shown(section)}": ${message}`;

/** The fix that writes another word at a place; safe where no other could have been meant. */
export function writeInstead(place: Place, text: string, safe = false): Fix {
  return { title: `Write ${text}`, edits: [{ place, text }], safe };
}

/** `; did you mean front-shock?` with the fix, or nothing where no name is near. */
export function suggestion(
  place: Place,
  nearest: string | null,
  safe = false,
): { readonly hint: string; readonly fixes: readonly Fix[] } {
  return nearest === null
    ? { hint: '.', fixes: [] }
    : { hint: `; did you mean "${nearest}"?`, fixes: [writeInstead(place, nearest, safe)] };
}

/** `a, b and c`, cut short where there are many. */
export function listed(names: readonly string[], most = 8): string {
  const shown = names.slice(0, most);
  if (names.length > most) return `${shown.join(', ')} and ${names.length - most} more`;
  return shown.length < 2
    ? (shown[0] ?? '')
    : `${shown.slice(0, -1).join(', ')} and ${shown[shown.length - 1]}`;
}

/** A name as messages quote it, shortened where it is no name any more. */
export const shown = (name: string): string => (name.length > 60 ? `${name.slice(0, 60)}…` : name);
