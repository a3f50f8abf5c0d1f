import { answering, type Feature } from './context';
import { guideView } from './guide-view';
import {
  GUIDE_REQUEST,
  type GuideView,
  LABOUR_REQUEST,
  type LabourView,
  type UriParams,
} from './guide-view-types';
import { labourView } from './labour';

/** What the preview and the status bar of the extension ask for; other clients may ask it too. */
export const preview: Feature = {
  capabilities: () => ({ experimental: { kitproof: { guide: true, labour: true } } }),
  register(connection, context) {
    const open = async (uri: string) => {
      const document = await context.document(uri);
      return document === null ? null : context.guides.open(document.uri);
    };
    connection.onRequest(
      GUIDE_REQUEST,
      answering<UriParams, GuideView | null>(context, null, async ({ uri }, token) => {
        const name = (await context.document(uri))?.uri;
        if (name === undefined) return null;
        await context.checker.whenNear(name);
        const guide = await open(uri);
        if (guide === null || token.isCancellationRequested) return null;
        return guideView(guide, context.checker.findingsOf(name), (other) => context.uriOf(other));
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
