import type { FromPage, ToPage } from '../messages';
import { emptyPage, guidePage } from './guide';
import { show } from './tree';

declare function acquireVsCodeApi(): { postMessage(message: FromPage): void };

const editor = acquireVsCodeApi();
const root = document.getElementById('guide')!;
let here: string | null = null;

const asking = {
  open: (spot: { uri: string; line: number; character: number }) =>
    editor.postMessage({ type: 'open', ...spot }),
  scrollTo: (section: number) =>
    document.getElementById(`section-${section}`)?.scrollIntoView({ block: 'start' }),
};

window.addEventListener('message', ({ data }: MessageEvent<ToPage>) => {
  if (data.type === 'guide') {
    show(root, guidePage(data.guide, asking));
    keepClearOfHeader();
    markHere(false);
  } else if (data.type === 'empty') {
    show(root, emptyPage(data.text));
  } else {
    const moved = here !== data.path;
    here = data.path;
    markHere(moved);
  }
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
