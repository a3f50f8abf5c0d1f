/** The samples: the good guide is silent and covered; every faulty one gives the finding that stands under its line, and no other. */

import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { checkDocuments, type ProjectCheck } from '../../server/src/workspace/check';
import { diskFiles } from '../../server/src/workspace/disk';
import { standardPacks } from '../../server/src/workspace/packs';
import { nameOfPath } from '../../server/src/workspace/paths';
import { Project } from '../../server/src/workspace/project';

const SAMPLES = nameOfPath(join(import.meta.dirname, '../../samples'));
const files = (folder: string): string[] =>
  readdirSync(folder, { withFileTypes: true }).flatMap((entry) =>
    entry.isDirectory() ? files(`${folder}/${entry.name}`) : [`${folder}/${entry.name}`],
  );
const all = files(SAMPLES).filter((name) => name.endsWith('.yaml'));
const MARK = /^#\s*(\^+) (\w+)\[([\w-]+)\]: (.*)$/;

/** What the comments of a file say must be found: line and columns from 1, of the line above the comment. Carets right after the `#` begin at it. */
function marksOf(name: string): string[] {
  const lines = readFileSync(name, 'utf8').split('\n');
  return lines.flatMap((line, index) => {
    const mark = MARK.exec(line);
    if (mark === null) return [];
    const first = line.indexOf('^');
    const from = line[first - 1] === '#' ? first : first + 1;
    return [`${index}:${from}-${first + 1 + mark[1]!.length} ${mark[2]}[${mark[3]}]: ${mark[4]}`];
  });
}

describe('samples', () => {
  let check: ProjectCheck;
  beforeAll(async () => {
    const project = new Project(diskFiles, standardPacks());
    check = (await checkDocuments(project, all, { today: '2026-03-14' }))!;
  });

  const found = (name: string) =>
    check.findings
      .filter(({ place }) => place.uri === name)
      .map((finding) => {
        const { lines } = check.documents.get(name)!;
        const { line, column } = lines.lineColumnAt(finding.place.span.start);
        const end = lines.lineColumnAt(finding.place.span.end);
        return `${line}:${column}-${end.column} ${finding.severity}[${finding.rule}]: ${finding.message}`;
      });

  it('hold twenty faulty guides or more', () => {
    expect(all.filter((name) => marksOf(name).length > 0).length).toBeGreaterThanOrEqual(20);
  });

  it.each(all.map((name) => name.slice(SAMPLES.length + 1)))('%s', (name) => {
    expect(found(`${SAMPLES}/${name}`)).toEqual(marksOf(`${SAMPLES}/${name}`));
  });

  it('the whole kit is silent with 95 % of its seventy steps or more checked', async () => {
    const project = new Project(diskFiles, standardPacks());
    const good = (await checkDocuments(project, [`${SAMPLES}/upland-50.install.yaml`], {
      today: '2026-03-14',
    }))!;
    expect(good.findings).toEqual([]);
    expect(good.coverage.steps).toBeGreaterThanOrEqual(70);
    expect(good.coverage.checkedSteps / good.coverage.steps).toBeGreaterThanOrEqual(0.95);
    expect(good.coverage.undecided).toEqual([]);
  });
});
