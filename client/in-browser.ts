import * as vscode from 'vscode';
import type { LanguageClientOptions, MessageTransports } from 'vscode-languageclient';
import {
  BaseLanguageClient,
  BrowserMessageReader,
  BrowserMessageWriter,
} from 'vscode-languageclient/browser';
import { begin } from './extension';

/** What is used of a browser's workers; the types of this project are those of a machine. */
declare class Worker extends EventTarget {
  constructor(address: string, options: { name: string });
  terminate(): void;
}

/** Started by an editor in a browser, on a document of ours or in a folder that holds one. */
export const activate = (context: vscode.ExtensionContext): Promise<void> =>
  begin(context, ({ extensionUri }, options) => new WorkerClient(extensionUri, options));

/** A client that makes its server, a worker, each time it starts: one that was stopped hears nothing any more. */
class WorkerClient extends BaseLanguageClient {
  private letGo = (): void => undefined;

  constructor(
    private readonly extension: vscode.Uri,
    options: LanguageClientOptions,
  ) {
    super('kitproof', 'Kitproof', options);
  }

  protected async createMessageTransports(): Promise<MessageTransports> {
    this.letGo();
    // Handed over as what it says: by its address an editor starts no worker of an extension that a remote machine keeps.
    const script = await vscode.workspace.fs.readFile(
      vscode.Uri.joinPath(this.extension, 'dist', 'web', 'server.js'),
    );
    const address = URL.createObjectURL(new Blob([new Uint8Array(script)], { type: 'text/javascript' }));
    const worker = new Worker(address, { name: 'kitproof' });
    this.letGo = () => {
      worker.terminate();
      URL.revokeObjectURL(address);
    };
    return { reader: new WorkerReader(worker), writer: new BrowserMessageWriter(worker as never) };
  }

  override async dispose(timeout?: number): Promise<void> {
    try {
      await super.dispose(timeout);
    } finally {
      this.letGo();
    }
  }
}

/** A worker says that it failed, not that it is gone: it is taken for gone, so that another is started. */
class WorkerReader extends BrowserMessageReader {
  constructor(worker: Worker) {
    super(worker as never);
    worker.addEventListener('error', () => this.fireClose());
  }
}
