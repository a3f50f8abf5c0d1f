import { chosenVariants } from '../workspace/variant';
import { answering, type Feature } from './context';
import { guideView } from './guide-view';
import {
  GUIDE_REQUEST,
  type GuideView,
  LABOUR_REQUEST,
  type LabourView,
  LEDGER_REQUEST,
  type LedgerView,
  type UriParams,
  type VariantParams,
} from './guide-view-types';
import { labourView } from './labour';
import { ledgerView } from './ledger';

/** What the preview and the status bar of the extension ask for; other clients may ask it too. */
export const preview: Feature = {
  capabilities: () => ({ experimental: { kitproof: { guide: true, labour: true, ledger: true } } }),
  register(connection, context) {
    const open = async (uri: string) => {
      const document = await context.document(uri);
      return document === null ? null : context.guides.open(document.uri);
    };
    connection.onRequest(
      GUIDE_REQUEST,
      answering<VariantParams, GuideView | null>(context, null, async ({ uri, variant }, token) => {
        const name = (await context.document(uri))?.uri;
        if (name === undefined) return null;
        await context.checker.whenNear(name);
        const guide = await open(uri);
        if (guide === null || token.isCancellationRequested) return null;
        const found = context.checker.findingsOf(name);
        return guideView(guide, found, (other) => context.uriOf(other), plainChoice(variant));
      }),
    );
    connection.onRequest(
      LEDGER_REQUEST,
      answering<VariantParams, LedgerView | null>(context, null, async ({ uri, variant }, token) => {
        const guide = await open(uri);
        if (guide === null) return null;
        const { within } = chosenVariants(guide.model, plainChoice(variant));
        return ledgerView(guide, context.uriOf(guide.document.uri), within, token);
      }),
    );
    connection.onRequest(
      LABOUR_REQUEST,
      answering<UriParams, LabourView | null>(context, null, async ({ uri }) => {
        const guide = await open(uri);
        return guide === null ? null : labourView(guide);
      }),
    );
  },
};

/** What a client sent as a choice, as far as it is one. */
function plainChoice(sent: unknown): Readonly<Record<string, string>> {
  const pairs = typeof sent === 'object' && sent !== null ? Object.entries(sent) : [];
  return Object.fromEntries(pairs.filter((pair): pair is [string, string] => typeof pair[1] === 'string'));
}
