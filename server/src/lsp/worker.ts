import {
  BrowserMessageReader,
  BrowserMessageWriter,
  createConnection,
  ProposedFeatures,
} from 'vscode-languageserver/browser.js';
import { version } from '../../../package.json';
import { localDay } from '../workspace/today';
import { SILENCE } from './context';
import { startSession } from './session';

/** What is used of the worker that this runs in. */
declare const self: {
  addEventListener(type: 'message', heard: () => void): void;
  close(): void;
};

/** The language server as a worker of a browser: it has no disk, so that all files are the client's. */
const connection = createConnection(
  ProposedFeatures.all,
  new BrowserMessageReader(self as never),
  new BrowserMessageWriter(self as never),
);
let heard = performance.now();
self.addEventListener('message', () => {
  heard = performance.now();
});
startSession(connection, {
  files: null,
  today: () => localDay(new Date()),
  version,
  catalogue: null,
  isQuiet: () => performance.now() - heard > SILENCE,
});
connection.onExit(() => self.close());
connection.listen();
