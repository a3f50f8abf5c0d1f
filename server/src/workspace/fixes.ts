/** Fixes that were tried: each is applied, the guide is checked anew, and only what mends is offered (design §3.3). */

import { nearby } from '../check/repairs/nearby';
import { outcomeOf } from '../check/repairs/outcome';
import { plansFor } from '../check/repairs/plans';
import type { Fault, Plan, PlanKind } from '../check/repairs/repair';
import { small } from '../check/repairs/words';
import { applyEdits, editsByDocument } from '../edit/apply';
import { type Change, differences } from '../edit/difference';
import type { Edit, Finding, Fix } from '../findings/finding';
import { blinder, type Checked, checkedGuide, editsBetween, faultOf, textOf, told } from './checked-guide';
import { withTexts } from './rebound';

/** How far a search goes: in runs of the check, so that the answer is the same on every machine. */
export interface Bounds {
  readonly runs: number;
  readonly fixes: number;
  /** The only kinds of change that are tried; all without it. */
  readonly kinds?: readonly PlanKind[] | undefined;
  /** What a fix may bring: it is mended next. Nothing without it. */
  readonly brings?: ((fresh: Finding, mended: Finding) => boolean) | undefined;
}

export const BOUNDS: Bounds = { runs: 48, fixes: 4 };

/** Fixes of one kind that are offered. */
const MOST_OF_A_KIND = 2;
/** Changes one after another, the first for the finding itself and each further for what the one before brought. */
const MOST_CHANGES = 4;
/** Findings that a change may bring and still be followed up. */
const MOST_FRESH = 4;
/** Plans that are tried for a finding that a change brought. */
const MOST_FOLLOWING = 5;
/** Changes that are followed up. */
const MOST_FOLLOWED = 5;

const KINDS: readonly PlanKind[] = ['in place', 'move', 'insert'];

interface Found {
  readonly kind: PlanKind;
  readonly fix: Fix;
}

/** A change that does away with the finding, and brings others. */
interface Partial {
  readonly plan: Plan;
  /** What was done so far. */
  readonly titles: readonly string[];
  readonly after: Checked;
  readonly fresh: readonly Finding[];
}

/**
 * The fixes of a finding: least first (a word, then the order of steps, then new work). Work to be driven; each run of the
 * check counts against the bounds.
 */
export function* fixesFor(
  checked: Checked,
  finding: Finding,
  today: string,
  bounds: Bounds = BOUNDS,
): Generator<unknown, Fix[], void> {
  const search = new Search(checked, finding, today, bounds);
  yield* search.run();
  return search.fixes();
}

class Search {
  private readonly found: Found[] = [];
  private readonly partial: Partial[] = [];
  private readonly tried = new Set<string>();
  private left: number;

  constructor(
    private readonly base: Checked,
    private readonly target: Finding,
    private readonly today: string,
    private readonly bounds: Bounds,
  ) {
    this.left = bounds.runs;
  }

  fixes(): Fix[] {
    return KINDS.flatMap((kind) => this.found.filter((one) => one.kind === kind))
      .map(({ fix }) => fix)
      .slice(0, this.bounds.fixes);
  }

  *run(): Generator<unknown, void, void> {
    const fault = faultOf(this.base, this.target);
    yield* this.tryAll(plansOf(this.target, fault));
    if (this.found.length < 2) {
      const best = [...this.partial].sort((a, b) => a.fresh.length - b.fresh.length).slice(0, MOST_FOLLOWED);
      for (const one of best) {
        if (this.found.length >= this.bounds.fixes) return;
        if (this.enough(one.plan)) continue;
        const made = yield* this.follow(one, 1);
        if (made !== null) this.take(one.plan.kind, made);
      }
    }
    if (this.found.length === 0 && fault !== null) yield* this.tryAll(plansIn(nearby(fault)));
  }

  private *tryAll(plans: Iterable<CarriedPlan>): Generator<unknown, void, void> {
    for (const plan of plans) {
      if (this.left <= 0 || this.found.length >= this.bounds.fixes) return;
      if (this.bounds.kinds?.includes(plan.kind) === false || this.enough(plan)) continue;
      const tried = yield* this.attempt(this.base, plan);
      if (tried === null) continue;
      if (tried.fresh.length > 0) {
        const known = this.partial.find(({ plan: { title } }) => title === plan.title);
        if (tried.fresh.length <= MOST_FRESH && known === undefined)
          this.partial.push({ plan, titles: [plan.title], after: tried.after, fresh: tried.fresh });
        continue;
      }
      this.take(plan.kind, { titles: [plan.title], drafts: plan.drafts, edits: plan.edits, safe: plan.safe });
    }
  }

  /** Whether there is such a fix already, or enough of its kind. */
  private enough({ kind, title }: Plan): boolean {
    const alike = this.found.filter((one) => one.kind === kind);
    return alike.length >= MOST_OF_A_KIND || alike.some(({ fix }) => fix.title.startsWith(title));
  }

  private take(kind: PlanKind, made: Made): void {
    const [first = '', ...more] = made.titles;
    const last = more.pop();
    const title = last === undefined ? first : `${[first, ...more].join(', ')}, and ${last}`;
    const drafts =
      made.drafts === 0 ? '' : made.drafts === 1 ? ' (a draft step)' : ` (${made.drafts} draft steps)`;
    if (this.found.some(({ fix }) => fix.title === title + drafts)) return;
    this.found.push({ kind, fix: { title: title + drafts, edits: made.edits, safe: made.safe } });
  }

  /** Mends what a change brought, one finding after another, until nothing new stands. */
  private *follow(one: Partial, depth: number): Generator<unknown, Made | null, void> {
    const [fresh] = one.fresh;
    if (fresh === undefined || depth >= MOST_CHANGES) return null;
    const fault = faultOf(one.after, fresh);
    const deeper: Partial[] = [];
    let count = 0;
    for (const plan of plansOf(fresh, fault)) {
      if (this.left <= 0) return null;
      if (!goesOn(one.plan, plan)) continue;
      if (count++ >= MOST_FOLLOWING) break;
      const tried = yield* this.attempt(one.after, plan);
      if (tried === null) continue;
      const { after } = tried;
      const joined: Plan = {
        kind: one.plan.kind,
        title: one.plan.title,
        edits: [],
        drafts: one.plan.drafts + plan.drafts,
      };
      const titles = [...one.titles, continued(this.target, fresh, plan)];
      if (tried.fresh.length === 0)
        return { titles, drafts: joined.drafts, edits: editsBetween(this.base, after), safe: false };
      const stillThere = tried.fresh.some(({ rule, item }) => rule === fresh.rule && item === fresh.item);
      if (tried.fresh.length <= one.fresh.length && !stillThere)
        deeper.push({ plan: joined, titles, after, fresh: tried.fresh });
    }
    for (const next of deeper.slice(0, 2)) {
      const made = yield* this.follow(next, depth + 1);
      if (made !== null) return made;
    }
    return null;
  }

  /** Applies a plan and checks anew; null where the finding is still there, or the text cannot be so changed. */
  private *attempt(
    from: Checked,
    plan: Plan,
  ): Generator<unknown, { after: Checked; fresh: readonly Finding[] } | null, void> {
    const texts = new Map(from.texts);
    for (const [uri, edits] of editsByDocument(plan.edits)) {
      const text = textOf(from, uri);
      const made = text === null ? null : applyEdits(text, edits);
      if (made === null) return null;
      texts.set(uri, made);
    }
    const key = JSON.stringify([...texts]);
    if (this.tried.has(key)) return null;
    this.tried.add(key);
    const closure = withTexts(from.closure, texts);
    if (closure === null) return null;
    this.left--;
    const after = yield* checkedGuide(closure, this.today, texts);
    const { base, target } = this;
    const changes = new Map<string, Change[]>(
      [...texts].map(([uri, text]) => [uri, differences(textOf(base, uri) ?? '', text)]),
    );
    const { gone, fresh } = outcomeOf(told(base), told(after), target, changes);
    if (!gone || blinder(base, after, target.rule)) return null;
    const { brings } = this.bounds;
    return { after, fresh: brings === undefined ? fresh : fresh.filter((one) => !brings(one, target)) };
  }
}

interface Made {
  readonly titles: readonly string[];
  readonly drafts: number;
  readonly edits: readonly Edit[];
  readonly safe: boolean;
}

/** Whether a plan may follow another: steps that were moved by moves, new work by new work, a word by a word. */
function goesOn(first: Plan, next: Plan): boolean {
  if (next.takesOut === true) return false;
  return first.kind === 'insert' ? next.kind !== 'move' : first.kind === next.kind;
}

/** A plan as the end of a sentence. */
function continued(target: Finding, fresh: Finding, { clause, title }: Plan): string {
  if (clause === undefined) return small(title);
  const debt = fresh.rule.startsWith('left-');
  const isLast = target.rule.startsWith('left-');
  const later = debt || (!isLast && fresh.place.span.start >= target.place.span.start);
  return `${clause} ${later ? 'later' : 'before that'}`;
}

type CarriedPlan = Plan & { readonly safe: boolean };

/** The fixes that a finding carries, then those that its rule leads to. */
function* plansOf(finding: Finding, fault: Fault | null): Generator<CarriedPlan> {
  for (const { title, edits, safe } of finding.fixes)
    yield { kind: 'in place', title, edits, drafts: 0, safe };
  if (fault !== null) for (const plan of plansFor(fault)) yield { ...plan, safe: false };
}

function* plansIn(plans: Iterable<Plan | null>): Generator<CarriedPlan> {
  for (const plan of plans) if (plan !== null) yield { ...plan, safe: false };
}
