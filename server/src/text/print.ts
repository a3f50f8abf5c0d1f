/** Plain data as YAML for people: on one line where that fits, as a block where it does not. */

/**
 * Prints maps, lists and scalars; what it prints reads as the same data.
 * @param width cells that a line should keep to; a long text does not.
 */
export function printYaml(value: unknown, width: number): string {
  return `${block(value, width, 0, true).join('\n')}\n`;
}

function block(value: unknown, width: number, indent: number, outermost: boolean): string[] {
  const pad = ' '.repeat(indent);
  const one = flow(value);
  const isList = Array.isArray(value);
  const entries: [string, unknown][] = isList
    ? value.map((item): [string, unknown] => ['-', item])
    : isMap(value)
      ? Object.entries(value).map(([key, item]): [string, unknown] => [`${scalar(key)}:`, item])
      : [];
  if (entries.length === 0) return [pad + one];
  return entries.flatMap(([head, item]) => {
    const line = `${pad}${head} ${flow(item)}`;
    // A list of operations reads best one under the other.
    const spread = outermost && !isList && isListOfMaps(item);
    if (!spread && (line.length <= width || !holdsMore(item))) return [line];
    const inner = block(item, width, indent + 2, false);
    return isList ? [`${pad}- ${inner[0]!.trimStart()}`, ...inner.slice(1)] : [`${pad}${head}`, ...inner];
  });
}

function flow(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(flow).join(', ')}]`;
  if (!isMap(value)) return scalar(value);
  const pairs = Object.entries(value).map(([key, item]) => `${scalar(key)}: ${flow(item)}`);
  return pairs.length === 0 ? '{}' : `{ ${pairs.join(', ')} }`;
}

const isMap = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const holdsMore = (value: unknown): boolean =>
  Array.isArray(value) ? value.length > 0 : isMap(value) && Object.keys(value).length > 0;

const isListOfMaps = (value: unknown): boolean =>
  Array.isArray(value) && value.length > 1 && value.every(isMap);

const PLAIN = /^[\p{L}\p{N}_][\p{L}\p{N}_ .·°/-]*$/u;
const TAKEN: ReadonlySet<string> = new Set(['true', 'false', 'null']);

/** A scalar; a text that would read as something else stands in quotes. */
function scalar(value: unknown): string {
  if (typeof value !== 'string') return JSON.stringify(value) ?? 'null';
  const plain =
    PLAIN.test(value) &&
    !value.endsWith(' ') &&
    !TAKEN.has(value.toLowerCase()) &&
    Number.isNaN(Number(value));
  return plain ? value : JSON.stringify(value);
}
