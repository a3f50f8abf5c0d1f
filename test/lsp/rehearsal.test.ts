import { expect, it, vi } from 'vitest';
import type { Context } from '../../server/src/lsp/context';
import { Rehearsal } from '../../server/src/lsp/rehearsal';
import { memoryFiles } from '../../server/src/workspace/memory';
import { standardPacks } from '../../server/src/workspace/packs';
import { Project } from '../../server/src/workspace/project';
import { files } from './world';

/** A session that has just answered for its guide; `today` is asked once for each time that the guide is gone through. */
async function answered(name = '/shop/bracket.install.yaml') {
  const project = new Project(memoryFiles(files()), standardPacks());
  const closure = await project.closureOf((await project.open(name))!);
  const checker = { isIdle: true, closureOf: () => closure };
  const today = vi.fn(() => '2026-03-14');
  return { context: { checker, today } as unknown as Context, checker, today, name };
}

it('goes through an open guide a number of times and no more', async () => {
  const { context, today, name } = await answered();
  const rehearsal = new Rehearsal(context, () => true);
  await rehearsal.begin(name);
  const times = today.mock.calls.length;
  expect(times).toBeGreaterThan(10);
  await rehearsal.begin(name);
  expect(today.mock.calls.length).toBe(times);
});

it('stops when something is to be checked, and goes on when that is over', async () => {
  const { context, checker, today, name } = await answered();
  today.mockImplementation(() => {
    checker.isIdle = today.mock.calls.length !== 3;
    return '2026-03-14';
  });
  const rehearsal = new Rehearsal(context, () => true);
  const first = rehearsal.begin(name);
  await vi.waitFor(() => expect(today.mock.calls.length).toBe(3));
  checker.isIdle = true;
  await first;
  expect(today.mock.calls.length).toBeGreaterThan(10);
});

it('does nothing with what is no guide', async () => {
  const { context, today, name } = await answered('/shop/moorhen.vehicle.yaml');
  await new Rehearsal(context, () => true).begin(name);
  expect(today).not.toHaveBeenCalled();
});
