/**
 * Facts to hold the rule language against: which traces published templates and patterns accept.
 *
 * The templates are those of M. Pesic and W. van der Aalst (Declare); their regular expressions and finite-trace formulas are
 * written from memory of these authors, of Di Ciccio and Mecella, and of De Giacomo and Vardi, and were found to agree on all
 * traces here. Counts are of accepted traces over a, b, c of length 1 to 6.
 */
export const TEMPLATES: Readonly<
  Record<string, { readonly regex: string; readonly counts: readonly number[] }>
> = {
  'existence(a)': { regex: '[bc]*a[abc]*', counts: [1, 5, 19, 65, 211, 665] },
  'absence(a)': { regex: '[bc]*', counts: [2, 4, 8, 16, 32, 64] },
  'absence2(a)': { regex: '[bc]*a?[bc]*', counts: [3, 8, 20, 48, 112, 256] },
  'exactly1(a)': { regex: '[bc]*a[bc]*', counts: [1, 4, 12, 32, 80, 192] },
  'init(a)': { regex: 'a[abc]*', counts: [1, 3, 9, 27, 81, 243] },
  'end(a)': { regex: '[abc]*a', counts: [1, 3, 9, 27, 81, 243] },
  'choice(a,b)': { regex: 'c*[ab][abc]*', counts: [2, 8, 26, 80, 242, 728] },
  'exclusive_choice(a,b)': { regex: '(c*a[ac]*)|(c*b[bc]*)', counts: [2, 6, 14, 30, 62, 126] },
  'responded_existence(a,b)': {
    regex: '[bc]*|([bc]*a[ac]*b[abc]*)|([ac]*b[abc]*)',
    counts: [2, 6, 20, 66, 212, 666],
  },
  'coexistence(a,b)': {
    regex: 'c*|([abc]*a[abc]*b[abc]*)|([abc]*b[abc]*a[abc]*)',
    counts: [1, 3, 13, 51, 181, 603],
  },
  'response(a,b)': { regex: '[bc]*(a[abc]*b[bc]*)?', counts: [2, 5, 14, 41, 122, 365] },
  'precedence(a,b)': { regex: '[ac]*|c*a[abc]*', counts: [2, 5, 14, 41, 122, 365] },
  'succession(a,b)': { regex: 'c*(a[abc]*bc*)?', counts: [1, 2, 6, 19, 59, 180] },
  'alternate_response(a,b)': { regex: '[bc]*(ac*b[bc]*)*', counts: [2, 5, 13, 34, 89, 233] },
  'alternate_precedence(a,b)': { regex: 'c*(a[ac]*b?c*)*', counts: [2, 5, 13, 34, 89, 233] },
  'chain_response(a,b)': { regex: '[bc]*(ab[bc]*)*', counts: [2, 5, 12, 29, 70, 169] },
  'chain_precedence(a,b)': { regex: '[ac]*(ab[ac]*)*', counts: [2, 5, 12, 29, 70, 169] },
  'not_coexistence(a,b)': { regex: '[ac]*|[bc]*', counts: [3, 7, 15, 31, 63, 127] },
  'not_succession(a,b)': { regex: '[bc]*[ac]*', counts: [3, 8, 20, 48, 112, 256] },
  'not_chain_succession(a,b)': { regex: '([bc]|a+c)*a*', counts: [3, 8, 21, 55, 144, 377] },
};

/**
 * The pattern mappings for LTL of the Specification Patterns project (M. Dwyer, G. Avrunin, J. Corbett), some response rows
 * completed from memory. `apart` is in how many of the 3905 traces over p, s, q, r, x of length 1 to 5 the formula differs from
 * its scope as it reads: segments of the trace, opened by the first `q` after the last was closed by an `r`.
 */
export const PATTERNS: Readonly<Record<string, { readonly ltl: string; readonly apart: number }>> = {
  'absence global': { ltl: '[](!p)', apart: 0 },
  'absence before': { ltl: '<>r -> (!p U r)', apart: 0 },
  'absence after': { ltl: '[](q -> [](!p))', apart: 0 },
  'absence between': { ltl: '[]((q & !r & <>r) -> (!p U r))', apart: 0 },
  'absence until': { ltl: '[](q & !r -> (!p W r))', apart: 0 },
  'existence global': { ltl: '<>p', apart: 0 },
  'existence before': { ltl: '!r W (p & !r)', apart: 0 },
  'existence after': { ltl: '[](!q) | <>(q & <>p)', apart: 0 },
  'existence between': { ltl: '[](q & !r -> (!r W (p & !r)))', apart: 19 },
  'existence until': { ltl: '[](q & !r -> (!r U (p & !r)))', apart: 139 },
  'precedence global': { ltl: '!p W s', apart: 0 },
  'precedence before': { ltl: '<>r -> (!p U (s | r))', apart: 0 },
  'precedence after': { ltl: '[]!q | <>(q & (!p W s))', apart: 159 },
  'precedence between': { ltl: '[]((q & !r & <>r) -> (!p U (s | r)))', apart: 1 },
  'precedence until': { ltl: '[](q & !r -> (!p W (s | r)))', apart: 17 },
  'response global': { ltl: '[](p -> <>s)', apart: 0 },
  'response before': { ltl: '<>r -> ((p -> (!r U (s & !r))) U r)', apart: 0 },
  'response after': { ltl: '[](q -> [](p -> <>s))', apart: 0 },
  'response between': { ltl: '[]((q & !r & <>r) -> ((p -> (!r U (s & !r))) U r))', apart: 0 },
  'response until': { ltl: '[](q & !r -> ((p -> (!r U (s & !r))) W r))', apart: 0 },
};

/** All traces over some letters, up to a length, shortest first. */
export function tracesOver(letters: string, most: number): string[] {
  const all: string[] = [];
  let last = [''];
  for (let length = 1; length <= most; length++) {
    last = last.flatMap((trace) => [...letters].map((letter) => trace + letter));
    all.push(...last);
  }
  return all;
}

type Judge = (trace: string, at: number) => boolean;

/** Reads a formula: `!`, `[]`, `<>` bind most, then `U` and `W`, `&`, `|`, `->`. Traces are finite and have an event. */
export function readFormula(text: string): (trace: string) => boolean {
  const tokens = text.match(/\[\]|<>|->|[!()&|UW]|[a-z]/g) ?? [];
  let next = 0;
  const take = (token: string): boolean => tokens[next] === token && ++next > 0;
  const binary = (
    operators: string[],
    lower: () => Judge,
    made: (operator: string, a: Judge, b: Judge) => Judge,
  ): Judge => {
    const left = lower();
    const operator = operators.find(take);
    return operator === undefined ? left : made(operator, left, binary(operators, lower, made));
  };
  const implied = (): Judge =>
    binary(['->'], either, (_, a, b) => (trace, at) => !a(trace, at) || b(trace, at));
  const either = (): Judge => binary(['|'], both, (_, a, b) => (trace, at) => a(trace, at) || b(trace, at));
  const both = (): Judge => binary(['&'], until, (_, a, b) => (trace, at) => a(trace, at) && b(trace, at));
  const until = (): Judge =>
    binary(['U', 'W'], single, (operator, a, b) => (trace, at) => {
      for (let here = at; here < trace.length; here++) {
        if (b(trace, here)) return true;
        if (!a(trace, here)) return false;
      }
      return operator === 'W';
    });
  const single = (): Judge => {
    if (take('!')) {
      const one = single();
      return (trace, at) => !one(trace, at);
    }
    for (const [mark, found] of [
      ['[]', false],
      ['<>', true],
    ] as const) {
      if (!take(mark)) continue;
      const one = single();
      return (trace, at) => {
        for (let here = at; here < trace.length; here++) if (one(trace, here) === found) return found;
        return !found;
      };
    }
    if (take('(')) {
      const inner = implied();
      take(')');
      return inner;
    }
    const letter = tokens[next++];
    return (trace, at) => trace[at] === letter;
  };
  const judge = implied();
  if (next !== tokens.length) throw new Error(`cannot read ${text}`);
  return (trace) => judge(trace, 0);
}

/** What a pattern in a scope says when the scope is read as segments of the trace. */
export function asItReads(name: string): (trace: string) => boolean {
  const [pattern, scope] = name.split(' ') as [string, string];
  const holds: Record<string, (segment: string) => boolean> = {
    absence: (segment) => !segment.includes('p'),
    existence: (segment) => segment.includes('p'),
    precedence: (segment) => !/^[^s]*p/.test(segment),
    response: (segment) => !/p[^s]*$/.test(segment),
  };
  return (trace) => segmentsOf(trace, scope).every(holds[pattern]!);
}

function segmentsOf(trace: string, scope: string): string[] {
  const q = trace.indexOf('q');
  const r = trace.indexOf('r');
  if (scope === 'global') return [trace];
  if (scope === 'before') return r < 0 ? [] : [trace.slice(0, r)];
  if (scope === 'after') return q < 0 ? [] : [trace.slice(q + 1)];
  const segments: string[] = [];
  for (let open = q; open >= 0; ) {
    const close = trace.indexOf('r', open);
    if (close < 0) return scope === 'until' ? [...segments, trace.slice(open + 1)] : segments;
    segments.push(trace.slice(open + 1, close));
    open = trace.indexOf('q', close);
  }
  return segments;
}
