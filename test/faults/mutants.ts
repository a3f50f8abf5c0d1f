/** From a sample to its mutants: one fault each, the same for the same seed. */

import { type Document, parseDocument } from 'yaml';
import { readFacts } from '../oracle/harm/facts';
import { seeded } from '../oracle/random';
import { map, type Raw } from '../oracle/raw';
import { type Fault, viewGuide } from './fault';
import { FAULT_KINDS } from './kinds';
import type { Sample } from './samples';

export interface Mutant extends Fault {
  readonly kind: string;
  readonly sample: Sample;
  readonly text: string;
  readonly raw: Raw;
}

/**
 * The mutants of a sample, kind by kind.
 * @param most how many of one kind are drawn at most
 * @param vocabulary packs, for the kinds of part
 */
export function mutantsOf(sample: Sample, seed: number, most: number, vocabulary: readonly Raw[]): Mutant[] {
  const { folder, guide } = sample;
  const source = folder.texts[guide] ?? '';
  const whole = parseDocument(source);
  const facts = readFacts(folder.documents, [guide], vocabulary);
  const view = viewGuide(folder.documents[guide] ?? {}, facts);
  const seen = new Set([String(whole)]);
  const mutants: Mutant[] = [];
  for (const [at, { name, faults }] of FAULT_KINDS.entries()) {
    // Each kind draws from a source of its own, so that a change of one leaves the others alone.
    const random = seeded(seed * 1009 + at * 31 + guide.length);
    const all = faults(view, random);
    for (const fault of random.some(all, Math.min(most, all.length), Math.min(most, all.length))) {
      const made = apply(whole, fault);
      if (made === undefined || seen.has(made.text)) continue;
      seen.add(made.text);
      mutants.push({ ...fault, ...made, kind: name, sample });
    }
  }
  return mutants;
}

function apply(whole: Document, fault: Fault): { text: string; raw: Raw } | undefined {
  const document = whole.clone();
  fault.change(document);
  return { text: String(document), raw: map(document.toJS()) };
}
