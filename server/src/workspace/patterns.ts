/**
 * Patterns of paths as `ignore:` in kitproof.yaml takes them: `*` and `?` within one part of the path, `**` for any
 * number of parts, `{a,b}` for either. A pattern without `/` matches at any depth; one that names a folder matches
 * all that is in it. Linear steps over parts, so no pattern can make it slow.
 */
export function matchesPattern(pattern: string, path: string): boolean {
  return alternativesOf(pattern).some((one) => matchesOne(one, path));
}

/** Alternatives of one pattern are cut off here: braces in braces multiply. */
const MOST_ALTERNATIVES = 64;

function alternativesOf(pattern: string): string[] {
  let open = [pattern];
  const done: string[] = [];
  while (open.length > 0 && open.length + done.length <= MOST_ALTERNATIVES) {
    const next: string[] = [];
    for (const one of open) {
      const end = one.indexOf('}');
      const start = end < 0 ? -1 : one.lastIndexOf('{', end);
      if (start < 0) done.push(one);
      else
        for (const word of one.slice(start + 1, end).split(','))
          next.push(one.slice(0, start) + word + one.slice(end + 1));
    }
    open = next;
  }
  return [...done, ...open].slice(0, MOST_ALTERNATIVES);
}

function matchesOne(pattern: string, path: string): boolean {
  const trimmed = pattern.startsWith('./') ? pattern.slice(2) : pattern;
  const anchored = trimmed.replace(/\/$/, '').includes('/');
  const parts = trimmed.split('/').filter((part) => part !== '');
  if (parts.length === 0) return false;
  // What names a folder matches what is in it.
  return matchesParts(
    [...(anchored ? [] : ['**']), ...parts, '**'],
    path.split('/').filter((part) => part !== ''),
  );
}

function matchesParts(pattern: readonly string[], path: readonly string[]): boolean {
  // reached[i]: the parts of the pattern before i match the parts of the path read so far.
  let reached = closed(pattern, new Set([0]));
  for (const part of path) {
    const next = new Set<number>();
    for (const at of reached) {
      if (pattern[at] === '**') next.add(at);
      else if (at < pattern.length && matchesPart(pattern[at]!, part)) next.add(at + 1);
    }
    reached = closed(pattern, next);
  }
  return reached.has(pattern.length);
}

/** `**` may also stand for nothing. */
function closed(pattern: readonly string[], reached: Set<number>): Set<number> {
  for (const at of reached) if (pattern[at] === '**') reached.add(at + 1);
  return reached;
}

function matchesPart(pattern: string, text: string): boolean {
  let at = 0;
  let from = 0;
  let star = -1;
  let starText = 0;
  while (from < text.length) {
    if (at < pattern.length && (pattern[at] === '?' || (pattern[at] === text[from] && pattern[at] !== '*'))) {
      at++;
      from++;
    } else if (pattern[at] === '*') {
      star = at++;
      starText = from;
    } else if (star >= 0) {
      at = star + 1;
      from = ++starText;
    } else return false;
  }
  while (pattern[at] === '*') at++;
  return at === pattern.length;
}
