import { afterEach, describe, expect, it } from 'vitest';
import type {
  CodeAction,
  CodeLens,
  CompletionList,
  Diagnostic,
  DocumentLink,
  DocumentSymbol,
  FoldingRange,
  Hover,
  Location,
} from 'vscode-languageserver/node.js';
import { type Client, inMemory, PUSHED } from './client';
import { at, FOLDER, files, GUIDE, GUIDE_URI, positionIn, replacing, VEHICLE, VEHICLE_URI } from './world';

let client: Client;

afterEach(() => client.end());

const SNIPPETS = {
  ...PUSHED,
  textDocument: { ...PUSHED.textDocument, completion: { completionItem: { snippetSupport: true } } },
};

async function opened(guide = GUIDE, vehicle = VEHICLE): Promise<void> {
  client = await inMemory(files({ '/shop/moorhen.vehicle.yaml': vehicle })).start(SNIPPETS, [FOLDER]);
  await client.open(GUIDE_URI, guide);
}

const place = (text: string, word: string, by = 1) => ({
  textDocument: { uri: GUIDE_URI },
  position: at(text, word, by),
});

async function hover(text: string, word: string, by = 1): Promise<string> {
  const found = await client.request<Hover | null>('textDocument/hover', place(text, word, by));
  return found === null ? '' : (found.contents as { value: string }).value;
}

describe('hover', () => {
  it('tells what a verb does, and the state before and after this step', async () => {
    await opened();
    const said = await hover(GUIDE, 'loosen: bracket');
    expect(said).toContain('**loosen**');
    expect(said).toContain('tight before this step; out after it');
  });

  it('tells of a joint its figure in both units and where it comes from', async () => {
    await opened();
    const said = await hover(GUIDE, 'torque: bracket.bolt', 12);
    expect(said).toContain('22 N·m (16 lbf·ft)');
    expect(said).toContain('moorhen.vehicle.yaml');
    expect(said).toContain('out before this step; final after it');
  });

  it('tells what a joint of its thread and class usually takes', async () => {
    const classed = VEHICLE.replace('bolt: { thread: M8x1.25,', 'bolt: { thread: M8x1.25, class: "8.8",');
    await opened(GUIDE, classed);
    const said = await hover(GUIDE, 'torque: bracket.bolt', 12);
    expect(said).toMatch(/M8x1\.25 of class 8\.8 usually takes \d+–\d+ N·m .*the maker's figure comes first/);
  });

  it('tells of a part what is known of it', async () => {
    await opened();
    const said = await hover(GUIDE, 'unbolt: bracket', 10);
    expect(said).toContain('A bracket of the vehicle');
    expect(said).toContain('Mass 2 kg');
    expect(said).toContain('fitted before this step; off after it');
  });

  it('tells which variants', async () => {
    const text = GUIDE.replace(
      '          - loosen: bracket.bolt\n          - unbolt: bracket',
      '          - unbolt: bracket\n            when: { lockers: fitted }',
    );
    await opened(text);
    expect(await hover(text, 'unbolt: bracket', 10)).toContain('off (only with lockers: fitted)');
    expect(await hover(text, 'lockers: fitted', 2)).toContain('A trait of the vehicle: none or fitted');
  });

  it('tells the reason of a rule, what an aid can, what a figure is in the other unit', async () => {
    const text = GUIDE.replace(
      '          - loosen: bracket.bolt\n',
      '          - raise: vehicle\n            with: two-post-lift\n            waive: [{ rule: loosen-before-remove, because: x, by: y, until: 2031-01-01 }]\n          - lower: front\n            by: 2 in\n          - torque: bracket.bolt\n            to: 95 N·m\n',
    );
    await opened(text);
    expect(await hover(text, 'loosen-before-remove', 3)).toMatch(/Harm: .*Pack: /s);
    expect(await hover(text, 'two-post-lift', 3)).toContain('raises');
    expect(await hover(text, '2 in')).toContain('2 in (50.8 mm)');
    const figure = await hover(text, '95 N·m');
    expect(figure).toContain('95 N·m (70 lbf·ft)');
    expect(figure).toContain('bracket.bolt has 22 N·m (16 lbf·ft), from moorhen.vehicle.yaml');
  });

  it('explains keys by the schema, in every document', async () => {
    await opened();
    expect(await hover(GUIDE, 'time: 5 min')).toContain('How long the whole step takes');
    await client.open(VEHICLE_URI, VEHICLE);
    const found = await client.request<Hover>('textDocument/hover', {
      textDocument: { uri: VEHICLE_URI },
      position: at(VEHICLE, 'limited-by', 2),
    });
    expect((found.contents as { value: string }).value.length).toBeGreaterThan(20);
  });
});

async function complete(text: string, position: object): Promise<CompletionList['items']> {
  await opened(text);
  const found = await client.request<CompletionList>('textDocument/completion', {
    textDocument: { uri: GUIDE_URI },
    position,
  });
  return [...found.items].sort((a, b) => (a.sortText! < b.sortText! ? -1 : 1));
}

const labels = (items: readonly { label: string }[]) => items.map(({ label }) => label);

/** The guide with a line of its own in place of another, and the position at its end. */
function typing(old: string, line: string): [string, { line: number; character: number }] {
  const text = GUIDE.replace(old, line);
  return [text, positionIn(text, GUIDE.indexOf(old) + line.length)];
}

describe('completion', () => {
  it('offers verbs in an operation', async () => {
    const items = await complete(...typing('- bolt-up: bracket', '- bo'));
    expect(labels(items)).toContain('bolt-up');
    expect(labels(items)).toContain('torque');
  });

  it('offers what makes sense in the present state first', async () => {
    const undone = await complete(...typing('- torque: bracket.bolt', '- torque: '));
    expect(labels(undone)[0]).toBe('bracket.bolt');
    expect(labels(undone)).toContain('rear-shock.lower-bolt');
    await client.end();
    const whole = await complete(...typing('- loosen: bracket.bolt', '- remove: '));
    // The bracket itself is still bolted on; its joint can come out.
    expect(labels(whole).indexOf('bracket.bolt')).toBeLessThan(labels(whole).indexOf('bracket'));
    await client.end();
    const off = await complete(...typing('- bolt-up: bracket', '- bolt-up: '));
    expect(labels(off)[0]).toBe('bracket');
  });

  it('offers keys by the schema, without those that stand there', async () => {
    const items = await complete(...typing('        time: 4 min', '        pe'));
    expect(labels(items)).toContain('people');
    expect(labels(items)).not.toContain('text');
    expect(items.find(({ label }) => label === 'people')!.documentation).toMatchObject({
      value: expect.stringContaining('How many people'),
    });
    await client.end();
    const qualifiers = await complete(
      ...typing('- torque: bracket.bolt', '- torque: bracket.bolt\n            st'),
    );
    expect(labels(qualifiers)).toContain('stages');
  });

  it('offers traits, their values, aids, rules, paths of files, figures', async () => {
    const [text] = typing('- torque: bracket.bolt', '- torque: bracket.bolt\n            when: {  }');
    expect(labels(await complete(text, at(text, 'when: {  }', 8)))).toContain('lockers');
    await client.end();
    const values = typing('- torque: bracket.bolt', '- torque: bracket.bolt\n            when: { lockers: ');
    expect(labels(await complete(values[0], values[1]))).toEqual(['none', 'fitted']);
    await client.end();
    const aids = typing('- loosen: bracket.bolt', '- raise: vehicle\n            with: ');
    expect(labels(await complete(aids[0], aids[1]))).toContain('two-post-lift');
    await client.end();
    const figures = typing('- torque: bracket.bolt', '- torque: bracket.bolt\n            to: ');
    expect(labels(await complete(figures[0], figures[1]))[0]).toBe('22 N·m');
    await client.end();
    const rules = typing('- torque: bracket.bolt', '- torque: bracket.bolt\n            waive: [{ rule: ');
    expect(labels(await complete(rules[0], rules[1]))).toContain('support-axle-before-shock-removal');
    await client.end();
    const text2 = GUIDE.replace('moorhen.vehicle.yaml', 'm');
    await opened(text2);
    await client.push(GUIDE_URI);
    await client.until(() => true, 'scan');
    const found = await client.request<CompletionList>(
      'textDocument/completion',
      place(text2, 'vehicle: m', 10),
    );
    expect(labels(found.items)).toContain('moorhen.vehicle.yaml');
  });

  it('offers whole steps as snippets, names within curly brackets, and first lines', async () => {
    const [text, position] = typing('      - id: back', '      - \n      - id: back');
    const steps = await complete(text, { ...position, line: position.line - 1, character: 8 });
    expect(labels(steps)).toContain('step: raise the vehicle');
    expect(steps.find(({ label }) => label === 'step: fit a part')!.insertTextFormat).toBe(2);
    await client.end();
    const curly = typing('text: Put it back.', 'text: Put {part:');
    expect(labels(await complete(curly[0], curly[1]))).toContain('bracket');
    const uri = 'file:///shop/new.kit.yaml';
    await client.open(uri, '');
    const first = await client.request<CompletionList>('textDocument/completion', {
      textDocument: { uri },
      position: { line: 0, character: 0 },
    });
    expect([...first.items].sort((a, b) => (a.sortText! < b.sortText! ? -1 : 1))[0]!.label).toBe(
      'kitproof: kit/1',
    );
  });

  it('works in vehicle files too', async () => {
    await opened();
    const text = VEHICLE.replace('kind: bracket', 'kind: ');
    await client.open(VEHICLE_URI, text);
    const kinds = await client.request<CompletionList>('textDocument/completion', {
      textDocument: { uri: VEHICLE_URI },
      position: at(text, 'bracket: { kind: ', 17),
    });
    expect(labels(kinds.items)).toContain('shock');
  });
});

describe('from place to place', () => {
  it('leads from a name to its declaration in another file', async () => {
    await opened();
    const [found] = await client.request<Location[]>(
      'textDocument/definition',
      place(GUIDE, 'unbolt: bracket', 10),
    );
    expect(found).toMatchObject({ uri: VEHICLE_URI, range: { start: at(VEHICLE, 'bracket: { kind') } });
    const [joint] = await client.request<Location[]>(
      'textDocument/definition',
      place(GUIDE, 'bracket.bolt', 9),
    );
    expect(joint).toMatchObject({ uri: VEHICLE_URI, range: { start: at(VEHICLE, 'bolt: { thread: M8') } });
    const [file] = await client.request<Location[]>(
      'textDocument/definition',
      place(GUIDE, 'moorhen.vehicle'),
    );
    expect(file!.uri).toBe(VEHICLE_URI);
  });

  it('finds every use of a declaration', async () => {
    await opened();
    await client.push(GUIDE_URI);
    await client.open(VEHICLE_URI, VEHICLE);
    const uses = await client.request<Location[]>('textDocument/references', {
      textDocument: { uri: VEHICLE_URI },
      position: at(VEHICLE, 'bracket: { kind', 2),
      context: { includeDeclaration: false },
    });
    expect(uses.filter(({ uri }) => uri === GUIDE_URI).length).toBe(4);
    const joints = await client.request<Location[]>('textDocument/references', {
      ...place(GUIDE, 'bracket.bolt', 9),
      context: { includeDeclaration: true },
    });
    expect(joints.map(({ uri }) => uri).sort()).toEqual([GUIDE_URI, GUIDE_URI, VEHICLE_URI]);
  });

  it('outlines a guide with its times, and a vehicle with its joints', async () => {
    await opened();
    const ask = (uri: string) =>
      client.request<DocumentSymbol[]>('textDocument/documentSymbol', { textDocument: { uri } });
    const [section] = await ask(GUIDE_URI);
    expect(section!.name).toBe('Bracket');
    expect(section!.children!.map(({ name, detail }) => [name, detail])).toEqual([
      ['off', '5 min'],
      ['back', '4 min'],
    ]);
    expect(section!.children![0]!.children![0]!.name).toBe('loosen: bracket.bolt');
    await client.open(VEHICLE_URI, VEHICLE);
    const parts = (await ask(VEHICLE_URI)).find(({ name }) => name === 'parts')!;
    expect(
      parts.children!.find(({ name }) => name === 'rear-shock')!.children!.map(({ name }) => name),
    ).toEqual(['top-nut', 'lower-bolt']);
  });

  it('links paths, folds sections and steps', async () => {
    await opened();
    const links = await client.request<DocumentLink[]>('textDocument/documentLink', {
      textDocument: { uri: GUIDE_URI },
    });
    expect(links).toMatchObject([{ target: VEHICLE_URI, range: { start: at(GUIDE, 'moorhen.vehicle') } }]);
    const folds = await client.request<FoldingRange[]>('textDocument/foldingRange', {
      textDocument: { uri: GUIDE_URI },
    });
    const step = at(GUIDE, 'id: off').line;
    expect(folds).toContainEqual({ startLine: step, endLine: at(GUIDE, 'time: 5 min').line });
  });
});

describe('beside the text', () => {
  it('a lens over each section tells its time and its open items', async () => {
    const text = GUIDE.replace('          - torque: bracket.bolt\n', '');
    await opened(text);
    const [lens] = await client.request<CodeLens[]>('textDocument/codeLens', {
      textDocument: { uri: GUIDE_URI },
    });
    expect(lens!.command!.title).toBe('9 min · 1 item open');
    expect(lens!.range.start.line).toBe(at(text, 'title: Bracket\n').line);
  });
});

describe('quick fixes', () => {
  const actions = (uri: string, diagnostics: readonly Diagnostic[], range: object) =>
    client.request<CodeAction[]>('textDocument/codeAction', {
      textDocument: { uri },
      range,
      context: { diagnostics },
    });

  it('are those of the findings: the nearest name', async () => {
    const text = GUIDE.replace('bolt-up: bracket', 'bolt-up: braket');
    await opened(text);
    const found = await client.push(GUIDE_URI, (push) =>
      push.diagnostics.some(({ code }) => code === 'unknown-name'),
    );
    const finding = found.find(({ code }) => code === 'unknown-name')!;
    const [fix] = await actions(GUIDE_URI, [finding], finding.range);
    expect(fix).toMatchObject({
      kind: 'quickfix',
      edit: { changes: { [GUIDE_URI]: [{ newText: 'bracket' }] } },
    });
    await client.change(
      GUIDE_URI,
      fix!.edit!.changes![GUIDE_URI]!.map(({ range, newText }) => ({ range, text: newText }))[0]!,
    );
    expect(await client.push(GUIDE_URI, ({ version }) => version === 2)).toEqual([]);
    // What was carried for the text before is not offered for this one.
    expect(await actions(GUIDE_URI, [finding], finding.range)).toEqual([]);
  });

  it('declare what no file has', async () => {
    const text = GUIDE.replaceAll('bracket', 'front-shock');
    await opened(text);
    await client.push(GUIDE_URI);
    const position = at(text, 'unbolt: front-shock', 10);
    const found = await actions(GUIDE_URI, [], { start: position, end: position });
    const declare = found.find(({ title }) => title === 'Declare front-shock in moorhen.vehicle.yaml')!;
    const [edit] = declare.edit!.changes![VEHICLE_URI]!;
    expect(edit!.newText).toContain('front-shock: { kind: shock');
    await client.open(VEHICLE_URI, VEHICLE);
    await client.change(VEHICLE_URI, { range: edit!.range, text: edit!.newText });
    expect(await client.push(VEHICLE_URI, ({ version }) => version === 2)).toEqual([]);
  });

  it('give a step a time', async () => {
    const text = GUIDE.replace('        time: 4 min\n', '');
    await opened(text);
    const position = at(text, 'Put it back');
    const offered = await actions(GUIDE_URI, [], { start: position, end: position });
    const time = offered.find(({ title }) => title.includes('5 min'));
    const [edit] = time!.edit!.changes![GUIDE_URI]!;
    await client.change(GUIDE_URI, { range: edit!.range, text: edit!.newText });
    expect(await client.push(GUIDE_URI, ({ version }) => version === 2)).toEqual([]);
    const [lens] = await client.request<CodeLens[]>('textDocument/codeLens', {
      textDocument: { uri: GUIDE_URI },
    });
    expect(lens!.command!.title).toBe('10 min · nothing open');
  });
});

it('a file that is not ours gets empty answers to everything', async () => {
  await opened();
  const uri = 'file:///shop/other.yaml';
  await client.open(uri, 'name: something\nother: [1, 2]\n');
  const position = { line: 0, character: 2 };
  const textDocument = { uri };
  const range = { start: position, end: position };
  const ask = (method: string, more: object = {}) =>
    client.request(`textDocument/${method}`, { textDocument, ...more });
  expect(await ask('hover', { position })).toBeNull();
  expect(await ask('completion', { position })).toEqual({ isIncomplete: false, items: [] });
  for (const method of ['definition', 'documentSymbol', 'documentLink', 'foldingRange', 'codeLens'])
    expect(await ask(method, { position }), method).toEqual([]);
  expect(await ask('references', { position, context: { includeDeclaration: true } })).toEqual([]);
  expect(await ask('inlayHint', { range })).toEqual([]);
  expect(await ask('codeAction', { range, context: { diagnostics: [] } })).toEqual([]);
  expect(await client.push(uri)).toEqual([]);
});

it('capabilities say what there is', async () => {
  await opened();
  expect(replacing('ab', 'a', 'c')).toMatchObject({ text: 'c' });
  expect(client.initialized.capabilities).toMatchObject({
    hoverProvider: true,
    completionProvider: {},
    definitionProvider: true,
    referencesProvider: true,
    documentSymbolProvider: {},
    documentLinkProvider: {},
    foldingRangeProvider: true,
    codeLensProvider: {},
    inlayHintProvider: true,
    codeActionProvider: {
      codeActionKinds: [
        'quickfix',
        'source.fixAll.kitproof',
        'source.kitproof.closeOpenList',
        'source.kitproof.order',
        'refactor.rewrite',
      ],
      resolveProvider: true,
    },
  });
});
