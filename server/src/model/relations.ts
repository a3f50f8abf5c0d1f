/** Ties parts and lines to each other: joins, limiters, what covers what, what spans, holds and replaces what. */

import type { Assembled } from './assemble';
import { type Body, cursorOf, fieldsOf, textOf, textsOf } from './body';
import { FIXED } from './builtins';
import { COVERINGS, type Mutable } from './joints';
import type { Covering, Joint, Limiter, Part } from './model';
import type { BuildingLine, BuildingPart, BuildingThing } from './parts';

/** Chains that arise where kit parts stand in for links; more are hostile. */
const MOST_LIMITERS = 1_000;

/** Names that nothing has are left out: they were reported where they are declared. */
export function linkRelations(
  assembled: ReadonlyMap<string, Assembled>,
  things: ReadonlyMap<string, BuildingThing>,
): void {
  const linker = new Linker(assembled, things);
  for (const [name, one] of assembled) {
    const thing = things.get(name)!;
    if (thing.type === 'part') linker.part(thing, one.body);
    else linker.line(thing, one.body);
  }
}

class Linker {
  /** For each name, the kit things that replace it, in declared order. */
  private readonly replacements = new Map<string, string[]>();

  constructor(
    assembled: ReadonlyMap<string, Assembled>,
    private readonly things: ReadonlyMap<string, BuildingThing>,
  ) {
    for (const [name, one] of assembled) {
      const thing = things.get(name)!;
      thing.replaces = one.replaced.flatMap((old) => things.get(old) ?? []);
      for (const old of one.replaced)
        this.replacements.set(old, [...(this.replacements.get(old) ?? []), name]);
    }
  }

  part(part: BuildingPart, body: Body): void {
    part.joins = this.partsOrFixed(textsOf(body, 'joins'), part);
    part.coveredBy = this.coverings(body, part);
    part.limitedBy = this.limiters(body, part);
    for (const [name, jointBody] of fieldsOf(body, 'joints')) {
      const joint = part.joints.get(name) as Mutable<Joint> | undefined;
      if (joint !== undefined) joint.coveredBy = this.coverings(jointBody, part);
    }
  }

  line(line: BuildingLine, body: Body): void {
    line.spans = this.partsOrFixed(textsOf(body, 'spans'), line);
    const holder = textOf(body, 'held-by');
    if (holder === null) return;
    line.heldBy = this.partNamed(holder);
    line.heldByNew = this.newer(holder).flatMap((name) => this.partNamed(name) ?? []);
  }

  /** A relation that names an old part names those that replace it too. */
  private partsOrFixed(names: readonly string[], self: BuildingThing): (Part | string)[] {
    const found = new Set<Part | string>();
    for (const name of names) {
      if (FIXED.has(name)) {
        found.add(name);
        continue;
      }
      const part = this.partNamed(name);
      if (part === null) continue;
      if (part !== self) found.add(part);
      for (const newer of this.newer(name)) {
        const other = this.partNamed(newer);
        if (other !== null && other !== self) found.add(other);
      }
    }
    return [...found];
  }

  private coverings(body: Body, self: Part): Covering[] {
    const found: Covering[] = [];
    for (const how of COVERINGS) {
      for (const part of this.partsOrFixed(textsOf(body, how), self as BuildingPart)) {
        // A part is not covered by the one that it replaces, nor by one that replaces it.
        if (typeof part === 'string' || self.replaces.includes(part) || part.replaces.includes(self))
          continue;
        found.push({ how, part });
      }
    }
    return found;
  }

  private limiters(body: Body, self: Part): Limiter[] {
    const limiters: Limiter[] = [];
    for (const item of cursorOf(body, 'limited-by')?.items() ?? []) {
      // A list within the list is a chain; each link may be replaced, which makes a chain of its own.
      let chains: (Part | Joint)[][] = [[]];
      for (const name of item.texts) {
        const links = this.link(name).filter((link) => link !== self);
        if (links.length === 0) continue;
        chains = chains.flatMap((chain) => links.map((link) => [...chain, link])).slice(0, MOST_LIMITERS);
      }
      for (const chain of chains)
        if (chain.length > 0 && limiters.length < MOST_LIMITERS) limiters.push(chain);
    }
    return limiters;
  }

  /** A part or `part.joint`, and the same of what replaces the part. */
  private link(name: string): (Part | Joint)[] {
    const dot = name.indexOf('.');
    const partName = dot < 0 ? name : name.slice(0, dot);
    return [partName, ...this.newer(partName)].flatMap((one): (Part | Joint)[] => {
      const part = this.partNamed(one);
      if (part === null) return [];
      if (dot < 0) return [part];
      const joint = part.joints.get(name.slice(dot + 1));
      return joint === undefined ? [] : [joint];
    });
  }

  /** Everything that replaces a thing, directly or by way of another, in declared order. */
  private newer(name: string): string[] {
    const direct = this.replacements.get(name);
    if (direct === undefined) return [];
    const found = new Set<string>(direct);
    for (const one of found)
      for (const next of this.replacements.get(one) ?? []) if (next !== name) found.add(next);
    return [...found];
  }

  private partNamed(name: string): BuildingPart | null {
    const thing = this.things.get(name);
    return thing?.type === 'part' ? thing : null;
  }
}
