import type { Severity } from '../findings/finding';
import { answering, type Feature } from './context';
import { CHECK_REQUEST, type CheckedView } from './guide-view-types';

/** Every document that is asked for, read and checked afresh: the answer comes when all findings are there. */
export const checkWorkspace: Feature = {
  capabilities: () => ({}),
  register(connection, context) {
    connection.onRequest(
      CHECK_REQUEST,
      answering<unknown, CheckedView | null>(context, null, async (_parameters, token) => {
        const { checker, project, texts } = context;
        for (const name of checker.documents()) if (!texts.open.has(name)) project.forget(name);
        for (const name of checker.asked()) checker.touch(name);
        await checker.whenAll();
        if (token.isCancellationRequested) return null;
        const found: Record<Severity, number> = { error: 0, warning: 0, info: 0 };
        const names = checker.documents();
        for (const name of names) for (const { severity } of checker.findingsOf(name)) found[severity]++;
        return { documents: names.length, findings: found };
      }),
    );
  },
};
