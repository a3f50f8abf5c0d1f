/** Scalars in YAML's core schema. Both producers use this alone, never a library's own values, so that they agree. */

const CORE_PREFIX = 'tag:yaml.org,2002:';
const RESOLVED_TAGS = new Set(['int', 'float', 'bool', 'null'].map((name) => CORE_PREFIX + name));

/** The value of a scalar. `plain` is false for quoted and block scalars; `tag` is the full tag or null. */
export function scalarValue(source: string, plain: boolean, tag: string | null): Scalar {
  if (tag === null) return plain ? resolvePlain(source) : source;
  return RESOLVED_TAGS.has(tag) ? resolvePlain(source) : source;
}

/** The value of a scalar without any text: null, or the empty string where a tag asks for text. */
export function emptyValue(tag: string | null): Scalar {
  if (tag === null) return null;
  return tag === `${CORE_PREFIX}str` || !tag.startsWith(CORE_PREFIX) ? '' : null;
}

export type Scalar = string | number | boolean | null;

/**
 * What an untagged plain scalar means in the core schema (YAML 1.2.2, section 10.3.2): null, a truth value, a
 * number, or else the text itself.
 */
export function resolvePlain(source: string): Scalar {
  if (source.length === 0) return null;
  const first = source.charCodeAt(0);
  if (isDigit(first) || first === PLUS || first === MINUS || first === DOT) return resolveNumber(source);
  if (source.length > 5) return source;
  switch (source) {
    case '~':
    case 'null':
    case 'Null':
    case 'NULL':
      return null;
    case 'true':
    case 'True':
    case 'TRUE':
      return true;
    case 'false':
    case 'False':
    case 'FALSE':
      return false;
    default:
      return source;
  }
}

const PLUS = 43;
const MINUS = 45;
const DOT = 46;
// Neither pattern can backtrack: every alternative begins with a different character.
const INTEGER = /^(?:[-+]?[0-9]+|0o[0-7]+|0x[0-9a-fA-F]+)$/;
const FLOAT = /^[-+]?(?:\.[0-9]+|[0-9]+(?:\.[0-9]*)?)(?:[eE][-+]?[0-9]+)?$/;
const INFINITE = /^[-+]?\.(?:inf|Inf|INF)$/;

function isDigit(code: number): boolean {
  return code >= 48 && code <= 57;
}

function resolveNumber(source: string): Scalar {
  if (INTEGER.test(source) || FLOAT.test(source)) return Number(source);
  if (INFINITE.test(source))
    return source.startsWith('-') ? Number.NEGATIVE_INFINITY : Number.POSITIVE_INFINITY;
  return source === '.nan' || source === '.NaN' || source === '.NAN' ? Number.NaN : source;
}

/**
 * The full form of a tag as written (`!!str`, `!mine`, `!<tag:…>`). `handles` are the document's %TAG directives.
 * An ill-formed escape is kept as it is written.
 */
export function fullTag(written: string, handles: ReadonlyMap<string, string>): string | null {
  if (written === '') return null;
  if (written.startsWith('!<')) return unescapeTag(written.slice(2, -1));
  const second = written.indexOf('!', 1);
  const handle = second < 0 ? '!' : written.slice(0, second + 1);
  const prefix = handles.get(handle) ?? (handle === '!!' ? CORE_PREFIX : handle);
  return prefix + unescapeTag(written.slice(handle.length));
}

function unescapeTag(suffix: string): string {
  try {
    return decodeURIComponent(suffix);
  } catch {
    return suffix;
  }
}
