const KIND = /^kitproof: *["']?(vehicle|kit|install|rules|times|config)\//;

/** Whether a text begins, but for comments and blank lines, with the key that makes it ours. */
export function saysItIsOurs(text: string): boolean {
  return KIND.test(firstLineOf(text));
}

/** Whether it says so of a guide; an ending is believed while the key is not written. */
export function looksLikeGuide(name: string, text: string): boolean {
  const kind = KIND.exec(firstLineOf(text))?.[1];
  return kind === undefined ? /\.install\.ya?ml$/.test(name) : kind === 'install';
}

function firstLineOf(text: string): string {
  const lines = text.replace(/^\uFEFF/, '').split(/\r\n|\r|\n/);
  return lines.find((line) => line.trim() !== '' && !line.startsWith('#') && line.trim() !== '---') ?? '';
}
