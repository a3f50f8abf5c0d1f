import type { Severity } from '../findings/finding';
import { find } from '../text/access';
import type { Document } from '../workspace/document';
import { baseName } from '../workspace/paths';
import { answering, type Feature } from './context';
import { OVERVIEW_REQUEST, type OverviewView } from './guide-view-types';

/** The guides that are checked, each with how much was found in it: for the list in the side bar. */
export const overview: Feature = {
  capabilities: () => ({}),
  register(connection, context) {
    connection.onRequest(
      OVERVIEW_REQUEST,
      answering<unknown, OverviewView | null>(context, null, async (_parameters, token) => {
        const guides: OverviewView['guides'][number][] = [];
        for (const name of context.checker.asked()) {
          if (token.isCancellationRequested) return null;
          const document = await context.project.open(name);
          if (document?.kind !== 'install') continue;
          const found: Record<Severity, number> = { error: 0, warning: 0, info: 0 };
          for (const { severity } of context.checker.findingsOf(name)) found[severity]++;
          guides.push({ uri: context.uriOf(name), title: titleOf(document), findings: found });
        }
        return { guides };
      }),
    );
  },
};

function titleOf({ reading, uri }: Document): string {
  const title = reading.root === null ? undefined : find(reading.root, 'title', reading)?.value.value;
  return typeof title === 'string' && title.trim() !== '' ? title.trim() : baseName(uri);
}
