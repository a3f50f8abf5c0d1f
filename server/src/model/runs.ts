/** The steps of a guide in the order in which they run, those it takes from other guides put in place. */

import { nearestName } from './nearest';
import {
  type GuideOutline,
  type OperationOutline,
  outlineOf,
  type SectionOutline,
  type StepOutline,
  sectionNamed,
} from './outline';
import { listed, type Report, shown, suggestion, UseReport } from './report';
import { type Cursor, entriesAt, type Library, textAt } from './source';

/** `use` within `use` may multiply; no guide has more operations. */
const MOST_OPERATIONS = 50_000;
const DEEPEST_USE = 16;

/** The use of a section of another guide, or the guide itself. */
export interface Frame {
  readonly outline: GuideOutline;
  /** Path of the use and `/`; empty for the guide itself. */
  readonly prefix: string;
  /** Names of that guide to names of this one; a misspelt one is put right before anything is bound by it. */
  readonly bindings: Map<string, string>;
  /** The use within its step, null for the guide itself. */
  readonly use: {
    readonly frame: Frame;
    readonly step: StepOutline;
    readonly operation: OperationOutline;
    /** What it takes. */
    readonly section: SectionOutline;
  } | null;
}

/** The uses that led to a frame, the guide's own first. */
export function usesOf(frame: Frame): NonNullable<Frame['use']>[] {
  const uses: NonNullable<Frame['use']>[] = [];
  for (let { use } = frame; use !== null; use = use.frame.use) uses.unshift(use);
  return uses;
}

/** Where a guide is told what is wrong in a frame of it: of a used section at the guide's own `use`. */
export function reportOf(frame: Frame, report: Report): Report {
  const [first] = usesOf(frame);
  return first === undefined
    ? report
    : new UseReport(report, first.operation.target.place, first.section.title);
}

/** A stretch of a step that runs without a `use` in between. */
export interface RunStep {
  readonly frame: Frame;
  readonly step: StepOutline;
  readonly operations: readonly OperationOutline[];
  /** Where `side: each` repeats a step that uses others: the one side of this repetition. */
  readonly only: 'left' | 'right' | null;
}

export interface Runs {
  readonly main: Frame;
  readonly steps: readonly RunStep[];
  /** Every frame, the guide's own first. */
  readonly frames: readonly Frame[];
}

/** Puts the used sections in place. Reports at the guide's own `use`; a used guide's own mistakes stand in it. */
export function runsOf(guide: GuideOutline, library: Library, report: Report): Runs {
  const main: Frame = { outline: guide, prefix: '', bindings: new Map(), use: null };
  const expansion = new Expansion(main, library, report);
  for (const section of guide.sections)
    for (const step of section.steps) expansion.step(main, step, null, []);
  return { main, steps: expansion.steps, frames: expansion.frames };
}

class Expansion {
  readonly steps: RunStep[] = [];
  readonly frames: Frame[];
  private readonly outlines = new Map<string, GuideOutline | null>();
  private left = MOST_OPERATIONS;

  constructor(
    main: Frame,
    private readonly library: Library,
    private readonly report: Report,
  ) {
    this.frames = [main];
    this.outlines.set(main.outline.document.uri, main.outline);
  }

  step(
    frame: Frame,
    step: StepOutline,
    only: 'left' | 'right' | null,
    open: readonly SectionOutline[],
  ): void {
    const uses = step.operations.some((operation) => operation.verb === 'use');
    const each = uses && only === null && sideOf(step.side) === 'each';
    for (const side of each ? (['left', 'right'] as const) : [only]) {
      let from = 0;
      step.operations.forEach((operation, index) => {
        if (operation.verb !== 'use') return;
        this.piece(frame, step, step.operations.slice(from, index), side);
        from = index + 1;
        this.use(frame, step, operation, side, open);
      });
      if (from === 0 || from < step.operations.length)
        this.piece(frame, step, step.operations.slice(from), side);
    }
  }

  private piece(
    frame: Frame,
    step: StepOutline,
    operations: readonly OperationOutline[],
    only: 'left' | 'right' | null,
  ): void {
    this.left -= operations.length + 1;
    if (this.left > 0 || frame.use === null) this.steps.push({ frame, step, operations, only });
  }

  private use(
    frame: Frame,
    step: StepOutline,
    operation: OperationOutline,
    only: 'left' | 'right' | null,
    open: readonly SectionOutline[],
  ): void {
    const found = this.section(frame, operation);
    if (found === null) return;
    const { outline, section } = found;
    const here = (usesOf(frame)[0]?.operation ?? operation).target.place;
    const stack = [...open, step.section];
    if (stack.includes(section)) {
      this.report.add('circular-use', here, `The section "${shown(section.title)}" uses itself.`);
      return;
    }
    if (stack.length > DEEPEST_USE || this.left <= 0) {
      this.report.add('circular-use', here, 'This takes in more steps than any guide has; it is left out.');
      return;
    }
    const bindings = new Map<string, string>();
    for (const [theirs, ours] of entriesAt(operation.cursor, 'with')) {
      // What is written here speaks this guide's names, which may be bound themselves.
      if (ours.text !== null) bindings.set(theirs, bound(frame.bindings, ours.text));
    }
    // A section of the same guide keeps the names that are bound around it.
    if (outline === frame.outline)
      for (const [theirs, ours] of frame.bindings) if (!bindings.has(theirs)) bindings.set(theirs, ours);
    const inner: Frame = {
      outline,
      prefix: `${frame.prefix}${operation.path}/`,
      bindings,
      use: { frame, step, operation, section },
    };
    this.frames.push(inner);
    for (const other of section.steps) this.step(inner, other, only, stack);
  }

  /** The section that a `use` names. Problems are reported where the guide itself stands. */
  private section(
    frame: Frame,
    operation: OperationOutline,
  ): { outline: GuideOutline; section: SectionOutline } | null {
    const { target } = operation;
    const file = textAt(target, 'guide');
    const named = target.isMap ? target.get('section') : target;
    if (named === null || named.text === null) return null;
    let outline: GuideOutline | null = frame.outline;
    if (file !== null) {
      outline = this.outline(this.library.resolve(frame.outline.document.uri, file));
      if (outline === null) {
        if (frame.use === null) reportMissing(this.report, target.get('guide')!, 'guide', this.library);
        return null;
      }
    }
    const section = sectionNamed(outline, named.text);
    if (section === null && frame.use === null) {
      const names = outline.sections.flatMap((one) => (one.id === null ? [one.title] : [one.id, one.title]));
      const near = nearestName(named.text, names);
      const { hint, fixes } = suggestion(named.place, near);
      const there = outline.sections.map((one) => one.id ?? `"${shown(one.title)}"`);
      const has =
        near !== null ? hint : there.length === 0 ? ': it has none.' : `: there is ${listed(there)}.`;
      const message = `There is no section "${shown(named.text)}"${has}`;
      this.report.add('unknown-name', named.place, message, { fixes });
    }
    return section === null ? null : { outline, section };
  }

  private outline(uri: string): GuideOutline | null {
    const known = this.outlines.get(uri);
    if (known !== undefined) return known;
    const document = this.library.document(uri);
    const made = document?.kind === 'install' ? outlineOf(document) : null;
    this.outlines.set(uri, made);
    return made;
  }
}

/** Reports a file that is not there, at its path. */
export function reportMissing(report: Report, path: Cursor, what: string, library: Library): void {
  const written = path.text!;
  const meant = library.meant?.(library.resolve(path.document.uri, written)) ?? null;
  const near = meant === null ? null : written.slice(0, written.lastIndexOf('/') + 1) + meant;
  const { hint, fixes } = suggestion(path.place, near);
  report.add('missing-file', path.place, `There is no ${what} file at "${shown(written)}"${hint}`, { fixes });
}

/** A name of a used guide in the words of the guide that uses it: the longest bound beginning counts. */
export function bound(bindings: ReadonlyMap<string, string>, written: string): string {
  if (bindings.size === 0) return written;
  for (let end = written.length; end > 0; end = written.lastIndexOf('.', end - 1)) {
    const ours = bindings.get(written.slice(0, end));
    if (ours !== undefined) return ours + written.slice(end);
  }
  return written;
}

export type SaidSide = 'left' | 'right' | 'both' | 'each';

/** What a `side:` says, null where nothing that is a side stands there. */
export function sideOf(cursor: Cursor | null): SaidSide | null {
  const text = cursor?.text ?? null;
  return text === 'left' || text === 'right' || text === 'both' || text === 'each' ? text : null;
}
