import { afterEach, describe, expect, it } from 'vitest';
import type { CodeAction, TextEdit, WorkspaceEdit } from 'vscode-languageserver/node.js';
import { applyEdits } from '../../server/src/edit/apply';
import { Lines } from '../../server/src/text/lines';
import { type Client, inMemory, PUSHED } from './client';
import { at, FOLDER, files, GUIDE, GUIDE_URI } from './world';

let client: Client;

afterEach(() => client.end());

/** A client that can ask a person for a reason. */
const ASKING = { ...PUSHED, experimental: { kitproof: { waive: true } } };
const REASON = { because: 'Tightened at the next station.', by: 'A. Fitter', until: '2026-12-31' };

async function opened(
  text: string,
  more: Readonly<Record<string, string>> = {},
  capabilities: object = ASKING,
) {
  client = await inMemory(files(more)).start(capabilities, [FOLDER]);
  await client.open(GUIDE_URI, text);
  return (await client.push(GUIDE_URI)).map(({ code }) => code);
}

async function waivers(text: string, word: string): Promise<CodeAction[]> {
  const position = at(text, word, 1);
  const actions = await client.request<CodeAction[]>('textDocument/codeAction', {
    textDocument: { uri: GUIDE_URI },
    range: { start: position, end: position },
    context: { diagnostics: [] },
  });
  return actions.filter(({ title }) => title.startsWith('Waive '));
}

/** What the client's command does once the person has answered: asks for the edit. */
function asked({ command }: CodeAction, reason: object = REASON): Promise<WorkspaceEdit | null> {
  return client.request('kitproof/waive', { ...(command!.arguments![0] as object), ...reason });
}

/** The text with an edit made, opened in the place of the other; with what is found in it then. */
async function apply(text: string, edit: WorkspaceEdit) {
  const lines = new Lines(text);
  const edits = (edit.changes![GUIDE_URI] as TextEdit[]).map(({ range, newText }) => ({
    place: { uri: '', span: { start: lines.offsetAt(range.start), end: lines.offsetAt(range.end) } },
    text: newText,
  }));
  const made = applyEdits(text, edits)!;
  const version = await client.change(GUIDE_URI, { text: made });
  const found = await client.push(GUIDE_URI, (push) => push.version === version);
  return { made, rules: found.map(({ code }) => code) };
}

const LOOSE = GUIDE.replace('          - torque: bracket.bolt\n', '').replace(
  '- loosen: bracket.bolt\n',
  '- loosen: bracket.bolt   # by hand\n',
);

describe('a finding is waived where it stands', () => {
  it('by a command of a client that asks why, who and until when', async () => {
    expect(await opened(LOOSE)).toEqual(['left-loose']);
    const [waive, ...more] = await waivers(LOOSE, 'loosen: bracket');
    expect(more).toEqual([]);
    expect(waive).toMatchObject({
      title: 'Waive left-loose here, with a reason',
      kind: 'quickfix',
      command: {
        command: 'kitproof.waive',
        arguments: [
          { uri: GUIDE_URI, version: 1, rule: 'left-loose', message: expect.stringContaining('bracket') },
        ],
      },
    });
    expect(waive!.edit).toBeUndefined();
    const { made, rules } = await apply(LOOSE, (await asked(waive!))!);
    expect(rules).toEqual([]);
    expect(made).toBe(
      LOOSE.replace(
        '# by hand\n',
        `# by hand
            waive:
              - rule: left-loose
                because: Tightened at the next station.
                by: A. Fitter
                until: 2026-12-31
`,
      ),
    );
  });

  it('at the step, where its only operation stands in braces; a long reason on lines', async () => {
    const text = LOOSE.replace(
      /do:\n {10}- loosen.*\n {10}- unbolt: bracket\n/,
      'do: [{ unbolt: bracket }]\n',
    ).replace(
      '      - id: back\n        text: Put it back.\n        do:\n          - bolt-up: bracket\n        time: 4 min\n',
      '',
    );
    expect(await opened(text)).toEqual(['left-off']);
    const [waive] = await waivers(text, 'unbolt: bracket');
    const because =
      'The bracket: fitted by the next guide, "Trail shocks", which every shop does on the same day';
    const { made, rules } = await apply(text, (await asked(waive!, { ...REASON, because }))!);
    expect(rules).toEqual([]);
    expect(made).toContain(`        text: Take the bracket off.
        waive:
          - rule: left-off
            because: "The bracket: fitted by the next guide, \\"Trail shocks\\", which every shop does on the same day"
            by: A. Fitter
            until: 2026-12-31
        do: [{ unbolt: bracket }]
`);
  });

  it('beside what is waived there already', async () => {
    const two = `${LOOSE}      - do: [{ loosen: rear-wheel.nut }, { isolate: battery }]\n        waive: { rule: left-loose, because: So., by: B. Fitter, until: 2026-12-31 }   # kept\n`;
    expect(await opened(two)).toEqual(['left-loose', 'left-isolated']);
    const [waive] = await waivers(two, 'isolate: battery');
    const first = await apply(two, (await asked(waive!))!);
    expect(first.rules).toEqual(['left-loose']);
    expect(first.made).toContain('{ isolate: battery, waive: [{ rule: left-isolated, because:');
    expect(first.made).toContain('until: 2026-12-31 }   # kept\n');
  });

  it('in the guide that uses a section, where only that guide runs into it', async () => {
    const section = GUIDE.replace('title: Bracket\n', 'title: Bracket\n    id: off-and-on\n').replace(
      '          - torque: bracket.bolt\n',
      '',
    );
    const text = `kitproof: install/1
title: Other
vehicle: moorhen.vehicle.yaml
sections:
  - title: All
    steps:
      - do:
          - use: { guide: section.install.yaml, section: off-and-on }   # by us
`;
    const rules = await opened(text, { '/shop/section.install.yaml': section });
    expect(rules).toEqual(['left-loose']);
    const [waive] = await waivers(text, 'off-and-on }');
    const { made, rules: left } = await apply(text, (await asked(waive!))!);
    expect(left).toEqual([]);
    expect(made).toContain(
      'section: off-and-on }   # by us\n            waive:\n              - rule: left-loose\n',
    );
  });
});

describe('no waiver is offered', () => {
  it('to a client that cannot ask for a reason', async () => {
    await opened(LOOSE, {}, PUSHED);
    expect(await waivers(LOOSE, 'loosen: bracket')).toEqual([]);
  });

  it('for a mistake in the writing, or the mark of a draft', async () => {
    const text = GUIDE.replace('- id: back\n', '- id: back\n        draft: true\n').replace(
      'unbolt: bracket',
      'unbolt: braket',
    );
    expect(await opened(text)).toContain('unknown-name');
    expect(await waivers(text, 'braket')).toEqual([]);
    expect(await waivers(text, 'draft: true')).toEqual([]);
  });
});

it('nothing is written without a reason or a name, for a day that is over, or in another text', async () => {
  await opened(LOOSE);
  const [waive] = await waivers(LOOSE, 'loosen: bracket');
  expect(await asked(waive!, { ...REASON, because: '  ' })).toBeNull();
  expect(await asked(waive!, { ...REASON, by: '' })).toBeNull();
  expect(await asked(waive!, { ...REASON, until: '2026-01-01' })).toBeNull();
  expect(await asked(waive!, { ...REASON, until: 'soon' })).toBeNull();
  await client.change(GUIDE_URI, { text: `# more\n${LOOSE}` });
  expect(await asked(waive!)).toBeNull();
});
