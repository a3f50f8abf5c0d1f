import type { GuideView, LedgerView } from '../../../server/src/lsp/guide-view-types';
import type { FromPage, ToPage } from '../messages';
import { emptyPage, guidePage } from './guide';
import { Remembered, show } from './tree';

declare function acquireVsCodeApi(): { postMessage(message: FromPage): void };

const editor = acquireVsCodeApi();
const root = document.getElementById('guide')!;
const remembered = new Remembered();
let here: string | null = null;
let guide: GuideView | null = null;
let ledger: LedgerView | null = null;

const asking = {
  open: (spot: { uri: string; line: number; character: number }) =>
    editor.postMessage({ type: 'open', ...spot }),
  scrollTo: (section: number) =>
    document.getElementById(`section-${section}`)?.scrollIntoView({ block: 'start' }),
  choose: (name: string, value: string | null) => editor.postMessage({ type: 'choose', name, value }),
};

window.addEventListener('message', ({ data }: MessageEvent<ToPage>) => {
  if (data.type === 'guide') {
    // What was open beside the text before is shown until it is known anew: steps are known by their paths.
    if (guide?.uri !== data.guide.uri) ledger = null;
    guide = data.guide;
    draw();
  } else if (data.type === 'ledger') {
    ledger = data.ledger;
    draw();
  } else if (data.type === 'empty') {
    guide = null;
    show(root, emptyPage(data.text));
  } else {
    const moved = here !== data.path;
    here = data.path;
    markHere(moved);
  }
});

function draw(): void {
  if (guide === null) return;
  show(root, guidePage(guide, ledger?.uri === guide.uri ? ledger : null, asking, remembered));
  remembered.settle();
  keepClearOfHeader();
  markHere(false);
}

/** Arrow keys on a step's number lead to the next step and the one before. */
root.addEventListener('keydown', (event) => {
  const by = event.key === 'ArrowDown' ? 1 : event.key === 'ArrowUp' ? -1 : 0;
  const number = event.target instanceof Element ? event.target.closest('.no') : null;
  if (by === 0 || number === null) return;
  const numbers = [...root.querySelectorAll<HTMLElement>('.no')];
  const next = numbers[numbers.indexOf(number as HTMLElement) + by];
  if (next === undefined) return;
  event.preventDefault();
  next.focus();
});

/** Marks the step that the cursor stands in, and brings it into view where the cursor moved there. */
function markHere(follow: boolean): void {
  const step = here === null ? null : document.getElementById(`step-${here}`);
  for (const other of document.querySelectorAll('[aria-current]'))
    if (other !== step) other.removeAttribute('aria-current');
  step?.setAttribute('aria-current', 'step');
  if (follow) step?.scrollIntoView({ block: 'nearest' });
}

/** What is scrolled to must not hide behind the header, whose height depends on the guide and on the width. */
function keepClearOfHeader(): void {
  const height = document.querySelector('header')?.offsetHeight ?? 0;
  document.documentElement.style.scrollPaddingTop = `${height + 8}px`;
}

window.addEventListener('resize', keepClearOfHeader);
editor.postMessage({ type: 'ready' });
