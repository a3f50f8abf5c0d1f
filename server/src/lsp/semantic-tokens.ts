import {
  type Range,
  type SemanticTokens,
  SemanticTokensBuilder,
  SemanticTokenTypes,
} from 'vscode-languageserver/lib/common/api.js';
import { VERBS } from '../model/verbs';
import { schemaAt } from '../schema/describe';
import { follow, keyName } from '../text/access';
import type { Node } from '../text/tree';
import type { Document } from '../workspace/document';
import type { Name, NameGroup } from '../workspace/names';
import { answering, type Context, type Feature } from './context';

/** What words are, in the types that every colour theme knows. */
const LEGEND = [
  SemanticTokenTypes.class,
  SemanticTokenTypes.property,
  SemanticTokenTypes.type,
  SemanticTokenTypes.enum,
  SemanticTokenTypes.enumMember,
  SemanticTokenTypes.variable,
  SemanticTokenTypes.interface,
  SemanticTokenTypes.function,
  SemanticTokenTypes.method,
  SemanticTokenTypes.namespace,
  SemanticTokenTypes.keyword,
  SemanticTokenTypes.number,
] as const;
type Type = (typeof LEGEND)[number];

const TYPES: Readonly<Record<NameGroup, Type>> = {
  item: SemanticTokenTypes.class,
  kind: SemanticTokenTypes.type,
  trait: SemanticTokenTypes.enum,
  found: SemanticTokenTypes.variable,
  aid: SemanticTokenTypes.interface,
  piece: SemanticTokenTypes.property,
  rule: SemanticTokenTypes.function,
  step: SemanticTokenTypes.method,
  section: SemanticTokenTypes.namespace,
  vehicle: SemanticTokenTypes.namespace,
};

interface Token {
  readonly start: number;
  readonly end: number;
  readonly type: Type;
}

/** Colours by what a word is: verbs, parts, joints, kinds, traits and their values, aids, figures. */
export const semanticTokens: Feature = {
  capabilities: () => ({
    semanticTokensProvider: {
      legend: { tokenTypes: [...LEGEND], tokenModifiers: ['declaration'] },
      full: true,
      range: true,
    },
  }),
  register(connection, context) {
    const tokens = async (uri: string, range: Range | null): Promise<SemanticTokens> => {
      const document = await context.document(uri);
      const builder = new SemanticTokensBuilder();
      if (document === null) return builder.build();
      const from = range === null ? 0 : document.lines.offsetAt(range.start);
      const to = range === null ? document.text.length : document.lines.offsetAt(range.end);
      for (const { start, end, type } of tokensOf(context, document)) {
        if (end < from || start > to) continue;
        const { line, character } = document.lines.positionAt(start);
        const last = document.lines.positionAt(end);
        if (last.line === line) builder.push(line, character, end - start, LEGEND.indexOf(type), 0);
      }
      return builder.build();
    };
    connection.languages.semanticTokens.on(
      answering<{ readonly textDocument: { readonly uri: string } }, SemanticTokens>(
        context,
        { data: [] },
        ({ textDocument }) => tokens(textDocument.uri, null),
      ),
    );
    connection.languages.semanticTokens.onRange(
      answering<{ readonly textDocument: { readonly uri: string }; readonly range: Range }, SemanticTokens>(
        context,
        { data: [] },
        ({ textDocument, range }) => tokens(textDocument.uri, range),
      ),
    );
  },
};

/** In order of place, none over another. */
function tokensOf(context: Context, document: Document): Token[] {
  const found = [...nameTokens(context.names.of(document)), ...wordTokens(document)];
  found.sort((a, b) => a.start - b.start || b.end - a.end);
  let end = 0;
  return found.filter((token) => {
    if (token.start < end || token.end <= token.start) return false;
    end = token.end;
    return true;
  });
}

/** Of `part.joint` the part and the joint apart. */
function nameTokens(names: readonly Name[]): Token[] {
  return names.map(({ group, name, place }) => {
    const { start, end } = place.span;
    const dot = name.lastIndexOf('.');
    const whole = end - start === name.length;
    if (dot < 0) return { start, end, type: TYPES[group] };
    return { start: whole ? start + dot + 1 : start, end, type: SemanticTokenTypes.property };
  });
}

/** Verbs, figures and the values of traits. */
function wordTokens({ kind, reading }: Document): Token[] {
  const { root } = reading;
  if (root === null || kind === null) return [];
  const found: Token[] = [];
  const visit = (node: Node, path: readonly (string | number)[], condition: boolean): void => {
    if (follow(node, reading) !== node) return;
    if (node.kind === 'scalar') {
      const { start, end } = node;
      if (condition) found.push({ start, end, type: SemanticTokenTypes.enumMember });
      else if (
        schemaAt(kind, root, reading, path)?.['x-dimension'] !== undefined &&
        /\d/.test(String(node.value))
      )
        found.push({ start, end, type: SemanticTokenTypes.number });
      return;
    }
    node.items?.forEach((item, index) => {
      const key = node.keys?.[index];
      const name = key === undefined ? index : keyName(key, reading);
      if (name === null) return;
      const inDo = path.at(-1) === 'do' || path.at(-2) === 'do';
      if (key !== undefined && inDo && VERBS.has(String(name)))
        found.push({ start: key.start, end: key.end, type: SemanticTokenTypes.keyword });
      const traits = name === 'when' || (path.length === 0 && name === 'covers');
      const bounded = condition && key !== undefined && ['done', 'found'].includes(String(name));
      visit(item, [...path, name], (condition || traits) && !bounded);
    });
  };
  visit(root, [], false);
  return found;
}
