// The harm judge: does following this guide hurt somebody, break something, or leave a car that is not as the sound guide leaves it?
import type { Variant } from '../condition.ts';
import { list, map, type Raw, text } from '../raw.ts';
import { type Act, actsIn, choose, scriptOf, variantsOf } from './acts.ts';
import { arrive, makeCar } from './arrive.ts';
import type { Car } from './car.ts';
import { type Documents, type Facts, readFacts } from './facts.ts';
import { compareCars } from './finished.ts';
import type { Harm } from './floor.ts';
import { play } from './play.ts';

export type { Documents } from './facts.ts';
export type { Harm } from './floor.ts';

/** A harm, and a variant in which it comes. */
export interface Verdict extends Harm {
  readonly variant: Variant;
}

interface Case {
  readonly variant: Variant;
  readonly acts: readonly Act[];
  readonly done: string;
  /** Things that are there, and what is done: variants that have both alike end alike. */
  readonly key: string;
  readonly car: Car; // as the sound guide leaves it
  readonly bench: Car; // the same, to play on
  readonly known: ReadonlySet<string>; // harm that the sound guide does as well
}

const keyOf = ({ kind, item, says }: Harm): string => `${kind} ${item} ${says}`;

class Enough extends Error {}

/** Judges guides that differ from a sound one. A job is one guide, or several that follow each other. */
export class Judge {
  private readonly facts: Facts;
  private readonly cases: readonly Case[];
  private readonly drilled: ReadonlySet<string>;
  private readonly numbers = new Map<string, number>();

  /**
   * @param sound every document of the job by its path
   * @param guides the guides of the job in order
   * @param vocabulary packs, of which only the kinds of part are read
   */
  constructor(
    private readonly sound: Documents,
    private readonly guides: readonly string[],
    vocabulary: readonly Raw[],
  ) {
    this.facts = readFacts(sound, guides, vocabulary);
    const seen = new Map<string, Case>();
    const benches = new Map<string, Car>();
    const cases: Case[] = [];
    const script = this.script(sound);
    this.drilled = drilled(script);
    for (const variant of variantsOf(sound, guides, this.facts)) {
      const acts = actsIn(script, variant);
      const car = makeCar(this.facts, variant);
      const done = signature(acts, variant);
      const key = `${presence(car)}|${done}`;
      const like = seen.get(key);
      if (like !== undefined) {
        cases.push({ ...like, variant, acts });
        continue;
      }
      const known = new Set<string>();
      play(car, acts, variant, this.drilled, (harm) => known.add(keyOf(harm)));
      const there = presence(car);
      const bench = benches.get(there) ?? makeCar(this.facts, variant);
      benches.set(there, bench);
      const made = { variant, acts, done, key, car, bench, known };
      seen.set(key, made);
      cases.push(made);
    }
    this.cases = cases;
  }

  /** What is wrong with the sound guide itself: nothing, if both it and the judge are right. */
  soundHarm(): string[] {
    return [...new Set(this.cases.flatMap(({ known }) => [...known]))];
  }

  /** The first harm that a changed guide does and the sound one does not, in any variant. */
  harmOf(changed: Documents): Verdict | undefined {
    const documents = { ...this.sound, ...changed };
    const script = this.script(documents);
    const owed = this.owedBy(documents);
    const handsOver = String(owed) !== String(this.owedBy(this.sound));
    const toDrill = new Set([...this.drilled, ...drilled(script)]);
    const seen = new Set<string>();
    for (const one of this.cases) {
      const acts = actsIn(script, one.variant);
      const done = signature(acts, one.variant);
      const key = `${one.key}|${done}`;
      if ((done === one.done && !handsOver) || seen.has(key)) continue;
      seen.add(key);
      const harm = this.harmIn(one, acts, toDrill, owed);
      if (harm !== undefined) return { ...harm, variant: one.variant };
    }
    return undefined;
  }

  private harmIn(
    one: Case,
    acts: readonly Act[],
    toDrill: ReadonlySet<string>,
    owed: readonly string[],
  ): Harm | undefined {
    let first: Harm | undefined;
    const tell = (harm: Harm): void => {
      if (one.known.has(keyOf(harm))) return;
      first = harm;
      throw new Enough();
    };
    const { bench } = one;
    arrive(bench);
    try {
      play(bench, acts, one.variant, toDrill, tell);
      compareCars(one.car, bench, owed, (kind, item, says) => tell({ kind, item, says, where: 'the end' }));
    } catch (error) {
      if (!(error instanceof Enough)) throw error;
    }
    return first;
  }

  /** What the guides hand over to be looked at later. */
  private owedBy(documents: Documents): string[] {
    return this.guides.flatMap((guide) =>
      list(documents[guide]?.owes).map((duty) => text(map(duty).check) ?? ''),
    );
  }

  private script(documents: Documents): Act[] {
    return this.guides.flatMap((guide) => scriptOf(documents, guide, this.numbers));
  }
}

function presence(car: Car): string {
  return [...car.parts.keys(), ...car.lines.keys()].join(' ');
}

/** What is done, step by step, and with which figures. */
function signature(acts: readonly Act[], variant: Variant): string {
  const figure = (act: Act) => (Array.isArray(act.raw.to) ? String(choose(act.raw.to, variant)) : '');
  return acts
    .map((act, at) => `${act.step === acts[at - 1]?.step ? '' : '/'}${act.id}${figure(act)}`)
    .join(' ');
}

/** Holes that are drilled somewhere in the job. */
function drilled(acts: readonly Act[]): Set<string> {
  return new Set(acts.filter(({ verb }) => verb === 'drill').flatMap(({ targets }) => targets));
}
