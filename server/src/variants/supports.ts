/** Past this product of arities a support is only known to be wide. */
const WIDE_FROM = 2 ** 40;
const WIDE = 0;

/**
 * The sets of variables on which diagrams depend, each kept once under a number, with the product of its arities.
 * Many nodes share few supports, so a node keeps one number whatever the count of variables.
 */
export class SupportTable {
  private readonly lists: number[][] = [[]];
  private readonly sizes: number[] = [Number.POSITIVE_INFINITY];
  private readonly byKey = new Map<string, number>();
  private readonly unions = new Map<number, number>();
  private readonly singles: number[];

  constructor(private readonly arities: readonly number[]) {
    this.singles = arities.map((_, variable) => this.kept([variable]));
  }

  /** The support of one variable. */
  single(variable: number): number {
    return this.singles[variable]!;
  }

  /** The product of the arities, or `Infinity` where the support is wide. */
  size(support: number): number {
    return this.sizes[support]!;
  }

  /** The variables, ascending, or undefined where the support is wide and they were not kept. */
  variables(support: number): readonly number[] | undefined {
    return support === WIDE ? undefined : this.lists[support]!;
  }

  /** The support that holds the variables of both. */
  union(a: number, b: number): number {
    if (a === b) return a;
    if (a === WIDE || b === WIDE) return WIDE;
    const key = a < b ? a * 0x4000000 + b : b * 0x4000000 + a;
    const known = this.unions.get(key);
    if (known !== undefined) return known;
    const merged = [...new Set([...this.lists[a]!, ...this.lists[b]!])].sort((x, y) => x - y);
    const made = this.kept(merged);
    this.unions.set(key, made);
    return made;
  }

  private kept(list: number[]): number {
    let size = 1;
    for (const variable of list) size *= this.arities[variable]!;
    if (size > WIDE_FROM) return WIDE;
    const key = list.join();
    const known = this.byKey.get(key);
    if (known !== undefined) return known;
    const id = this.lists.length;
    this.lists.push(list);
    this.sizes.push(size);
    this.byKey.set(key, id);
    return id;
  }
}
