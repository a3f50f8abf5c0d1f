import type { Finding, Severity } from '../findings/finding';

export { CAUTION, counted, listed, termInWords, variantsInWords } from '../findings/words';

export function countsOf(findings: readonly Finding[]): Record<Severity, number> {
  const counts: Record<Severity, number> = { error: 0, warning: 0, info: 0 };
  for (const finding of findings) counts[finding.severity]++;
  return counts;
}
