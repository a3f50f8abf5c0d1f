/** What the extension and the server tell each other to accept a finding: plain data. */

/** The client's command that asks for the reason and the name; its one argument is a `WaiveTarget`. */
export const WAIVE_COMMAND = 'kitproof.waive';

/** Asked with `WaiveParams`; the answer is a `WorkspaceEdit`, null where the finding cannot be accepted there any more. */
export const WAIVE_REQUEST = 'kitproof/waive';

export interface WaiveTarget {
  readonly uri: string;
  /** The version of the document that the finding is of; null where it is not open. */
  readonly version: number | null;
  readonly rule: string;
  readonly message: string;
  /** Where the finding begins. */
  readonly line: number;
  readonly character: number;
}

export interface WaiveParams extends Omit<WaiveTarget, 'message'> {
  readonly because: string;
  readonly by: string;
  /** The last day, `2031-04-30`. */
  readonly until: string;
}
