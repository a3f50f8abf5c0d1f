import type { Finding, Fix, Span } from '../findings/finding';
import { type Checked, checkedGuide } from './checked-guide';
import { drive, type Wanted } from './drive';
import { type Many, type Mended, mendMany } from './fix-all';
import { fixesFor } from './fixes';
import type { OpenGuide } from './guides';

/** Guides for which fixes were tried are kept, so many: a writer looks about in a few places of one text. */
const MOST_GUIDES = 3;

/** What was tried of a guide, for one text of it and of all that it leads to. */
interface Tried {
  readonly today: string;
  readonly checked: Checked;
  readonly fixes: Map<Finding, readonly Fix[]>;
}

/** Fixes of the findings of open guides, tried when they are asked for and remembered as long as nothing changes. */
export class TriedFixes {
  private readonly known = new Map<OpenGuide, Tried>();

  /** What is found in a guide; null where it was cancelled. */
  async checked(guide: OpenGuide, today: string, wanted: Wanted): Promise<Checked | null> {
    return (await this.of(guide, today, wanted))?.checked ?? null;
  }

  /** The fixes of a finding of `checked`; null where it was cancelled. */
  async fixes(
    guide: OpenGuide,
    finding: Finding,
    today: string,
    wanted: Wanted,
  ): Promise<readonly Fix[] | null> {
    const tried = await this.of(guide, today, wanted);
    if (tried === null) return null;
    const known = tried.fixes.get(finding);
    if (known !== undefined) return known;
    const made = await drive(fixesFor(tried.checked, finding, today), wanted);
    if (made !== null) tried.fixes.set(finding, made);
    return made;
  }

  /** Mends many findings in one go; null where that cannot be, or where it was cancelled. */
  async many(guide: OpenGuide, many: Many, today: string, wanted: Wanted): Promise<Mended | null> {
    const checked = await this.checked(guide, today, wanted);
    return checked === null ? null : drive(mendMany(checked, today, many), wanted);
  }

  private async of(guide: OpenGuide, today: string, wanted: Wanted): Promise<Tried | null> {
    const known = this.known.get(guide);
    if (known?.today === today) return known;
    const checked = await drive(checkedGuide(guide.closure, today), wanted);
    if (checked === null) return null;
    const tried: Tried = { today, checked, fixes: new Map() };
    this.known.delete(guide);
    this.known.set(guide, tried);
    for (const old of this.known.keys()) {
      if (this.known.size <= MOST_GUIDES) break;
      this.known.delete(old);
    }
    return tried;
  }
}

/** Findings of a document that stand at a place, or touch it. */
export function findingsAt({ findings }: Checked, uri: string, span: Span): Finding[] {
  return findings.filter(
    ({ place }) => place.uri === uri && place.span.start <= span.end && span.start <= place.span.end,
  );
}
