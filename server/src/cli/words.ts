import type { Finding, Severity } from '../findings/finding';

export { counted, listed, termInWords, variantsInWords } from '../findings/words';

export function countsOf(findings: readonly Finding[]): Record<Severity, number> {
  const counts: Record<Severity, number> = { error: 0, warning: 0, info: 0 };
  for (const finding of findings) counts[finding.severity]++;
  return counts;
}

/** What is said wherever a summary is printed: this tool certifies nothing. */
export const CAUTION =
  "Kitproof checks what is written. It certifies nothing: the vehicle maker's data, local rules and a qualified person come first.";
