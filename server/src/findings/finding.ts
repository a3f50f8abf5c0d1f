/** What a finding, a related place and a fix are. Plain data: every station may make them, nobody changes them. */

/** A stretch of text, in UTF-16 units from the start of its document, end excluded. */
export interface Span {
  readonly start: number;
  readonly end: number;
}

/** A span in a document. `uri` is the name the workspace knows the document by. */
export interface Place {
  readonly uri: string;
  readonly span: Span;
}

export type Severity = 'error' | 'warning' | 'info';

/** What following the guide would do. `null` for reading, schema and name findings. */
export type Harm = 'injury' | 'damage' | 'rework' | 'paperwork';

/** One set of variants: trait name to the values it may have. A list of cubes is a union; an empty list is all. */
export type Cube = Readonly<Record<string, readonly string[]>>;

/** A step or declaration that led to a finding. */
export interface Related {
  readonly place: Place;
  readonly message: string;
}

/** One replacement of text. */
export interface Edit {
  readonly place: Place;
  readonly text: string;
}

/** A repair. `safe` ones may be applied unseen by `check --fix`. */
export interface Fix {
  readonly title: string;
  readonly edits: readonly Edit[];
  readonly safe: boolean;
}

export interface Finding {
  /** Kebab case id of the rule, stable for ever. */
  readonly rule: string;
  readonly severity: Severity;
  readonly harm: Harm | null;
  /** One plain sentence, without the variants. */
  readonly message: string;
  readonly place: Place;
  readonly variants: readonly Cube[];
  readonly related: readonly Related[];
  readonly fixes: readonly Fix[];
  /** The item it is about, as a guide names it (`front-shock.lower-bolt`), and its side where it has one. */
  readonly item?: string;
  readonly sides?: readonly string[];
  /** Path of the operation it stands at: `section.step.operation`, from 1 (schemas/semantics.md §2). */
  readonly operation?: string;
}

/** Severity that a harm has unless configuration says otherwise (design: injury is an error, damage a warning). */
export function severityOf(harm: Harm): Severity {
  return harm === 'injury' ? 'error' : harm === 'damage' ? 'warning' : 'info';
}

/** Makes a finding of reading, schema or names: no harm, all variants. */
export function plainFinding(
  rule: string,
  place: Place,
  message: string,
  more: Partial<Finding> = {},
): Finding {
  return {
    rule,
    severity: 'error',
    harm: null,
    message,
    place,
    variants: [],
    related: [],
    fixes: [],
    ...more,
  };
}
