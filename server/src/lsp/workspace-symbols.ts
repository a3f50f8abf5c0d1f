import { SymbolKind, type WorkspaceSymbol } from 'vscode-languageserver/lib/common/api.js';
import type { NameGroup } from '../workspace/names';
import { baseName } from '../workspace/paths';
import { answering, type Feature, rangeOf } from './context';

const KINDS: Readonly<Record<NameGroup, SymbolKind>> = {
  item: SymbolKind.Class,
  kind: SymbolKind.Struct,
  trait: SymbolKind.Enum,
  found: SymbolKind.Variable,
  aid: SymbolKind.Object,
  piece: SymbolKind.Constant,
  rule: SymbolKind.Function,
  step: SymbolKind.Method,
  section: SymbolKind.Module,
  vehicle: SymbolKind.Namespace,
};

/** An editor shows no more, and asks again as the writer types. */
const MOST = 300;

/** Everything that has a name, in all files: parts, joints, kinds, traits, rules, steps and sections with an id. */
export const workspaceSymbols: Feature = {
  capabilities: () => ({ workspaceSymbolProvider: true }),
  register(connection, context) {
    connection.onWorkspaceSymbol(
      answering<{ readonly query: string }, WorkspaceSymbol[]>(context, [], async ({ query }, token) => {
        const found: WorkspaceSymbol[] = [];
        for (const name of await context.everyDocument()) {
          if (token.isCancellationRequested) return [];
          const document = await context.project.open(name);
          if (document === null) continue;
          for (const one of context.names.of(document)) {
            if (!one.declares || !holdsInOrder(one.name, query)) continue;
            const { lines } = document;
            const location = { uri: context.uriOf(name), range: rangeOf(lines, one.place.span) };
            const kind = one.name.includes('.') ? SymbolKind.Property : KINDS[one.group];
            found.push({ name: one.name, kind, location, containerName: baseName(name) });
            if (found.length >= MOST) return found;
          }
        }
        return found;
      }),
    );
  },
};

/** Whether a name holds the letters of a query in their order, as editors look for names. */
function holdsInOrder(name: string, query: string): boolean {
  const letters = name.toLowerCase();
  let at = 0;
  for (const letter of query.toLowerCase()) {
    if (letter === ' ') continue;
    at = letters.indexOf(letter, at) + 1;
    if (at === 0) return false;
  }
  return true;
}
