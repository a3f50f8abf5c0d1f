import { Known } from '../model/known';
import { NameGuesser } from '../model/nearest';
import type { Library } from '../model/source';
import { makeRulebook, type Rulebook } from '../rules/rulebook';
import { type OpenDocument, openDocument } from '../schema/document';
import { type Configuration, defaultConfiguration, readConfiguration } from './configuration';
import { type Document, isYamlName, readDocument } from './document';
import { folderOf, resolvePath } from './paths';
import { placeKeysOf } from './place-keys';
import { type Files, isTop } from './port';
import { type ReferenceRole, referencesOf } from './references';

/** A guide's documents, everything its check reads. Made by `Project.closureOf`; plain data that later edits leave alone. */
export interface Closure {
  readonly document: Document;
  readonly configuration: Configuration;
  /** All documents it leads to by paths, itself first; by name. */
  readonly documents: ReadonlyMap<string, Document>;
  /** Paths that lead nowhere, each with the name of a file beside it that is likely meant; null where none is. */
  readonly missing: ReadonlyMap<string, string | null>;
  /** The house's packs, in order; standard packs come before them. */
  readonly housePacks: readonly Document[];
  readonly times: readonly Document[];
  /** Any of these documents, and any pack, as the schema sees it. */
  opened(document: Document): OpenDocument;
  /** What binding asks other documents by. */
  readonly library: Library;
  /** The rules in force. */
  readonly rulebook: Rulebook;
  /** What the configuration names, by name; null for what is missing or not ours. */
  readonly configured: ReadonlyMap<string, Document | null>;
}

/** The rules in force at a place of the project, and where they come from. */
export interface RulesInForce {
  readonly configuration: Configuration;
  /** What the configuration names, by name; null for what is missing or not ours. */
  readonly configured: ReadonlyMap<string, Document | null>;
  /** The house's packs, in order; standard packs come before them. */
  readonly housePacks: readonly Document[];
  /** All packs, the standard ones first. */
  readonly packs: readonly OpenDocument[];
  readonly rulebook: Rulebook;
}

/** Guides that lead on and on are followed this far; what lies behind is not known. */
const MOST_DOCUMENTS = 500;
/** Folders that are looked through for files that were likely meant. */
const MOST_FOLDERS = 20;
/** Folders with packs of their own, whose packs are kept as they were read. */
const MOST_SETS_OF_PACKS = 4;

/**
 * The project: which documents there are, what they say, what depends on what. Everything read is kept until
 * `forget` says that a file changed; a document is read again only when its text is another.
 */
export class Project {
  private readonly documents = new Map<
    string,
    { readonly text: string; readonly document: Document | null }
  >();
  private readonly pending = new Map<string, Promise<Document | null>>();
  private readonly fresh = new Set<string>();
  private readonly configurations = new Map<string, Promise<Configuration>>();
  private readonly openedDocuments = new WeakMap<
    Document,
    { readonly key: string; readonly opened: OpenDocument }
  >();
  private readonly rulebooks = new WeakMap<Configuration, Rulebook>();
  private known: readonly Known[] = [];
  /** Whether a picture is there, until any file changes. */
  private readonly pictures = new Map<string, Promise<boolean>>();
  /** What each guide was found to depend on when it was last asked for. */
  private readonly dependencies = new Map<string, ReadonlySet<string>>();

  constructor(
    private readonly files: Files,
    private readonly standardPacks: readonly Document[],
  ) {}

  /** The document of a name, null where there is no such file or it is not ours. */
  async open(name: string): Promise<Document | null> {
    if (this.fresh.has(name)) return this.documents.get(name)?.document ?? null;
    const running = this.pending.get(name);
    if (running !== undefined) return running;
    const isLast = () => this.pending.get(name) === work;
    const work: Promise<Document | null> = this.load(name, isLast).finally(
      () => isLast() && this.pending.delete(name),
    );
    this.pending.set(name, work);
    return work;
  }

  /** Says that a file changed, came or went. */
  forget(name: string): void {
    this.fresh.delete(name);
    this.pending.delete(name);
    this.pictures.clear();
    if (!isPlain(this.documents.get(name)?.document)) this.configurations.clear();
  }

  /** Reads a file that changed, came or went; says whether it is another document of ours than before, or now one, or none. */
  async refresh(name: string): Promise<boolean> {
    const before = this.documents.get(name)?.document ?? null;
    this.forget(name);
    return (await this.open(name)) !== before;
  }

  /** Takes what an open editor says of a file, until `forget`; null where that is no document of ours. */
  hold(name: string, text: string, document: Document | null): void {
    const before = this.documents.get(name);
    const plain = before !== undefined && isPlain(before.document) && isPlain(document);
    if (!plain) this.configurations.clear();
    this.pending.delete(name);
    this.documents.set(name, { text, document });
    this.fresh.add(name);
  }

  /** Whether there is a file of this name that can be read, ours or not. */
  async exists(name: string): Promise<boolean> {
    return (await this.open(name)) !== null || (await this.files.kind(name)) === 'file';
  }

  /** What the nearest `kitproof.yaml` above a document says. */
  configurationOf(name: string): Promise<Configuration> {
    const folder = folderOf(name);
    const known = this.configurations.get(folder);
    if (known !== undefined) return known;
    const found = this.nearestConfiguration(folder);
    this.configurations.set(folder, found);
    return found;
  }

  /** The rules that a document of this name is checked against. */
  async rulesAt(name: string): Promise<RulesInForce> {
    const configuration = await this.configurationOf(name);
    const configured = new Map<string, Document | null>();
    for (const one of [...configuration.packs, ...configuration.times])
      configured.set(one, await this.open(one));
    const housePacks = ofKind(configured, configuration.packs, 'rules');
    const packs = [...this.standardPacks, ...housePacks].map((pack) => this.openedPlain(pack));
    const rulebook = this.rulebookOf(configuration, packs);
    return { configuration, configured, housePacks, packs, rulebook };
  }

  /** A document with all that its check reads. */
  async closureOf(document: Document): Promise<Closure> {
    const { configuration, configured, housePacks, packs, rulebook } = await this.rulesAt(document.uri);
    const documents = new Map([[document.uri, document]]);
    const asked = new Set<string>([document.uri]);
    const lost = new Map<string, ReferenceRole>();
    const lostPictures = new Set<string>();
    const waiting = [document];
    for (
      let next = waiting.pop();
      next !== undefined && documents.size < MOST_DOCUMENTS;
      next = waiting.pop()
    ) {
      for (const { role, uri } of referencesOf(next)) {
        if (asked.has(uri)) continue;
        asked.add(uri);
        if (role === 'picture') {
          if (!(await this.isThere(uri))) lostPictures.add(uri);
          continue;
        }
        const found = await this.open(uri);
        if (found === null) {
          lost.set(uri, role);
          asked.add(anyIn(folderOf(uri)));
          continue;
        }
        documents.set(uri, found);
        if (found.kind === 'install') waiting.push(found);
      }
    }
    const missing = await this.meantBy(lost);
    const times = ofKind(configured, configuration.times, 'times');
    for (const name of [...configuration.packs, ...configuration.times]) asked.add(name);
    if (configuration.document !== null) asked.add(configuration.document.uri);
    this.dependencies.set(document.uri, asked);
    const declaring = [...documents.values()].filter(({ kind }) => kind === 'vehicle' || kind === 'kit');
    const placeKeys = placeKeysOf(declaring.map((one) => this.openedPlain(one)));
    const opened = (one: Document): OpenDocument =>
      one.kind === 'install' && placeKeys.size > 0 ? this.openedWith(one, placeKeys) : this.openedPlain(one);
    const library: Library = {
      document: (uri) => {
        const found = documents.get(uri);
        return found === undefined ? null : opened(found);
      },
      resolve: (from, path) => resolvePath(folderOf(from), path.trim()),
      meant: (uri) => missing.get(uri) ?? null,
      isLost: (uri) => lostPictures.has(uri),
      packs,
      known: this.knownOf(packs),
      vehicles: (await this.vehiclesFor(document, documents)).map((vehicle) => this.openedPlain(vehicle)),
    };
    return {
      document,
      configuration,
      documents,
      missing,
      housePacks,
      times,
      opened,
      library,
      rulebook,
      configured,
    };
  }

  /**
   * The names of all that the check of a document reads or looks for, itself among them: what it leads to, what its settings name,
   * the settings; of a kit by itself the vehicles that it is held against. `FOLDER/*` stands for whatever comes or goes in a folder.
   */
  async inputsOf(document: Document): Promise<ReadonlySet<string>> {
    const { library } = await this.closureOf(document);
    const beside = (library.vehicles ?? []).map(({ uri }) => uri);
    return new Set([...(this.dependencies.get(document.uri) ?? [document.uri]), ...beside]);
  }

  /** The guides, of those that a closure was made of, whose check reads a document. */
  dependentsOf(name: string): string[] {
    const any = anyIn(folderOf(name));
    return [...this.dependencies]
      .flatMap(([guide, asked]) => (asked.has(name) || asked.has(any) ? [guide] : []))
      .sort();
  }

  /** For paths that lead nowhere the file beside that has nearly their name and is of the kind that is wanted there. */
  private async meantBy(lost: ReadonlyMap<string, ReferenceRole>): Promise<Map<string, string | null>> {
    const guessers = new Map<string, NameGuesser>();
    const meant = new Map<string, string | null>();
    for (const [uri, role] of lost) {
      const folder = folderOf(uri);
      let guesser = guessers.get(folder);
      if (guesser === undefined) {
        const entries = guessers.size < MOST_FOLDERS ? await this.files.list(folder) : [];
        guesser = new NameGuesser(entries.flatMap((entry) => (isYamlName(entry.name) ? [entry.name] : [])));
        guessers.set(folder, guesser);
      }
      const name = uri.slice(uri.lastIndexOf('/') + 1);
      const near = guesser.nearest(name);
      const found = near === null || near === name ? null : await this.open(within(folder, near));
      meant.set(uri, found?.kind === (role === 'vehicle' || role === 'kit' ? role : 'install') ? near : null);
    }
    return meant;
  }

  private isThere(picture: string): Promise<boolean> {
    const known = this.pictures.get(picture);
    if (known !== undefined) return known;
    const asked = this.files.kind(picture).then((kind) => kind === 'file');
    this.pictures.set(picture, asked);
    return asked;
  }

  private openedPlain(document: Document): OpenDocument {
    return this.openedWith(document, NO_KEYS);
  }

  private openedWith(document: Document, placeKeys: ReadonlySet<string>): OpenDocument {
    const key = [...placeKeys].sort().join('\n');
    const known = this.openedDocuments.get(document);
    if (known?.key === key) return known.opened;
    const { uri, reading, text } = document;
    const opened = openDocument(uri, reading, { placeKeys, source: text, ours: true });
    this.openedDocuments.set(document, { key, opened });
    return opened;
  }

  /**
   * The vehicles that kits are held against: of a guide its own; of a kit by itself those of the nearest folder above it
   * that has any, no farther up than the configuration or the repository.
   */
  private async vehiclesFor(
    document: Document,
    documents: ReadonlyMap<string, Document>,
  ): Promise<Document[]> {
    if (document.kind === 'install') {
      return referencesOf(document).flatMap(({ role, uri }) => {
        const vehicle = documents.get(uri);
        return role === 'vehicle' && vehicle?.kind === 'vehicle' ? [vehicle] : [];
      });
    }
    if (document.kind !== 'kit') return [];
    const { folder: top } = await this.configurationOf(document.uri);
    for (let folder = folderOf(document.uri); ; folder = folderOf(folder)) {
      const found: Document[] = [];
      for (const entry of await this.files.list(folder)) {
        if (entry.kind !== 'file' || !isYamlName(entry.name)) continue;
        const other = await this.open(within(folder, entry.name));
        if (other?.kind === 'vehicle') found.push(other);
      }
      if (found.length > 0) return found;
      if (folder === top || (await isTop(this.files, folder))) return [];
    }
  }

  /** What packs say; of each other set of packs anew. */
  private knownOf(packs: readonly OpenDocument[]): Known {
    const same = (known: Known) =>
      known.packs.length === packs.length && known.packs.every((one, index) => one === packs[index]);
    let found = this.known.find(same);
    if (found === undefined) {
      found = new Known(packs);
      this.known = [found, ...this.known].slice(0, MOST_SETS_OF_PACKS);
    }
    return found;
  }

  /** A rulebook is as long-lived as the configuration it comes from, which is read again when anything changes. */
  private rulebookOf(configuration: Configuration, packs: readonly OpenDocument[]): Rulebook {
    const known = this.rulebooks.get(configuration);
    if (known !== undefined) return known;
    const rules = new Map(
      [...configuration.rules].map(
        ([id, { on, severity, harm }]) => [id, { on: on ?? true, severity, harm }] as const,
      ),
    );
    const made = makeRulebook(packs, { rules, strictLoosening: configuration.strictLoosening });
    this.rulebooks.set(configuration, made);
    return made;
  }

  private async load(name: string, isLast: () => boolean): Promise<Document | null> {
    const text = await this.files.read(name);
    const known = this.documents.get(name);
    // An editor may have opened it meanwhile.
    if (this.fresh.has(name)) return known?.document ?? null;
    // It changed while it was read.
    if (!isLast()) return this.open(name);
    this.fresh.add(name);
    if (text === null) {
      this.documents.delete(name);
      return null;
    }
    if (known?.text === text) return known.document;
    const document = readDocument(name, text);
    this.documents.set(name, { text, document });
    return document;
  }

  private async nearestConfiguration(folder: string): Promise<Configuration> {
    for (const file of ['kitproof.yaml', 'kitproof.yml']) {
      const document = await this.open(within(folder, file));
      if (document?.kind === 'config') return readConfiguration(document);
    }
    return (await isTop(this.files, folder)) ? defaultConfiguration : this.configurationOf(folder);
  }
}

const NO_KEYS: ReadonlySet<string> = new Set();

/** Whether a document is of a kind that no configuration is made of; null and what is not ours are not known to be. */
function isPlain(document: Document | null | undefined): boolean {
  return document?.kind === 'install' || document?.kind === 'vehicle' || document?.kind === 'kit';
}

/** Those of some documents that are of a kind, in order, each once. */
function ofKind(
  documents: ReadonlyMap<string, Document | null>,
  names: readonly string[],
  kind: string,
): Document[] {
  return [...new Set(names)].flatMap((name) => {
    const document = documents.get(name);
    return document?.kind === kind ? [document] : [];
  });
}

/** Stands for whatever comes or goes in a folder. */
const anyIn = (folder: string): string => within(folder, '*');

/** The name of something in a folder. */
const within = (folder: string, name: string): string =>
  folder.endsWith('/') ? folder + name : `${folder}/${name}`;
