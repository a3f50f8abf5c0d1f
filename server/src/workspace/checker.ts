import type { Finding } from '../findings/finding';
import { Findings } from './check';
import { drive, type Wanted } from './drive';
import { checkGuideOf } from './engine';
import { Judges } from './judges';
import type { Closure, Project } from './project';
import { byDocument, internalFault, involved, takenOver, type Unit, unitOf } from './unit';

/** How long edits may put off an answer, in ms: someone who types on and on still sees findings. */
const LONGEST_WITHOUT_ANSWER = 400;

/**
 * Keeps the findings of a set of documents up to date while they change, a document at a time, the nearest to the writer
 * first. What it gives of a document is the same, finding by finding, as a check of all of them at once.
 */
export class Checker {
  private readonly names = new Set<string>();
  private readonly units = new Map<string, Unit>();
  private readonly involvedBy = new Map<string, Set<string>>();
  private readonly dirty = new Set<string>();
  private readonly edited = new Set<string>();
  private running: Promise<void> | null = null;
  /** The document whose check is under way. */
  private checking: string | null = null;
  private stopped = false;
  private lastAnswer = 0;
  private readonly judges = new Judges();
  private waiting: { readonly ready: () => boolean; readonly resolve: () => void }[] = [];

  /**
   * @param isOpen whether a document is open in the editor: those come first.
   * @param answered told after each unit: the documents whose findings may have changed, and the edited ones now answered.
   */
  constructor(
    private readonly project: Project,
    private readonly today: () => string,
    private readonly isOpen: (name: string) => boolean,
    private readonly answered: (names: ReadonlySet<string>, edited: ReadonlySet<string>) => void,
  ) {}

  /** Asks for a document from now on. */
  add(name: string): void {
    if (this.names.has(name)) return;
    this.names.add(name);
    this.dirty.add(name);
    this.start();
  }

  /** No longer asks for a document; those that lead to it still tell of it. */
  remove(name: string): void {
    if (!this.names.delete(name)) return;
    const told = new Set([name]);
    this.drop(name, told);
    this.dirty.delete(name);
    this.answered(told, new Set());
  }

  has(name: string): boolean {
    return this.names.has(name);
  }

  asked(): readonly string[] {
    return [...this.names].sort();
  }

  /** How many documents are still to be checked. */
  get left(): number {
    return this.dirty.size;
  }

  /**
   * A document changed, came or went.
   * @param everything where that may change what every document means: a settings file that was not there before.
   */
  touch(name: string, everything = false): void {
    if (this.names.has(name)) {
      this.dirty.add(name);
      this.edited.add(name);
    }
    for (const dependent of everything ? this.names : this.project.dependentsOf(name))
      if (this.names.has(dependent)) this.dirty.add(dependent);
    this.start();
  }

  /** Kits that stand alone are held against the vehicles beside them. */
  touchKits(): void {
    for (const unit of this.units.values())
      if (unit.closure.document.kind === 'kit') this.dirty.add(unit.name);
    this.start();
  }

  stop(): void {
    this.stopped = true;
    for (const { resolve } of this.waiting) resolve();
  }

  /** When a document, and what is open that tells of it, was checked as it stands; at once where it is not asked for. */
  whenNear(name: string): Promise<void> {
    return this.when(() => {
      if (this.isWaiting(name)) return false;
      for (const unit of this.involvedBy.get(name) ?? [])
        if (this.isWaiting(unit) && this.isOpen(unit)) return false;
      return true;
    });
  }

  private isWaiting(name: string): boolean {
    return this.dirty.has(name) || this.checking === name;
  }

  /** Whether nothing is left to be checked. */
  get isIdle(): boolean {
    return this.dirty.size === 0 && this.checking === null;
  }

  whenAll(): Promise<void> {
    return this.when(() => this.isIdle);
  }

  /** What is known now of a document, in the order of a report. */
  findingsOf(name: string): readonly Finding[] {
    const found = new Findings();
    const units = this.unitsOf(name);
    const judge = units.find((unit) => unit.judges.has(name));
    if (judge !== undefined) for (const finding of this.judges.findings(judge, name)) found.add(finding);
    for (const unit of units) for (const finding of unit.own.get(name) ?? []) found.add(finding);
    return found.sorted();
  }

  /** Every document of which something may be told. */
  documents(): readonly string[] {
    return [...this.involvedBy.keys()].sort();
  }

  /** The closure of a document as it was last checked. */
  closureOf(name: string): Closure | null {
    return this.units.get(name)?.closure ?? null;
  }

  private when(ready: () => boolean): Promise<void> {
    if (this.stopped || ready()) return Promise.resolve();
    return new Promise((resolve) => this.waiting.push({ ready, resolve }));
  }

  private settle(): void {
    const waiting = this.waiting;
    this.waiting = waiting.filter(({ ready }) => !ready());
    for (const one of waiting) if (!this.waiting.includes(one)) one.resolve();
  }

  private start(): void {
    if (this.stopped) return;
    this.running ??= this.run().finally(() => {
      this.running = null;
      if (this.dirty.size > 0) this.start();
    });
  }

  private async run(): Promise<void> {
    // What arrives in one go is one edit.
    await Promise.resolve();
    for (let next = this.next(); next !== null && !this.stopped; next = this.next()) {
      this.dirty.delete(next);
      this.checking = next;
      try {
        await this.check(next);
      } finally {
        this.checking = null;
      }
      this.settle();
    }
    this.settle();
  }

  /** The document that the writer waits for most. */
  private next(): string | null {
    let best: string | null = null;
    let least = Number.POSITIVE_INFINITY;
    for (const name of this.dirty) {
      const rank = this.edited.has(name) ? 0 : this.isOpen(name) ? 1 : 2;
      if (rank < least || (rank === least && best !== null && name < best)) {
        best = name;
        least = rank;
      }
    }
    return best;
  }

  private async check(name: string): Promise<void> {
    const { dirty } = this;
    const since = performance.now();
    const { lastAnswer } = this;
    const wanted = {
      get cancelled() {
        return (
          dirty.has(name) && performance.now() - Math.max(lastAnswer, since - 5) < LONGEST_WITHOUT_ANSWER
        );
      },
    };
    const told = new Set([name]);
    const document = await this.project.open(name);
    if (document === null) {
      this.drop(name, told);
    } else {
      const unit = await unitOf(this.project, document);
      if (unit.guide && !(await this.runGuide(unit, wanted))) return;
      if (!this.names.has(name)) return;
      this.drop(name, told);
      this.keep(unit, told);
      if (!unit.guide) await this.refreshJudge(name, told);
    }
    this.lastAnswer = performance.now();
    // What was edited once more meanwhile is still owed its answer.
    const due = !this.dirty.has(name) && this.edited.delete(name);
    const edited = new Set(due ? [name] : []);
    this.answered(told, edited);
  }

  /** Runs a guide, or takes over what was found before where only its prose is another; false where it was cancelled. */
  private async runGuide(unit: Unit, wanted: Wanted): Promise<boolean> {
    const today = this.today();
    const before = this.units.get(unit.name);
    const kept = before?.ran === today ? takenOver(before, unit) : null;
    if (kept !== null) {
      unit.own = byDocument(kept);
      unit.ran = today;
      return true;
    }
    try {
      const result = await drive(checkGuideOf(unit.closure, today), wanted);
      if (result === null) return false;
      unit.own = byDocument(result.findings);
      if (result.faults.length === 0) unit.ran = today;
    } catch (error) {
      unit.own = byDocument([internalFault(unit.name, error)]);
    }
    return true;
  }

  /** The unit that judges a shared document sees its new text at once, though its own run comes later. */
  private async refreshJudge(name: string, told: Set<string>): Promise<void> {
    const judge = this.unitsOf(name).find((unit) => unit.judges.has(name));
    if (judge === undefined || judge.name === name || !this.dirty.has(judge.name)) return;
    const document = await this.project.open(judge.name);
    if (document === null || !this.names.has(judge.name)) return;
    const fresh = await unitOf(this.project, document);
    fresh.own = judge.own;
    this.drop(judge.name, told);
    this.keep(fresh, told);
  }

  private drop(name: string, told: Set<string>): void {
    const unit = this.units.get(name);
    if (unit === undefined) return;
    this.units.delete(name);
    for (const other of involved(unit)) {
      told.add(other);
      const by = this.involvedBy.get(other);
      by?.delete(name);
      if (by?.size === 0) this.involvedBy.delete(other);
    }
  }

  private keep(unit: Unit, told: Set<string>): void {
    this.units.set(unit.name, unit);
    for (const other of involved(unit)) {
      told.add(other);
      const by = this.involvedBy.get(other);
      if (by === undefined) this.involvedBy.set(other, new Set([unit.name]));
      else by.add(unit.name);
    }
  }

  /** Those that tell of a document: guides before all else, each kind by name. */
  private unitsOf(name: string): Unit[] {
    const units = [...(this.involvedBy.get(name) ?? [])].map((unit) => this.units.get(unit)!);
    return units.sort((a, b) => Number(b.guide) - Number(a.guide) || (a.name < b.name ? -1 : 1));
  }
}
