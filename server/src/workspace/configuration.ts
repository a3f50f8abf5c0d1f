import type { Finding, Harm, Severity } from '../findings/finding';
import { type Allowance, NO_ALLOWANCE, readAllowance } from '../labour/allowance';
import { entries, find, items, keyName } from '../text/access';
import type { Node } from '../text/tree';
import type { Document } from './document';
import { folderOf } from './paths';
import { referencesOf } from './references';

/** What a repository says of one rule; null where it says nothing of that. */
export interface RuleSetting {
  readonly on: boolean | null;
  readonly severity: Severity | null;
  readonly harm: Harm | null;
  /** The rule's id and its setting, as they are written. */
  readonly keyNode: Node;
  readonly node: Node;
}

/** What `kitproof.yaml` says; where there is none, the defaults. */
export interface Configuration {
  readonly document: Document | null;
  /** The folder its paths and patterns are seen from; null without a file. */
  readonly folder: string | null;
  readonly packs: readonly string[];
  readonly times: readonly string[];
  readonly rules: ReadonlyMap<string, RuleSetting>;
  readonly strictLoosening: boolean;
  /** Hours. */
  readonly hourStep: number;
  /** What is added to the working time before it is quoted; what cannot be is in the findings, and is not added. */
  readonly allowance: Allowance;
  readonly allowanceFindings: readonly Finding[];
  readonly ignore: readonly string[];
}

export const defaultConfiguration: Configuration = {
  document: null,
  folder: null,
  packs: [],
  times: [],
  rules: new Map(),
  strictLoosening: false,
  hourStep: 0.1,
  allowance: NO_ALLOWANCE,
  allowanceFindings: [],
  ignore: [],
};

/** Reads a `kitproof.yaml`. What cannot be read is as if it were not there: the schema's findings say what is wrong. */
export function readConfiguration(document: Document): Configuration {
  const { reading } = document;
  if (reading.root === null) return { ...defaultConfiguration, document, folder: folderOf(document.uri) };
  const at = (...path: string[]): Node | undefined => {
    let node: Node | undefined = reading.root!;
    for (const key of path) node = node && find(node, key, reading)?.value;
    return node;
  };
  const references = referencesOf(document);
  const hours = at('rounding', 'hours')?.value;
  const ignore = at('ignore');
  const { allowance, findings: allowanceFindings } = readAllowance(document.uri, at('allowances'), reading);
  const rules = new Map<string, RuleSetting>();
  const settings = at('rules');
  for (const entry of settings === undefined ? [] : entries(settings, reading)) {
    const id = keyName(entry.key, reading);
    const setting = id === null ? null : settingOf(entry.key, entry.value, document);
    if (id !== null && setting !== null) rules.set(id, setting);
  }
  return {
    document,
    folder: folderOf(document.uri),
    packs: references.filter((reference) => reference.role === 'pack').map((reference) => reference.uri),
    times: references.filter((reference) => reference.role === 'times').map((reference) => reference.uri),
    rules,
    strictLoosening: at('strict-loosening')?.value === true,
    allowance,
    allowanceFindings,
    hourStep: typeof hours === 'number' && hours > 0 && hours <= 24 ? hours : defaultConfiguration.hourStep,
    ignore:
      ignore === undefined
        ? []
        : items(ignore, reading).flatMap(({ value }) =>
            typeof value.value === 'string' ? [value.value] : [],
          ),
  };
}

const SEVERITIES: ReadonlySet<unknown> = new Set(['error', 'warning', 'info']);
const HARMS: ReadonlySet<unknown> = new Set(['injury', 'damage', 'rework', 'paperwork']);

function settingOf(keyNode: Node, node: Node, document: Document): RuleSetting | null {
  const { reading } = document;
  const nothing = { on: null, severity: null, harm: null, keyNode, node };
  if (node.kind === 'map') {
    const on = find(node, 'on', reading)?.value.value;
    const severity = find(node, 'severity', reading)?.value.value;
    const harm = find(node, 'harm', reading)?.value.value;
    return {
      // A rule that is given a severity or a harm is wanted, unless it says otherwise.
      on: typeof on === 'boolean' ? on : true,
      severity: SEVERITIES.has(severity) ? (severity as Severity) : null,
      harm: HARMS.has(harm) ? (harm as Harm) : null,
      keyNode,
      node,
    };
  }
  if (node.value === 'on' || node.value === true) return { ...nothing, on: true };
  if (node.value === 'off' || node.value === false) return { ...nothing, on: false };
  return SEVERITIES.has(node.value) ? { ...nothing, on: true, severity: node.value as Severity } : null;
}
