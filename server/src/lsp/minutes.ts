import { tidyMinutes } from '../labour/three-point';

/** Minutes as a reader of a guide likes them: `12 min`, `1 h 05`, `40–55 min`. */
export function minutesInWords(lowest: number, highest: number = lowest): string {
  const low = Math.round(tidyMinutes(lowest));
  const high = Math.round(tidyMinutes(highest));
  if (low === high) return one(high);
  if (high < 60) return `${low}–${high} min`;
  return `${one(low)} – ${one(high)}`;
}

function one(minutes: number): string {
  if (minutes < 60) return `${minutes} min`;
  return `${Math.floor(minutes / 60)} h ${String(minutes % 60).padStart(2, '0')}`;
}
