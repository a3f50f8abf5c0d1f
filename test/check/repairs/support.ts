/** The fixes of a small guide, as they are offered: what each is called, and the guide's steps after it. */

import { applyEdits } from '../../../server/src/edit/apply';
import { checkedGuide } from '../../../server/src/workspace/checked-guide';
import { fixesFor } from '../../../server/src/workspace/fixes';
import { memoryFiles } from '../../../server/src/workspace/memory';
import { standardPacks } from '../../../server/src/workspace/packs';
import { Project } from '../../../server/src/workspace/project';
import { run } from '../../fixes/corpus';
import { dedent } from '../../support/fixture';

const TODAY = '2026-03-14';

export interface Job {
  /** Parts, lines and kinds of the vehicle, as they stand in its file; without it the guide has none. */
  readonly vehicle?: string;
  readonly kit?: string;
  readonly steps: string;
  /** Keys of the guide before its sections. */
  readonly head?: string;
  readonly rules?: Readonly<Record<string, string>>;
}

export interface Offered {
  readonly title: string;
  /** Lines that the fix brings, and those that it takes away, without blanks around them. */
  readonly added: readonly string[];
  readonly removed: readonly string[];
  readonly text: string;
}

/** The fixes of the one finding of a rule. */
export async function fixesOf(rule: string, job: Job): Promise<Offered[]> {
  const { text, checked } = await checkedJob(job);
  const findings = checked.findings.filter((finding) => finding.rule === rule);
  if (findings.length === 0)
    throw new Error(
      `found instead: ${checked.findings.map((one) => `${one.rule}: ${one.message}`).join('\n')}`,
    );
  return run(fixesFor(checked, findings[0]!, TODAY)).map((fix) => {
    const made = applyEdits(text, fix.edits)!;
    return { title: fix.title, text: made, added: without(made, text), removed: without(text, made) };
  });
}

export async function checkedJob({ vehicle, kit, steps, head = '', rules = {} }: Job) {
  const files = new Map([
    ['/p/kitproof.yaml', `kitproof: config/1\nrules: ${JSON.stringify(rules)}\n`],
    ...(vehicle === undefined
      ? []
      : [['/p/m.vehicle.yaml', `kitproof: vehicle/1\nname: M\n${dedent(vehicle)}`] as const]),
    ...(kit === undefined ? [] : [['/p/k.kit.yaml', `kitproof: kit/1\nname: K\n${dedent(kit)}`] as const]),
  ]);
  const indented = dedent(steps)
    .split('\n')
    .map((line) => (line === '' ? '' : `      ${line}`))
    .join('\n');
  const text = `kitproof: install/1\ntitle: G\n${vehicle === undefined ? '' : 'vehicle: m.vehicle.yaml\n'}${
    kit === undefined ? '' : 'kit: k.kit.yaml\n'
  }${head === '' ? '' : `${head}\n`}sections:\n  - title: S\n    steps:\n${indented}`;
  files.set('/p/g.install.yaml', text);
  const project = new Project(memoryFiles(files), standardPacks());
  const closure = await project.closureOf((await project.open('/p/g.install.yaml'))!);
  return { text, checked: run(checkedGuide(closure, TODAY)) };
}

/** Lines of a text that another does not have so often. */
function without(text: string, other: string): string[] {
  const left = new Map<string, number>();
  for (const line of other.split('\n')) left.set(line, (left.get(line) ?? 0) + 1);
  return text.split('\n').flatMap((line) => {
    const count = left.get(line) ?? 0;
    left.set(line, count - 1);
    return count > 0 ? [] : [line.trim()];
  });
}

export const titles = (offered: readonly Offered[]): string[] => offered.map(({ title }) => title);
