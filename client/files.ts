import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
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
} from '../server/src/lsp/client-files-types';
import { base64 } from '../server/src/workspace/base64';
import { LANGUAGE } from './language';

/**
 * Answers a server that has no disk, or not this one: it reads through the editor, whatever the folders that are open are
 * kept in. Only places of the writer's are read, so that no document can have the editor fetch something from elsewhere.
 * @param own the folder of the extension, which may be read too.
 */
export function answerForFiles(client: BaseLanguageClient, own: vscode.Uri): vscode.Disposable[] {
  const { fs } = vscode.workspace;
  const answer = <Answer>(request: string, nothing: Answer, look: (uri: vscode.Uri) => Thenable<Answer>) =>
    client.onRequest(request, async (parameters: PlaceParams): Promise<Answer> => {
      try {
        const uri = vscode.Uri.parse(parameters.uri, true);
        return isNear(uri, own) ? await look(uri) : nothing;
      } catch {
        // There is none, or it cannot be read.
        return nothing;
      }
    });
  return [
    answer<ReadAnswer>(READ_REQUEST, null, async (uri) => asText(await fs.readFile(uri))),
    answer<BytesAnswer>(BYTES_REQUEST, null, async (uri) => base64(await fs.readFile(uri))),
    answer<KindAnswer>(KIND_REQUEST, null, async (uri) => kindOf((await fs.stat(uri)).type)),
    answer<ListAnswer>(LIST_REQUEST, [], async (uri) =>
      (await fs.readDirectory(uri)).flatMap(([name, type]) => {
        const kind = kindOf(type);
        const link = (type & vscode.FileType.SymbolicLink) !== 0;
        return kind === null || (link && kind === 'folder') ? [] : [{ name, kind }];
      }),
    ),
  ];
}

/** Whether a place is where the writer's folders and documents are, or in the extension itself. */
function isNear(uri: vscode.Uri, own: vscode.Uri): boolean {
  const beside = (one: vscode.Uri) => one.scheme === uri.scheme && one.authority === uri.authority;
  const { workspaceFolders = [], textDocuments } = vscode.workspace;
  const inside = beside(own) && uri.path.startsWith(`${own.path}/`);
  const ours = textDocuments.filter(({ languageId }) => languageId === LANGUAGE);
  return inside || [...workspaceFolders, ...ours].some((one) => beside(one.uri));
}

function kindOf(type: vscode.FileType): KindAnswer {
  if ((type & vscode.FileType.File) !== 0) return 'file';
  return (type & vscode.FileType.Directory) !== 0 ? 'folder' : null;
}

/** As it is, with its byte order mark: the server counts characters as the editor does. */
const asText = (bytes: Uint8Array): string => new TextDecoder('utf-8', { ignoreBOM: true }).decode(bytes);
