import { MessageChannel, type MessagePort, Worker } from 'node:worker_threads';
import {
  AbstractMessageReader,
  AbstractMessageWriter,
  type ClientCapabilities,
  createMessageConnection,
  type DataCallback,
  type Message,
  type MessageReader,
  type MessageWriter,
} from 'vscode-languageserver/node.js';
import {
  KIND_REQUEST,
  LIST_REQUEST,
  type PlaceParams,
  READ_REQUEST,
} from '../../server/src/lsp/client-files-types';
import { memoryFiles } from '../../server/src/workspace/memory';
import { Client } from './client';

/** What a worker of a browser has beside its language, as far as a server may want it. Nothing of node is in it. */
const HOST = `
  const { createContext, runInContext } = require('node:vm');
  const { readFileSync } = require('node:fs');
  const { workerData: { port, program } } = require('node:worker_threads');
  const names = ['performance', 'setTimeout', 'clearTimeout', 'setInterval', 'clearInterval', 'queueMicrotask', 'console'];
  const world = Object.fromEntries([...names, 'TextEncoder', 'TextDecoder'].map((name) => [name, globalThis[name]]));
  runInContext(readFileSync(program, 'utf8'), createContext({ ...world, self: port }));
`;

/**
 * A server in a worker, and a client that answers for files.
 * @param contents texts by uri, written without their codes for blanks and the like.
 * @param answers whether the client says that it answers.
 */
export function inWorker(program: string, contents: ReadonlyMap<string, string>, answers = true): Client {
  const { port1, port2 } = new MessageChannel();
  const worker = new Worker(HOST, {
    eval: true,
    workerData: { port: port2, program },
    transferList: [port2],
  });
  const connection = createMessageConnection(new PortReader(port1), new PortWriter(port1));
  const client = new Client(connection, async () => {
    port1.close();
    await worker.terminate();
  });
  if (answers) answerFrom(client, contents);
  const { start } = client;
  const experimental = { kitproof: { files: answers } };
  client.start = (capabilities: ClientCapabilities, ...more) =>
    start.call(client, { ...capabilities, experimental }, ...more);
  return client;
}

/** Has a client answer a server's questions for files. */
export function answerFrom(client: Client, contents: ReadonlyMap<string, string>): void {
  const files = memoryFiles(contents);
  const answer = (request: string, look: (name: string) => unknown) =>
    client.answers.set(request, (sent) => look(decodeURIComponent((sent as PlaceParams).uri)));
  answer(READ_REQUEST, files.read);
  answer(LIST_REQUEST, files.list);
  answer(KIND_REQUEST, files.kind);
}

class PortReader extends AbstractMessageReader implements MessageReader {
  constructor(private readonly port: MessagePort) {
    super();
  }

  listen(callback: DataCallback) {
    this.port.on('message', callback);
    return { dispose: () => this.port.off('message', callback) };
  }
}

class PortWriter extends AbstractMessageWriter implements MessageWriter {
  constructor(private readonly port: MessagePort) {
    super();
  }

  async write(message: Message): Promise<void> {
    this.port.postMessage(message);
  }

  end(): void {}
}
