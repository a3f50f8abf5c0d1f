import { type Finding, plainFinding } from '../findings/finding';
import { find } from '../text/access';
import { readText } from '../text/read';
import type { Node, Reading } from '../text/tree';
import { Checking, replacing } from './checking';
import { convert, type Value } from './convert';
import { FIRST_KEY, misspeltFirstKey } from './first-key';
import { documentValidators } from './generated/tables';
import type {
  ConfigDocument,
  InstallDocument,
  KitDocument,
  RulesDocument,
  TimesDocument,
  VehicleDocument,
} from './generated/types';
import { type Located, Places } from './located';
import { pruneMap } from './prune';
import { documentSpot } from './spots';
import { checkStructure } from './structure';
import { nearest, oneOf, quoted } from './words';

/** The documents there are, by the word of their first key, and what each says. */
export interface DocumentTypes {
  vehicle: VehicleDocument;
  kit: KitDocument;
  install: InstallDocument;
  rules: RulesDocument;
  times: TimesDocument;
  config: ConfigDocument;
}

export type DocumentKind = keyof DocumentTypes;

export const DOCUMENT_KINDS = Object.keys(documentValidators) as readonly DocumentKind[];

export interface OpenDocumentOf<Kind extends DocumentKind> {
  readonly uri: string;
  readonly kind: Kind;
  /**
   * What the document says. All of it is of the types generated; what was not has been dropped. Maps have no prototype.
   * `do` is always a list, and an operation in it that could not be read is `{ invalid: true }`.
   */
  readonly value: DocumentTypes[Kind];
  readonly at: Located;
  /**
   * For maps of `value`: the keys whose value was dropped, or a list of which something was dropped. What is missing
   * because of that is an echo. A step that lost an operation has `do` here.
   */
  readonly lost: ReadonlyMap<object, ReadonlySet<string>>;
  /** Mistakes of reading and of structure, in order of place. */
  readonly findings: readonly Finding[];
}

/** A document that is none of ours, or of which kind and version are not known. */
export interface UnknownDocument {
  readonly uri: string;
  readonly kind: null;
  readonly value: null;
  readonly at: Located;
  readonly lost: ReadonlyMap<object, ReadonlySet<string>>;
  readonly findings: readonly Finding[];
}

export type OpenDocument = { [Kind in DocumentKind]: OpenDocumentOf<Kind> }[DocumentKind] | UnknownDocument;

export interface OpenOptions {
  /** Keys of `places` in the vehicle and kit, which may stand on steps and operations. */
  readonly placeKeys?: ReadonlySet<string>;
  /** The text that a reading was made of, so that `8.80` taken as a text keeps its nought. */
  readonly source?: string;
  /** The file's name says that it is ours, so that what cannot be read in it is told even without the key `kitproof`. */
  readonly ours?: boolean;
}

/** Opens a document: reads it, decides by `kitproof:` what it is, checks it and prunes what is wrong. Never throws. */
export function openDocument(uri: string, text: Reading | string, options: OpenOptions = {}): OpenDocument {
  const reading = typeof text === 'string' ? readText(text) : text;
  const source = typeof text === 'string' ? text : (options.source ?? null);
  const places = new Places(uri, reading);
  const problems = reading.problems.map((problem) => {
    return plainFinding(
      problem.rule,
      { uri, span: { start: problem.start, end: problem.end } },
      problem.message,
    );
  });
  const unknown = (findings: Finding[]): UnknownDocument => {
    return { uri, kind: null, value: null, at: places, lost: new Map(), findings };
  };

  const { root } = reading;
  const claim = root?.kind === 'map' ? find(root, 'kitproof', reading) : undefined;
  if (root === null || claim === undefined) {
    const misspelt = root === null ? null : misspeltFirstKey(root, reading);
    if (misspelt !== null) return unknown(sorted([...problems, firstKeyFinding(places, misspelt)]));
    return unknown(options.ours ? problems : []);
  }
  if (claim.value.kind === 'alias') return unknown(problems);
  const kind = kindOf(claim.value);
  if (typeof kind !== 'string') {
    return unknown(sorted([...problems, versionFinding(places, claim.key, claim.value, kind)]));
  }

  const checking = new Checking(places, options.placeKeys ?? new Set(), source);
  const { value, grewAt } = convert(root, places);
  if (grewAt !== null) {
    const message = 'What the aliases name grows beyond measure here; from here on it is left out.';
    checking.report('too-many-values', places.place(grewAt), message);
  }
  const spot = documentSpot(kind);
  checkStructure(checking, documentValidators[kind], value, spot);
  pruneMap(checking, value as { [key: string]: Value }, spot);
  const findings = sorted([...problems, ...checking.findings()]);
  return { uri, kind, value, at: places, lost: checking.lost, findings } as unknown as OpenDocument;
}

interface BadClaim {
  readonly rule: 'bad-version' | 'unknown-kind';
  readonly message: string;
  readonly meant: string | null;
}

/** The kind that a document claims to be, or why it is not known. Every kind is at version 1. */
function kindOf(node: Node): DocumentKind | BadClaim {
  const claim = node.kind === 'scalar' && node.value !== null ? String(node.value) : '';
  const [word = '', version] = claim.split('/', 2);
  if ((DOCUMENT_KINDS as readonly string[]).includes(word)) {
    if (version === '1' && claim === `${word}/1`) return word as DocumentKind;
    const message = `${quoted(claim)} is not a version that this program reads; it reads ${word}/1.`;
    return { rule: 'bad-version', message, meant: `${word}/1` };
  }
  const known = DOCUMENT_KINDS.map((kind) => `${kind}/1`);
  const near = nearest(word, DOCUMENT_KINDS);
  const meant = near === null ? null : `${near}/1`;
  const end = meant === null ? `it may be ${oneOf(known)}` : `${quoted(meant)} was probably meant`;
  const start =
    claim === '' ? 'What this document is, is not said' : `${quoted(claim)} is not a document that is known`;
  return { rule: 'unknown-kind', message: `${start}; ${end}.`, meant };
}

function firstKeyFinding(places: Places, key: Node): Finding {
  const place = places.place(key);
  const message = `${quoted(String(key.value))} is not the first key of any document; did you mean ${FIRST_KEY}?`;
  return plainFinding('unknown-key', place, message, {
    fixes: [replacing(place, FIRST_KEY, `Write ${quoted(FIRST_KEY)}`)],
  });
}

function versionFinding(places: Places, key: Node, value: Node, bad: BadClaim): Finding {
  const place = places.place(value.end > value.start ? value : key);
  const fixes = bad.meant === null ? [] : [replacing(place, bad.meant, `Write ${quoted(bad.meant)}`)];
  return plainFinding(bad.rule, place, bad.message, { fixes });
}

function sorted(findings: Finding[]): Finding[] {
  return findings.sort((a, b) => a.place.span.start - b.place.span.start);
}
