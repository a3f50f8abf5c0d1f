import type { Finding } from '../findings/finding';
import type { OpenDocument } from '../schema/document';
import { configurationFindings } from './configuration-findings';
import { judge } from './engine';
import { internalFault, same, type Unit } from './unit';

/** What is found in documents by themselves, kept for as long as what they are held against stays the same. */
export class Judges {
  private readonly declared = new WeakMap<
    OpenDocument,
    { readonly beside: readonly unknown[]; readonly findings: readonly Finding[] }
  >();

  /** Findings of reading, of structure and of declarations in one of the documents that a unit judges. */
  findings(unit: Unit, name: string): readonly Finding[] {
    const { document, closure } = unit.judges.get(name)!;
    try {
      const opened = closure.opened(document);
      const { packs, vehicles = [] } = closure.library;
      const { configuration, configured, rulebook } = closure;
      const beside = [rulebook, ...packs, ...(document.kind === 'kit' ? [null, ...vehicles] : [])];
      const known = this.declared.get(opened);
      let declared = known?.findings;
      if (known === undefined || !same(known.beside, beside)) {
        declared = judge(opened, closure.library, closure.rulebook);
        this.declared.set(opened, { beside, findings: declared });
      }
      const settings =
        name === unit.settings ? configurationFindings(configuration, configured, rulebook.rules.keys()) : [];
      return [...opened.findings, ...declared!, ...settings];
    } catch (error) {
      return [internalFault(name, error)];
    }
  }
}
