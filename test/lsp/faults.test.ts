import { expect, it } from 'vitest';
import type { Rulebook } from '../../server/src/rules/rulebook';
import type { Watcher } from '../../server/src/simulate/watcher';
import { Watchers } from '../../server/src/simulate/watchers';
import { drive } from '../../server/src/workspace/drive';
import { bindGuideOf } from '../../server/src/workspace/engine';
import { checkGuarded } from '../../server/src/workspace/guard';
import { memoryFiles } from '../../server/src/workspace/memory';
import { standardPacks } from '../../server/src/workspace/packs';
import { Project } from '../../server/src/workspace/project';
import { files, GUIDE } from './world';

async function checked(faulty: readonly Watcher[]) {
  const text = GUIDE.replace('          - torque: bracket.bolt\n', '');
  const project = new Project(memoryFiles(files({ '/shop/bracket.install.yaml': text })), standardPacks());
  const closure = await project.closureOf((await project.open('/shop/bracket.install.yaml'))!);
  const watchers = new Watchers([...faulty, ...closure.rulebook.watchers.all]);
  const rulebook: Rulebook = { ...closure.rulebook, watchers };
  return (await drive(checkGuarded(bindGuideOf(closure), rulebook, '2026-03-14')))!;
}

it('a rule that throws becomes one finding, and the rest goes on', async () => {
  const sound = await checked([]);
  expect(sound.findings.map(({ rule }) => rule)).toEqual(['left-loose']);
  const found = await checked([
    {
      rule: 'first-faulty',
      verbs: ['*'],
      after: () => {
        throw new Error('out of ideas');
      },
    },
    {
      rule: 'second-faulty',
      verbs: [],
      ended: () => {
        throw new TypeError('no such thing\nat line 1');
      },
    },
  ]);
  expect(found.findings.filter(({ rule }) => rule !== 'internal-fault')).toEqual(sound.findings);
  expect(found.faults.map(({ item, message }) => [item, message])).toEqual([
    ['first-faulty', expect.stringContaining('out of ideas')],
    ['second-faulty', expect.stringContaining('no such thing')],
  ]);
});
