/** Bytes as text, for where only text goes. */
export function base64(bytes: Uint8Array): string {
  // In stretches: a call takes only so many arguments.
  let binary = '';
  for (let at = 0; at < bytes.length; at += 0x8000)
    binary += String.fromCharCode(...bytes.subarray(at, at + 0x8000));
  return btoa(binary);
}

/** The bytes of such a text; throws for what is none. */
export const bytesOf = (text: string): Uint8Array => Uint8Array.from(atob(text), (one) => one.charCodeAt(0));
