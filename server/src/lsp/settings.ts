import type { ClientCapabilities, Connection } from 'vscode-languageserver/lib/common/api.js';

/** What a writer may choose in the editor, under `kitproof`. The repository's own settings stand in `kitproof.yaml`. */
export interface SettingValues {
  /** Check every document of the folders that are open, not only the open ones. */
  readonly checkWorkspace: boolean;
  /** Show time and open items over each section. */
  readonly lens: boolean;
  /** Show guessed kinds and the running time in the text. */
  readonly hints: boolean;
}

const DEFAULTS: SettingValues = { checkWorkspace: true, lens: true, hints: true };

export class Settings {
  values: SettingValues = DEFAULTS;

  /** Takes what a client sent; whatever is not as it should be stays as it was by default. */
  take(sent: unknown): void {
    const given = (typeof sent === 'object' && sent !== null ? sent : {}) as Record<string, unknown>;
    const flag = (name: keyof SettingValues): boolean => {
      const value = given[name];
      return typeof value === 'boolean' ? value : DEFAULTS[name];
    };
    this.values = { checkWorkspace: flag('checkWorkspace'), lens: flag('lens'), hints: flag('hints') };
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
