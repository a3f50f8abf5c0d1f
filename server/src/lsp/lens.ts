import type { CodeLens } from 'vscode-languageserver/lib/common/api.js';
import { countOpen } from '../check/trace';
import { counted } from '../findings/words';
import { find, items } from '../text/access';
import { labourOfModel, standardTimesOf } from '../workspace/labour';
import { answering, type Feature, rangeOf } from './context';
import { minutesInWords } from './minutes';

/** Over each section of a guide: what it takes, and what is open after it. */
export const lens: Feature = {
  capabilities: () => ({ codeLensProvider: {} }),
  register(connection, context) {
    connection.onCodeLens(
      answering<{ textDocument: { uri: string } }, CodeLens[]>(context, [], async ({ textDocument }) => {
        const document = await context.document(textDocument.uri);
        if (document === null || !context.settings.values.lens) return [];
        const guide = await context.guides.open(document.uri);
        const list =
          document.reading.root && find(document.reading.root, 'sections', document.reading)?.value;
        if (guide === null || !list) return [];
        const { closure, model } = guide;
        const { sections } = labourOfModel(closure, model, standardTimesOf(closure));
        const open = new Map(guide.sectionEnds().map((step) => [Number.parseInt(step.path, 10), step]));
        return items(list, document.reading).flatMap(({ written }, index): CodeLens[] => {
          const labour = sections[index];
          if (labour === undefined) return [];
          const least = labour.atLeast ? 'at least ' : '';
          const last = open.get(index + 1);
          const words = [`${least}${minutesInWords(labour.lowest, labour.highest)}`];
          const count = last === undefined ? null : countOpen(last);
          if (count !== null) words.push(count === 0 ? 'nothing open' : `${counted(count, 'item')} open`);
          const range = rangeOf(document.lines, { start: written.start, end: written.start });
          // A lens without a command that does something is a plain line of text.
          return [{ range, command: { title: words.join(' · '), command: '' } }];
        });
      }),
    );
  },
};
