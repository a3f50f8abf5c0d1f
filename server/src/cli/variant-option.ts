import { VariantUnknown } from '../workspace/variant';
import { UsageError } from './io';

/** `--variant NAME=VALUE`, given as often as wanted: the one way in which every command is told of a variant. */
export const VARIANT_OPTION = { variant: { type: 'string', multiple: true } } as const;

/** Traits and options that are fixed, name to value. */
export function variantOf(words: readonly string[]): Map<string, string> {
  const variant = new Map<string, string>();
  for (const word of words) {
    const equals = word.indexOf('=');
    if (equals < 1 || equals === word.length - 1) {
      throw new UsageError(`--variant takes NAME=VALUE, such as lockers=fitted; "${word}" is none.`);
    }
    const name = word.slice(0, equals).trim();
    if (variant.has(name))
      throw new UsageError(
        `--variant says two things of "${name}"; a vehicle is one of them, so give it once.`,
      );
    variant.set(name, word.slice(equals + 1).trim());
  }
  return variant;
}

/** What is worked out for a variant; one that the guide does not know is a wrong command line. */
export async function knowing<T>(work: Promise<T>): Promise<T> {
  return work.catch((error: unknown) => {
    if (error instanceof VariantUnknown) throw new UsageError(error.message);
    throw error;
  });
}

/** `wheelbase: long`, for a heading; empty where nothing is fixed. */
export function variantInWords(variant: ReadonlyMap<string, string>): string {
  return [...variant].map(([name, value]) => `${name}: ${value}`).join(', ');
}
