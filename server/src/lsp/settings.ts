import type { ClientCapabilities, Connection } from 'vscode-languageserver/lib/common/api.js';

/** What a writer may choose in the editor, under `kitproof`. The repository's own settings stand in `kitproof.yaml`. */
export interface SettingValues {
  /** Check every document of the folders that are open, not only the open ones. */
  readonly checkWorkspace: boolean;
  /** Show time and open items over each section. */
  readonly lens: boolean;
  /** What is shown in the text: see `hints.ts`. */
  readonly hints: Readonly<Record<keyof typeof HINTS, boolean>>;
}

const HINTS = { kind: true, time: true, number: false, unit: false, state: false };
const DEFAULTS: SettingValues = { checkWorkspace: true, lens: true, hints: HINTS };

const mapOf = (sent: unknown): Record<string, unknown> =>
  (typeof sent === 'object' && sent !== null ? sent : {}) as Record<string, unknown>;

/** The truth values of a map that are there; of the others what holds by default. */
function flagsOf<Key extends string>(
  sent: unknown,
  defaults: Readonly<Record<Key, boolean>>,
): Record<Key, boolean> {
  const given = mapOf(sent);
  const taken: Record<Key, boolean> = { ...defaults };
  for (const key of Object.keys(defaults) as Key[]) {
    const value = given[key];
    if (typeof value === 'boolean') taken[key] = value;
  }
  return taken;
}

export class Settings {
  values: SettingValues = DEFAULTS;

  /** Takes what a client sent; whatever is not as it should be stays as it was by default. */
  take(sent: unknown): void {
    const { hints: _, ...flags } = DEFAULTS;
    this.values = { ...flagsOf(sent, flags), hints: flagsOf(mapOf(sent).hints, HINTS) };
  }

  /** Asks the client, where it can be asked; else takes what came with the notice. */
  async refresh(connection: Connection, client: ClientCapabilities, sent?: unknown): Promise<void> {
    if (client.workspace?.configuration === true) {
      try {
        this.take(await connection.workspace.getConfiguration('kitproof'));
      } catch {
        // A client that cannot answer leaves the settings as they are.
      }
    } else if (typeof sent === 'object' && sent !== null && 'kitproof' in sent) {
      this.take((sent as { kitproof: unknown }).kitproof);
    }
  }
}
