import {
  type CompletionItem,
  CompletionItemKind,
  type CompletionList,
  InsertTextFormat,
  InsertTextMode,
  type Range,
} from 'vscode-languageserver/lib/common/api.js';
import { isBuiltIn } from '../model/builtins';
import { VERBS } from '../model/verbs';
import { FAMILIES } from '../rules/rule';
import { FIRST_KEYS, propertiesOf, verbDescriptions } from '../schema/describe';
import { type Asked, askedAt } from '../workspace/asked';
import { conditionMapAt, lookAt } from '../workspace/at';
import { aidsOf, type Candidate, kindsOf, partsFor, targetsFor } from '../workspace/candidates';
import { conditionKeys, conditionVariables } from '../workspace/condition-words';
import { isNamedAsOurs } from '../workspace/document';
import type { OpenGuide } from '../workspace/guides';
import type { Closure } from '../workspace/project';
import { ruleWords } from '../workspace/rule-words';
import { type About, CompletionDocs } from './completion-docs';
import { wordsInBraces } from './completion-texts';
import { valueCandidates } from './completion-values';
import { answering, type Context, type Feature, rangeOf } from './context';
import { nameTold } from './hover';
import { RULE_SNIPPETS, SECTION_SNIPPETS, type Snippet, STEP_SNIPPETS, withChoices } from './snippets';
import { nameOfUri } from './uris';

const NOTHING: CompletionList = { isIncomplete: false, items: [] };

/** Keys, verbs, names and values that may stand at the cursor, what makes sense in the present state first. */
export const completion: Feature = {
  capabilities: () => ({
    completionProvider: { triggerCharacters: [':', ' ', '.', '{', '-'], resolveProvider: true },
  }),
  register(connection, context) {
    const docs = new CompletionDocs(context);
    connection.onCompletionResolve(
      (item, token): Promise<CompletionItem> =>
        answering(context, item, async (one: CompletionItem) => docs.resolved(one))(item, token),
    );
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
          const braces = wordsInBraces(guide, document, offset);
          if (braces !== null) {
            const step = lookAt(document, offset)?.step ?? null;
            const list = listOf(braces.words, rangeOf(document.lines, braces));
            return docs.listed(list, namesTold(guide, braces.words, step));
          }
        }
        const closure = guide?.closure ?? (await context.project.closureOf(document));
        const items: CompletionItem[] = [];
        const told = new Map<string, About>();
        for (const [index, asked] of askedAt(document, offset).entries()) {
          const range = rangeOf(document.lines, { start: asked.start, end: asked.end });
          const words = asked.slot === 'key' ? null : await valueCandidates(context, asked, guide, closure);
          const list = words === null ? keysFor(context, asked, guide, closure, range) : listOf(words, range);
          for (const [name, about] of namesTold(guide, words ?? [], asked.step)) told.set(name, about);
          items.push(...list.items.map((item) => led(item, asked.lead, index)));
        }
        return docs.listed({ isIncomplete: false, items }, told);
      }),
    );
  },
};

/** An item with what is written before it; of two things that are asked for the first stands first. */
function led(item: CompletionItem, lead: string, index: number): CompletionItem {
  const { textEdit, label, sortText } = item;
  if (textEdit === undefined || (lead === '' && index === 0)) return item;
  const newText = lead + textEdit.newText;
  return { ...item, filterText: label, sortText: `${index}${sortText}`, textEdit: { ...textEdit, newText } };
}

/** For names of a guide what the pointer on them would tell, where that is asked for. */
function namesTold(
  guide: OpenGuide | null,
  words: readonly Candidate[],
  step: string | null,
): ReadonlyMap<string, About> {
  const told = new Map<string, About>();
  if (guide !== null)
    for (const { word, named } of words) if (named) told.set(word, () => nameTold(guide, word, step));
  return told;
}

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
  const bounds = conditionMapAt(document, asked.keys);
  // Only figures lie within bounds.
  if (
    bounds?.is === 'bounds' &&
    !conditionVariables(guide, closure).some(({ name, numeric }) => numeric && name === bounds.of)
  )
    return NOTHING;
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
    for (const { word, detail, about, rank } of conditionKeys(guide, closure))
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
  const properties = document.kind === null ? [] : [...propertiesOf(schema, document.kind)];
  for (const [index, [name, property]] of properties.entries()) {
    if (beside.has(name)) continue;
    const rank = required.has(name) ? '0' : families.has(name) ? '1' : '2';
    // Within a rank in the order in which documents are written.
    const item = key(name, property.description ?? '', rank, CompletionItemKind.Property);
    items.push({
      ...item,
      sortText: rank + String(index).padStart(3, '0'),
      ...(required.has(name) ? { labelDetails: { description: 'needed' } } : {}),
    });
  }
  if (beside.size === 0 && context.client.textDocument?.completion?.completionItem?.snippetSupport === true) {
    const last = asked.keys.at(-1);
    const list = asked.keys.at(-2);
    const snippets = typeof last === 'number' ? (SNIPPETS[`${asked.document.kind} ${list}`] ?? []) : [];
    const words = wordsForPlaces(asked, guide);
    for (const one of snippets)
      items.push(snippetItem(one, withChoices(one, words), range, asked.lead.length));
  }
  return { isIncomplete: false, items };
}

/** By the kind of the document and the list that the snippets go into. */
const SNIPPETS: Readonly<Record<string, readonly Snippet[]>> = {
  'install steps': STEP_SNIPPETS,
  'install sections': SECTION_SNIPPETS,
  'rules rules': RULE_SNIPPETS,
};

/** How many words a place of a snippet lets choose from. */
const MOST_CHOICES = 40;

/** What may stand at the places of a snippet that is put in here, what makes sense in the present state first. */
function wordsForPlaces(asked: Asked, guide: OpenGuide | null): Parameters<typeof withChoices>[1] {
  if (guide === null) return () => [];
  const { model } = guide;
  const sim = asked.step === null ? null : guide.before(asked.step);
  return (place) => {
    const words =
      'aid' in place
        ? aidsOf(model, place.aid)
        : 'parts' in place
          ? partsFor(model, place.parts, sim)
          : targetsFor(model, place.targets, sim).filter(({ word }) => !isBuiltIn(word));
    const fitting = words.filter(({ rank }) => rank < 2).sort((a, b) => a.rank - b.rank);
    return fitting.slice(0, MOST_CHOICES).map(({ word }) => word);
  };
}

function snippetItem({ label, about }: Snippet, body: string, range: Range, led: number): CompletionItem {
  const indent = ' '.repeat(range.start.character + led);
  return {
    label,
    kind: CompletionItemKind.Snippet,
    sortText: `0 ${label}`,
    documentation: about,
    insertTextFormat: InsertTextFormat.Snippet,
    // An editor goes by where the line begins, which is not where the element does: behind its dash.
    insertTextMode: InsertTextMode.asIs,
    textEdit: { range, newText: body.replaceAll('\n', `\n${indent}`) },
  };
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
  if (names === 'access') return kindsOf([closure.opened(closure.document), ...closure.library.packs]);
  if (guide === null) return [];
  if (names === 'trait') return conditionKeys(guide, closure).filter(({ rank }) => rank === 0);
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
