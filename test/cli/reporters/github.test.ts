import { expect, it } from 'vitest';
import { FILES, GUIDE, reported, saying } from './support';

it('puts each finding beside its line, and a count at the end', async () => {
  const { out } = await reported('github');
  expect(out.trimEnd().split('\n')).toEqual([
    '::error file=guides/b.install.yaml,line=11,endLine=11,col=13,endColumn=33,title=kitproof left-loose::bracket.bolt never gets its final torque. Only with lockers%3A fitted.'.replace(
      '%3A',
      ':',
    ),
    expect.stringMatching(
      /^::error file=guides\/b\.install\.yaml,line=15,endLine=15,.*title=kitproof unknown-name::/,
    ),
    'Kitproof: 2 errors, 0 warnings, 0 notes in 2 files; 2 of 3 steps checked.',
  ]);
});

it('lets no document write a command of its own', async () => {
  const { out } = await reported('github', [], saying('x\\n::warning::100%, a:b'));
  expect(out).not.toMatch(/^::warning/m);
  expect(out).toContain('100%25');
});

it('writes commas and colons of a path as the commands want them', async () => {
  const { out } = await reported('github', [], {
    'guides/a, b:c.install.yaml': GUIDE,
    'guides/moorhen.vehicle.yaml': FILES['guides/moorhen.vehicle.yaml'],
  });
  expect(out).toContain('file=guides/a%2C b%3Ac.install.yaml,line=');
});
