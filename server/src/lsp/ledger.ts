/** What is open beside the steps of a guide, for the preview. */

import type { CancellationToken } from 'vscode-languageserver/lib/common/api.js';
import { type OpenStretch, openStretches } from '../check/stretches';
import { countOpen, traceGuide } from '../check/trace';
import { variantsInWords } from '../findings/words';
import type { Diagram } from '../variants/diagram';
import { drive } from '../workspace/drive';
import type { OpenGuide } from '../workspace/guides';
import type { LedgerLine, LedgerView } from './guide-view-types';

/** @param within the variants that are looked at. Null where nobody wants it any longer. */
export async function ledgerView(
  { model, closure }: OpenGuide,
  uri: string,
  within: Diagram,
  token: CancellationToken,
): Promise<LedgerView | null> {
  const wanted = {
    get cancelled() {
      return token.isCancellationRequested;
    },
  };
  const ledger = await drive(traceGuide(model, closure.rulebook, within), wanted);
  if (ledger === null) return null;
  // Of a step that a `use` parts the last stretch counts.
  const counts = new Map(ledger.steps.map((step) => [step.path, countOpen(step)]));
  const open = Object.fromEntries([...counts].filter(([, count]) => count > 0));
  return { uri, lines: openStretches(ledger).map(lineOf), open };
}

function lineOf({ sort, items, state, opened, closed, variants }: OpenStretch): LedgerLine {
  const names = items.map(({ name, sides }) => (sides.length === 1 ? `${name} ${sides[0]}` : name));
  return {
    sort,
    label: `${names.join(', ')}: ${state}`,
    opened,
    closed,
    variants: variantsInWords(variants),
  };
}
