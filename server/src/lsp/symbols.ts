import { type DocumentSymbol, SymbolKind } from 'vscode-languageserver/lib/common/api.js';
import { find, items, keyName } from '../text/access';
import type { Node } from '../text/tree';
import type { Document } from '../workspace/document';
import { answering, type Feature, rangeOf } from './context';

/** The outline: sections, steps and operations of a guide, with their times; parts, joints, kinds and rules of the rest. */
export const symbols: Feature = {
  capabilities: () => ({ documentSymbolProvider: { label: 'Kitproof' } }),
  register(connection, context) {
    connection.onDocumentSymbol(
      answering<{ textDocument: { uri: string } }, DocumentSymbol[]>(
        context,
        [],
        async ({ textDocument }) => {
          const document = await context.document(textDocument.uri);
          if (document === null || document.reading.root === null) return [];
          return document.kind === 'install' ? sectionsOf(document) : topOf(document);
        },
      ),
    );
  },
};

/** Editors refuse symbols without a name. */
const named = (name: string, otherwise: string): string => (name.trim() === '' ? otherwise : name);

function symbol(
  document: Document,
  name: string,
  kind: SymbolKind,
  whole: Node,
  name_: Node,
  children: DocumentSymbol[],
  detail?: string,
): DocumentSymbol {
  const start = Math.min(whole.start, name_.start);
  const range = rangeOf(document.lines, { start, end: Math.max(whole.end, name_.end) });
  return {
    name,
    kind,
    range,
    selectionRange: rangeOf(document.lines, name_),
    children,
    ...(detail ? { detail } : {}),
  };
}

function sectionsOf(document: Document): DocumentSymbol[] {
  const { reading } = document;
  const list = (node: Node, key: string) => {
    const value = find(node, key, reading)?.value;
    return value === undefined
      ? []
      : value.kind === 'seq'
        ? items(value, reading).map((item) => item.value)
        : [value];
  };
  return list(reading.root!, 'sections').map((section, index) => {
    const title = find(section, 'title', reading)?.value ?? section;
    const steps = list(section, 'steps').map((step, place) => {
      const own = find(step, 'id', reading)?.value ?? find(step, 'text', reading)?.value ?? step;
      const operations = list(step, 'do').flatMap((operation) => {
        const key = operation.keys?.[0];
        const value = operation.items?.[0];
        if (key === undefined || value === undefined) return [];
        return [
          symbol(
            document,
            named(shortly(operation, document), 'operation'),
            SymbolKind.Event,
            operation,
            key,
            [],
          ),
        ];
      });
      const name = own === step ? `Step ${index + 1}.${place + 1}` : cut(String(own.value ?? ''));
      return symbol(
        document,
        named(name, 'step'),
        SymbolKind.Method,
        step,
        own === step ? startOf(step) : own,
        operations,
        timeOf(step, document),
      );
    });
    const name = title === section ? `Section ${index + 1}` : cut(String(title.value ?? ''));
    return symbol(
      document,
      named(name, 'section'),
      SymbolKind.Module,
      section,
      title === section ? startOf(section) : title,
      steps,
    );
  });
}

const startOf = (node: Node): Node => ({ ...node, end: node.start });
const cut = (text: string): string => (text.length > 60 ? `${text.slice(0, 59)}…` : text);

function shortly(operation: Node, document: Document): string {
  return cut(
    document.text.slice(operation.keys![0]!.start, operation.items![0]!.end).replaceAll(/\s+/g, ' '),
  );
}

function timeOf(step: Node, document: Document): string | undefined {
  const time = find(step, 'time', document.reading)?.value;
  if (time === undefined) return undefined;
  return time.kind === 'scalar'
    ? String(time.value ?? '')
    : document.text.slice(time.start, time.end).replaceAll(/\s+/g, ' ');
}

const KINDS: Readonly<Record<string, SymbolKind>> = {
  parts: SymbolKind.Class,
  lines: SymbolKind.Interface,
  kinds: SymbolKind.Struct,
  traits: SymbolKind.Enum,
  options: SymbolKind.Enum,
  hardware: SymbolKind.Constant,
  aids: SymbolKind.Object,
  joints: SymbolKind.Property,
  rules: SymbolKind.Function,
  times: SymbolKind.Number,
};

/** Keys at the top, what is named below them, and the joints of that. */
function topOf(document: Document): DocumentSymbol[] {
  const { reading } = document;
  return entriesOf(reading.root!, document).flatMap(([name, key, value]) => {
    if (name === 'kitproof') return [];
    const kind = KINDS[name] ?? SymbolKind.Field;
    const below = value.kind === 'seq' ? rulesOf(value, document, kind) : thingsOf(value, document, kind);
    return [symbol(document, named(name, 'key'), SymbolKind.Namespace, value, key, below)];
  });
}

function thingsOf(map: Node, document: Document, kind: SymbolKind): DocumentSymbol[] {
  return entriesOf(map, document).map(([name, key, value]) => {
    const joints = value.kind === 'map' ? find(value, 'joints', document.reading)?.value : undefined;
    const below = joints === undefined ? [] : entriesOf(joints, document);
    const detail = value.kind === 'map' ? find(value, 'kind', document.reading)?.value.value : value.value;
    return symbol(
      document,
      named(name, 'name'),
      kind,
      value,
      key,
      below.map(([joint, jointKey, body]) =>
        symbol(document, named(joint, 'joint'), SymbolKind.Property, body, jointKey, []),
      ),
      detail === null || detail === undefined ? undefined : String(detail),
    );
  });
}

function rulesOf(list: Node, document: Document, kind: SymbolKind): DocumentSymbol[] {
  return items(list, document.reading).flatMap(({ value }) => {
    const id = find(value, 'id', document.reading)?.value ?? find(value, 'verb', document.reading)?.value;
    if (id === undefined) return [];
    return [symbol(document, named(cut(String(id.value ?? '')), 'rule'), kind, value, id, [])];
  });
}

/** The pairs written in a map itself, with their names. */
function entriesOf(map: Node, document: Document): [string, Node, Node][] {
  if (map.kind !== 'map') return [];
  return (map.keys ?? []).flatMap((key, index): [string, Node, Node][] => {
    const name = keyName(key, document.reading);
    const value = map.items?.[index];
    return name === null || value === undefined ? [] : [[name, key, value]];
  });
}
