/** Changes of a guide by the numbers of its sections, steps and operations (`2.3.1`), counted from 1 as they are written. */

import type { Edit } from '../findings/finding';
import { find } from '../text/access';
import type { Node } from '../text/tree';
import { isRepeated } from './anchors';
import { together } from './apply';
import { layoutOf } from './layout';
import { insertElement, moveElements, removeElement, replaceElement, type Spot } from './lists';
import { addWord, removeKey, renameKey, setKey } from './maps';
import { replacement, type Source } from './source';
import { IN_BRACES, inFlow, type Layout, type Value } from './write';

/** What a step, or an operation, says: keys in the order in which they are written. */
export type Entry = Readonly<Record<string, Value>>;

/** Keys that stand before `do` in a step. */
const BEFORE_DO = ['id', 'when', 'side', 'optional', 'text', 'caution', 'people', 'draft'];

/** Keys of a guide that stand before its sections. */
const BEFORE_SECTIONS = ['title', 'vehicle', 'kit', 'covers', 'given', 'follows', 'leaves', 'side', 'when'];

/** In one line where they have room there, else a line for each key. */
const WAIVERS: Layout = { ...IN_BRACES, flow: (kind) => kind === 'list' };

/** A guide whose steps are changed. Every change gives edits, or null where the text does not allow it. */
export class GuideText {
  constructor(readonly source: Source) {}

  /** The map of a step; null where there is none, or it is written elsewhere (an alias). */
  step(path: string): Node | null {
    const { section, step } = numbersOf(path);
    return mapAt(this.steps(section), step);
  }

  /** The map of an operation; null where there is none, or its list comes from elsewhere. */
  operation(path: string): Node | null {
    return mapAt(this.operations(path), numbersOf(path).operation);
  }

  /** How many steps a section has, as written. */
  countSteps(section: number): number {
    return this.steps(section)?.items?.length ?? 0;
  }

  /** Puts a step before or behind another, written as those around it are. */
  insertStep(path: string, side: Spot['side'], entry: Entry): Edit[] | null {
    const { section, step } = numbersOf(path);
    const list = this.steps(section);
    if (list === null) return null;
    return insertElement(this.source, list, { index: step - 1, side }, entry, this.stepLists());
  }

  /** Moves so many steps, from one on, before or behind another, also of another section. */
  moveSteps(path: string, count: number, target: string, side: Spot['side']): Edit[] | null {
    const from = numbersOf(path);
    const to = numbersOf(target);
    const list = this.steps(from.section);
    const other = this.steps(to.section);
    if (list === null || other === null) return null;
    return moveElements(
      this.source,
      { list, index: from.step - 1, count },
      { list: other, spot: { index: to.step - 1, side } },
    );
  }

  removeStep(path: string): Edit[] | null {
    const { section, step } = numbersOf(path);
    const list = this.steps(section);
    return list === null ? null : removeElement(this.source, list, step - 1);
  }

  /** Puts an operation before or behind another one. */
  insertOperation(path: string, side: Spot['side'], entry: Entry): Edit[] | null {
    const list = this.operations(path);
    const index = numbersOf(path).operation - 1;
    return list === null ? null : insertElement(this.source, list, { index, side }, entry, this.doLists());
  }

  /** Gives a step that has no operations its first ones. */
  setOperations(path: string, entries: readonly Entry[]): Edit[] | null {
    const step = this.step(path);
    const { section, step: number } = numbersOf(path);
    const list = this.steps(section);
    if (step === null || list === null || find(step, 'do', this.source.reading) !== undefined) return null;
    const layout = layoutOf(this.source, list, number - 1, this.stepLists());
    return setKey(this.source, step, 'do', entries, { layout, behind: BEFORE_DO });
  }

  /** Writes another operation in the place of one. */
  replaceOperation(path: string, entry: Entry): Edit[] | null {
    const list = this.operations(path);
    return list === null ? null : replaceElement(this.source, list, numbersOf(path).operation - 1, entry);
  }

  /** Moves an operation before or behind another of the same step. */
  moveOperation(path: string, target: string, side: Spot['side']): Edit[] | null {
    const list = this.operations(path);
    const [from, to] = [numbersOf(path), numbersOf(target)];
    if (list === null || from.section !== to.section || from.step !== to.step) return null;
    return moveElements(
      this.source,
      { list, index: from.operation - 1, count: 1 },
      { list, spot: { index: to.operation - 1, side } },
    );
  }

  /** Takes an operation out; with the last one of a step the step goes too. */
  removeOperation(path: string): Edit[] | null {
    const list = this.operations(path);
    if (list === null) return null;
    if (list.items!.length === 1) return this.removeStep(path);
    return removeElement(this.source, list, numbersOf(path).operation - 1);
  }

  /** Gives an operation (`1.2.3`) or a step (`1.2`) a key. */
  setKey(path: string, key: string, value: Value, behind?: readonly string[]): Edit[] | null {
    const map = this.mapOf(path);
    return map === null ? null : setKey(this.source, map, key, value, behind === undefined ? {} : { behind });
  }

  removeKey(path: string, key: string): Edit[] | null {
    const map = this.mapOf(path);
    return map === null ? null : removeKey(this.source, map, key);
  }

  renameKey(path: string, key: string, name: string): Edit[] | null {
    const map = this.mapOf(path);
    return map === null ? null : renameKey(this.source, map, key, name);
  }

  addWord(path: string, key: string, word: string): Edit[] | null {
    const map = this.mapOf(path);
    return map === null ? null : addWord(this.source, map, key, word);
  }

  /** Marks a step as a draft. */
  markDraft(path: string): Edit[] | null {
    const step = this.step(path);
    if (step === null) return null;
    if (find(step, 'draft', this.source.reading)?.value.value === true) return [];
    return together(setKey(this.source, step, 'draft', true, { behind: ['id', 'when', 'side', 'text'] }));
  }

  /** Puts something on the list of what is due after delivery. */
  addDuty(entry: Entry): Edit[] | null {
    const { root } = this.source.reading;
    if (root?.kind !== 'map') return null;
    const list = find(root, 'owes', this.source.reading);
    if (list === undefined) return setKey(this.source, root, 'owes', [entry], { behind: BEFORE_SECTIONS });
    const index = (list.written.items?.length ?? 0) - 1;
    return insertElement(this.source, list.written, { index, side: 'behind' }, entry);
  }

  /**
   * Writes down that something is accepted: where its path leads, at the step where the operation cannot take it, or where
   * it is the step's only one and stands in braces.
   */
  addWaiver(path: string, waiver: Entry): Edit[] | null {
    const { section, step, operation } = numbersOf(path);
    const inStep = () => this.waiverAt(this.step(path), waiver, BEFORE_DO);
    if (operation > 0) {
      const only = this.operations(path)?.items?.length === 1;
      const own = this.operation(path);
      const braces = own?.style === 'flow' && this.step(path)?.style === 'block';
      return (only && braces ? inStep() : null) ?? this.waiverAt(own, waiver) ?? inStep();
    }
    if (step > 0) return inStep();
    return section > 0
      ? this.waiverAt(mapAt(this.sections(), section), waiver, ['title', 'id', 'when', 'side'])
      : this.waiverAt(this.source.reading.root, waiver, BEFORE_SECTIONS);
  }

  private waiverAt(map: Node | null, waiver: Entry, behind: readonly string[] = []): Edit[] | null {
    const { source } = this;
    if (map?.kind !== 'map') return null;
    const known = find(map, 'waive', source.reading);
    if (known === undefined) return setKey(source, map, 'waive', [waiver], { layout: WAIVERS, behind });
    const { written, merged } = known;
    if (merged || isRepeated(source, written)) return null;
    if (written.kind === 'seq')
      return insertElement(source, written, { index: written.items!.length - 1, side: 'behind' }, waiver);
    // One by itself becomes the first of a list.
    if (written.kind !== 'map' || written.style !== 'flow' || source.text[written.start] !== '{') return null;
    if (written.anchor !== null || written.tag !== null) return null;
    return [
      replacement(source, written.start, written.start, '['),
      replacement(source, written.end, written.end, `, ${inFlow(waiver)}]`),
    ];
  }

  /** Takes an entry out of a map of the guide itself, such as `leaves`; with the last one the map goes too. */
  removeEntry(key: string, name: string): Edit[] | null {
    const { root } = this.source.reading;
    const map = root?.kind === 'map' ? find(root, key, this.source.reading)?.written : undefined;
    if (root?.kind !== 'map' || map?.kind !== 'map') return null;
    return map.items!.length === 1 ? removeKey(this.source, root, key) : removeKey(this.source, map, name);
  }

  private mapOf(path: string): Node | null {
    return numbersOf(path).operation > 0 ? this.operation(path) : this.step(path);
  }

  /** The list of steps of a section. */
  private steps(section: number): Node | null {
    return listAt(this.source, mapAt(this.sections(), section), 'steps');
  }

  private operations(path: string): Node | null {
    return listAt(this.source, this.step(path), 'do');
  }

  private sections(): Node | null {
    return listAt(this.source, this.source.reading.root, 'sections');
  }

  private stepLists(): Node[] {
    return (this.sections()?.items ?? []).flatMap((section) => listAt(this.source, section, 'steps') ?? []);
  }

  private doLists(): Node[] {
    return this.stepLists().flatMap((list) =>
      (list.items ?? []).flatMap((step) => listAt(this.source, step, 'do') ?? []),
    );
  }
}

/** The numbers in a path; 0 for what is not in it. */
export function numbersOf(path: string): { section: number; step: number; operation: number } {
  const [section = 0, step = 0, operation = 0] = path.split('.').map(Number);
  return { section, step, operation };
}

function mapAt(list: Node | null, number: number): Node | null {
  const node = list?.items?.[number - 1];
  return node?.kind === 'map' ? node : null;
}

/** The list under a key, where it is written there itself and nowhere repeated. */
function listAt(source: Source, map: Node | null, key: string): Node | null {
  if (map?.kind !== 'map') return null;
  const entry = find(map, key, source.reading);
  if (entry === undefined || entry.merged || entry.written.kind !== 'seq') return null;
  return isRepeated(source, entry.written) ? null : entry.written;
}
