/** The whole engine over a fixture with marks. */

import type { ProjectCheck } from '../../server/src/workspace/check';
import { checkFiles, type EngineConfig } from './engine';
import { expectFindings, parseFixture } from './fixture';

/** Checks a fixture as `kitproof check` does, all its files: every finding must have its mark and every mark its finding. */
export async function expectChecked(fixture: string, config: EngineConfig = {}): Promise<ProjectCheck> {
  const { files } = parseFixture(fixture);
  const check = await checkFiles(Object.fromEntries(files.map(({ name, text }) => [name, text])), config);
  const name = (uri: string) => uri.slice(uri.indexOf('/', 1) + 1);
  const findings = check.findings.map((finding) => ({
    ...finding,
    place: { ...finding.place, uri: name(finding.place.uri) },
  }));
  expectFindings(fixture, () => findings);
  return check;
}
