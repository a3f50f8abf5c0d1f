import { type TraceStep, traceGuide } from '../check/trace';
import type { BoundStep, Model } from '../model/model';
import { runGuide } from '../simulate/run';
import type { Simulation } from '../simulate/simulation';
import type { Document } from './document';
import { bindGuideOf } from './engine';
import { runUpTo } from './moment';
import type { Closure, Project } from './project';

/** How many moments of one guide are kept: a writer looks about in one step. */
const MOST_MOMENTS = 4;

/** A guide as features of an editor see it: bound once, and run as far as they ask. */
export class OpenGuide {
  readonly model: Model;
  private readonly moments = new Map<string, Simulation | null>();
  private sections: readonly TraceStep[] | null = null;

  constructor(
    readonly document: Document,
    readonly closure: Closure,
  ) {
    this.model = bindGuideOf(closure);
  }

  /** The guide run up to a step, with so many of its operations done; null where it cannot be run. */
  before(step: string, done = 0): Simulation | null {
    const key = `${step} ${done}`;
    const known = this.moments.get(key);
    if (known !== undefined) return known;
    const made = runUpTo(this.model, this.closure.rulebook, step, done);
    this.moments.set(key, made);
    for (const old of this.moments.keys()) {
      if (this.moments.size <= MOST_MOMENTS) break;
      this.moments.delete(old);
    }
    return made;
  }

  /** Runs the guide and shows the state after each step. Nothing is shown of one that cannot be run. */
  eachStep(look: (sim: Simulation, step: BoundStep) => void): void {
    const { model, closure } = this;
    const work = runGuide(model, closure.rulebook.watchers, {
      step: (sim, step, last) => {
        if (last) look(sim, step);
      },
    });
    try {
      while (work.next().done !== true);
    } catch {
      // The check tells of the fault.
    }
  }

  /** The last step of each section of the guide that has any, with what is open after it. */
  sectionEnds(): readonly TraceStep[] {
    if (this.sections !== null) return this.sections;
    const { model, closure } = this;
    const last = new Map<number, string>();
    for (const { path } of model.steps) if (!path.includes('/')) last.set(Number.parseInt(path, 10), path);
    const ends = new Set(last.values());
    try {
      const work = traceGuide(model, closure.rulebook, model.universe, ({ path }) => ends.has(path));
      for (;;) {
        const next = work.next();
        if (next.done !== true) continue;
        // A step parted by a `use` is traced in stretches; its last one counts.
        this.sections = [...new Map(next.value.steps.map((step) => [step.path, step])).values()];
        break;
      }
    } catch {
      this.sections = [];
    }
    return this.sections;
  }
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
    const guide = new OpenGuide(document, closure);
    this.known.set(document, { beside, guide });
    return guide;
  }
}
