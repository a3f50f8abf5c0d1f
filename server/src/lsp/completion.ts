import {
  type CompletionItem,
  CompletionItemKind,
  type CompletionList,
  InsertTextFormat,
  InsertTextMode,
  type Range,
} from 'vscode-languageserver/lib/common/api.js';
import { VERBS } from '../model/verbs';
import { FAMILIES } from '../rules/rule';
import { FIRST_KEYS, propertiesOf, verbDescriptions } from '../schema/describe';
import { type Asked, askedAt } from '../workspace/asked';
import type { Candidate } from '../workspace/candidates';
import { isNamedAsOurs } from '../workspace/document';
import type { OpenGuide } from '../workspace/guides';
import type { Closure } from '../workspace/project';
import { ruleWords } from '../workspace/rule-words';
import { valueCandidates, wordsInCurly } from './completion-values';
import { answering, type Context, type Feature, rangeOf } from './context';
import { RULE_SNIPPETS, SECTION_SNIPPETS, type Snippet, STEP_SNIPPETS } from './snippets';
import { nameOfUri } from './uris';

const NOTHING: CompletionList = { isIncomplete: false, items: [] };

/** Keys, verbs, names and values that may stand at the cursor, what makes sense in the present state first. */
export const completion: Feature = {
  capabilities: () => ({ completionProvider: { triggerCharacters: [':', ' ', '.', '{', '-'] } }),
  register(connection, context) {
    connection.onCompletion(
      answering<
        { textDocument: { uri: string }; position: { line: number; character: number } },
        CompletionList
      >(context, NOTHING, async ({ textDocument, position }) => {
        const document = await context.document(textDocument.uri);
        if (document === null || document.kind === null) return firstLines(context, textDocument.uri);
        const offset = document.lines.offsetAt(position);
        const guide = await context.guides.open(document.uri);
        if (guide !== null) {
          const curly = wordsInCurly(guide, document, offset);
          if (curly !== null) return listOf(curly.words, rangeOf(document.lines, curly));
        }
        const asked = askedAt(document, offset);
        if (asked === null) return NOTHING;
        const closure = guide?.closure ?? (await context.project.closureOf(document));
        const range = rangeOf(document.lines, { start: asked.start, end: asked.end });
        if (asked.slot === 'key') return keysFor(context, asked, guide, closure, range);
        return listOf(await valueCandidates(context, asked, guide, closure), range);
      }),
    );
  },
};

/** An empty file that is named as ours may begin with what its name says. */
function firstLines(context: Context, uri: string): CompletionList {
  const opened = context.texts.open.get(nameOfUri(uri));
  if (opened === undefined || !isNamedAsOurs(opened.name) || opened.text.length > 200) return NOTHING;
  const range: Range = {
    start: { line: 0, character: 0 },
    end: { line: 0, character: opened.text.split(/\r?\n/)[0]!.length },
  };
  const kind = (word: string) => word.split('/')[0]!;
  return {
    isIncomplete: false,
    items: FIRST_KEYS.map((word) => ({
      label: `kitproof: ${word}`,
      kind: CompletionItemKind.Keyword,
      sortText: opened.name.includes(`.${kind(word)}.`) ? '0' : '1',
      textEdit: { range, newText: `kitproof: ${word}\n` },
      filterText: `kitproof: ${word}`,
    })),
  };
}

function keysFor(
  context: Context,
  asked: Asked,
  guide: OpenGuide | null,
  closure: Closure,
  range: Range,
): CompletionList {
  const { schema, beside, document } = asked;
  const colon = asked.hasColon ? '' : ': ';
  const key = (label: string, about: string, rank: string, kind: CompletionItemKind): CompletionItem => ({
    label,
    kind,
    sortText: `${rank}${label}`,
    documentation: { kind: 'markdown', value: about },
    textEdit: { range, newText: `${label}${colon}` },
  });
  const items: CompletionItem[] = [];
  const hasVerb = [...beside.keys()].some((one) => VERBS.has(one));
  if ((schema['x-operation'] || schema['x-step-or-operation']) && !hasVerb)
    for (const { verb, description } of verbDescriptions())
      items.push(key(verb, description, '1', CompletionItemKind.Function));
  if (schema['x-condition']) {
    for (const { word, detail, about, rank } of valueKeys(guide))
      if (!beside.has(word))
        items.push(key(word, `${detail}: ${about}`, String(rank), CompletionItemKind.EnumMember));
  } else if (typeof schema.additionalProperties === 'object' && schema['x-names'] !== undefined) {
    for (const one of namesForKeys(asked, guide, closure))
      if (!beside.has(one.word))
        items.push(key(one.word, one.about || one.detail, String(one.rank), CompletionItemKind.Variable));
  }
  const required = new Set(schema.required ?? []);
  // A rule asks one thing; until it does, what it may ask comes first.
  const asking = document.kind === 'rules' && !FAMILIES.some((family) => beside.has(family));
  const families: ReadonlySet<string> = new Set(asking ? FAMILIES : []);
  for (const [name, property] of document.kind === null ? [] : propertiesOf(schema, document.kind))
    if (!beside.has(name))
      items.push(
        key(
          name,
          property.description ?? '',
          required.has(name) ? '0' : families.has(name) ? '1' : '2',
          CompletionItemKind.Property,
        ),
      );
  if (beside.size === 0 && context.client.textDocument?.completion?.completionItem?.snippetSupport === true) {
    const last = asked.keys.at(-1);
    const list = asked.keys.at(-2);
    const snippets = typeof last === 'number' ? (SNIPPETS[`${asked.document.kind} ${list}`] ?? []) : [];
    for (const one of snippets) items.push(snippetItem(one, range));
  }
  return { isIncomplete: false, items };
}

/** By the kind of the document and the list that the snippets go into. */
const SNIPPETS: Readonly<Record<string, readonly Snippet[]>> = {
  'install steps': STEP_SNIPPETS,
  'install sections': SECTION_SNIPPETS,
  'rules rules': RULE_SNIPPETS,
};

function snippetItem({ label, about, body }: Snippet, range: Range): CompletionItem {
  return {
    label,
    kind: CompletionItemKind.Snippet,
    sortText: `0${label}`,
    documentation: about,
    insertTextFormat: InsertTextFormat.Snippet,
    insertTextMode: InsertTextMode.adjustIndentation,
    textEdit: { range, newText: body },
  };
}

function valueKeys(guide: OpenGuide | null): Candidate[] {
  const branches: Candidate[] = [
    { word: 'done', detail: 'an optional step was done', about: 'its id', rank: 2 },
    { word: 'found', detail: 'a measure found something', about: 'the word of its `else`', rank: 2 },
    { word: 'not', detail: 'a condition turned round', about: 'a condition', rank: 2 },
  ];
  if (guide === null) return branches;
  return [
    ...guide.model.world.variables
      .filter(({ name }) => !name.includes(':'))
      .map(
        ({ name, kind, values }): Candidate => ({
          word: name,
          detail: kind,
          about: values.join(', '),
          rank: 0,
        }),
      ),
    ...branches,
  ];
}

function namesForKeys(asked: Asked, guide: OpenGuide | null, closure: Closure): Candidate[] {
  const names = asked.schema['x-names'];
  const ofRules = ruleWords(names ?? '', asked, { packs: closure.library.packs, rulebook: closure.rulebook });
  if (ofRules !== null) return ofRules;
  if (names === 'rule')
    return [...closure.rulebook.rules.values()].map(({ id, reason }) => ({
      word: id,
      detail: 'rule',
      about: reason,
      rank: 1,
    }));
  if (guide === null) return [];
  if (names === 'trait') return valueKeys(guide).filter(({ rank }) => rank === 0);
  return [...guide.model.things.values()].flatMap((thing): Candidate[] => [
    { word: thing.name, detail: thing.kind ?? thing.type, about: '', rank: 1 },
    ...(thing.type === 'part' ? [...thing.joints.keys()] : []).map(
      (joint): Candidate => ({ word: `${thing.name}.${joint}`, detail: 'joint', about: '', rank: 2 }),
    ),
  ]);
}

function listOf(words: readonly Candidate[], range: Range): CompletionList {
  const seen = new Set<string>();
  const items = words.flatMap(({ word, detail, about, rank }, index): CompletionItem[] => {
    if (seen.has(word)) return [];
    seen.add(word);
    return [
      {
        label: word,
        kind: CompletionItemKind.Value,
        detail,
        ...(about === '' ? {} : { documentation: about }),
        // Within a rank the order is the file's own.
        sortText: `${rank}${String(index).padStart(5, '0')}`,
        textEdit: { range, newText: word },
      },
    ];
  });
  return { isIncomplete: false, items };
}
