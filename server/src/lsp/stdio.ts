import process from 'node:process';
import { fileURLToPath } from 'node:url';
import {
  createConnection,
  ProposedFeatures,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-languageserver/node.js';
import { nameOfPath } from '../workspace/paths';
import { printPdf } from '../workspace/print-pdf';
import { repositoryAt } from '../workspace/revisions';
import { localDay } from '../workspace/today';
import { type Host, SILENCE } from './context';
import { startSession } from './session';

/** The language server over standard input and output; resolves when the client is gone. */
export function serveStdio(host: Pick<Host, 'files' | 'version'>): Promise<void> {
  const { stdin, stdout } = process;
  // Nothing but the protocol may go to the output.
  const connection = createConnection(
    ProposedFeatures.all,
    new StreamMessageReader(stdin),
    new StreamMessageWriter(stdout),
  );
  let heard = performance.now();
  startSession(connection, {
    ...host,
    printPdf: (page) => printPdf(page, process.env),
    filesAt: async (folder, revision) => (await (await repositoryAt(folder)).revision(revision)).files(),
    // An editor stays open over midnight.
    today: () => localDay(new Date()),
    catalogue: nameOfPath(CATALOGUE),
    isQuiet: () => performance.now() - heard > SILENCE,
  });
  connection.listen();
  stdin.on('data', () => {
    heard = performance.now();
  });
  return new Promise((resolve) => {
    connection.onExit(() => resolve());
    stdin.on('end', () => resolve());
    stdin.on('close', () => resolve());
  });
}

/** Beside the folder of the bundled program. Where it is not there, findings lead nowhere. */
const CATALOGUE = fileURLToPath(new URL('../schemas/rules.md', import.meta.url));
