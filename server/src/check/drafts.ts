/** Steps that a fix wrote, or a person only began, and that nobody has read yet. */

import { type Finding, plainFinding } from '../findings/finding';
import type { Model } from '../model/model';

/** A warning at each step of the guide itself that says `draft: true`. It runs as any other step does. */
export function draftFindings(model: Model): Finding[] {
  const found = new Map<string, Finding>();
  for (const { path, draft } of model.steps) {
    if (draft === undefined || path.includes('/')) continue;
    const message = 'This step is a draft; read it, put it right, and take the mark away.';
    found.set(
      path,
      plainFinding('draft-step', draft, message, { severity: 'warning', harm: 'paperwork', operation: path }),
    );
  }
  return [...found.values()];
}
