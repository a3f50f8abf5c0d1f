import type { ClientCapabilities, Connection } from 'vscode-languageserver/lib/common/api.js';
import { bytesOf } from '../workspace/base64';
import { hasScheme } from '../workspace/paths';
import type { EntryKind, Files, Listed } from '../workspace/port';
import {
  BYTES_REQUEST,
  type BytesAnswer,
  KIND_REQUEST,
  type KindAnswer,
  LIST_REQUEST,
  type ListAnswer,
  type PlaceParams,
  READ_REQUEST,
  type ReadAnswer,
} from './client-files-types';
import { uriOfName } from './uris';

/**
 * Files that only the client can reach. Every question goes to it and back, so what folders hold is kept until `forget`; of
 * texts the project keeps what it read.
 */
export class ClientFiles implements Files {
  private readonly lists = new Map<string, Promise<readonly Listed[]>>();
  private readonly kinds = new Map<string, Promise<EntryKind | null>>();

  /** Without the client's word that it answers it is asked nothing, and there are no files. */
  private readonly offered: boolean;

  /** @param isTop whether a folder is one that the client has open: what is above it is not its writer's. */
  constructor(
    private readonly connection: Connection,
    { experimental }: ClientCapabilities,
    readonly isTop: (folder: string) => boolean,
  ) {
    const said = experimental as { kitproof?: { files?: unknown } } | undefined;
    this.offered = said?.kitproof?.files === true;
  }

  read(name: string): Promise<string | null> {
    return this.ask<ReadAnswer>(READ_REQUEST, name, null);
  }

  async bytes(name: string): Promise<Uint8Array | null> {
    const answer = await this.ask<BytesAnswer>(BYTES_REQUEST, name, null);
    return answer === null ? null : bytesOf(answer);
  }

  async list(folder: string): Promise<readonly Listed[]> {
    return kept(this.lists, folder, async () => {
      const listed = await this.ask<ListAnswer>(LIST_REQUEST, folder, []);
      return [...listed].sort((a, b) => (a.name < b.name ? -1 : 1));
    });
  }

  kind(name: string): Promise<EntryKind | null> {
    return kept(this.kinds, name, () => this.ask<KindAnswer>(KIND_REQUEST, name, null));
  }

  /** Says that files came or went. */
  forget(): void {
    this.lists.clear();
    this.kinds.clear();
  }

  private async ask<Answer>(request: string, name: string, nothing: Answer): Promise<Answer> {
    // `untitled:1` and the like stand in no folder.
    if (!this.offered || (!hasScheme(name) && !name.startsWith('/') && name[1] !== ':')) return nothing;
    const parameters: PlaceParams = { uri: uriOfName(name) };
    try {
      return await this.connection.sendRequest<Answer>(request, parameters);
    } catch {
      // The client is about to go.
      return nothing;
    }
  }
}

/** What a session reads: files of its machine by their paths, and of the client what has a scheme; all where there is no machine. */
export function filesFor(machine: Files | null, client: Files): Files {
  if (machine === null) return client;
  const having = (name: string): Files => (hasScheme(name) ? client : machine);
  return {
    read: (name) => having(name).read(name),
    bytes: async (name) => (await having(name).bytes?.(name)) ?? null,
    list: (folder) => having(folder).list(folder),
    kind: (name) => having(name).kind(name),
    isTop: (folder) => having(folder).isTop?.(folder) === true,
  };
}

function kept<Value>(
  known: Map<string, Promise<Value>>,
  name: string,
  ask: () => Promise<Value>,
): Promise<Value> {
  let found = known.get(name);
  if (found === undefined) {
    found = ask();
    known.set(name, found);
  }
  return found;
}
