import type { Feature } from './context';
import { preview } from './preview';

/** Every feature of the editor beside findings; a new one is a file beside this one and a place in this list. */
export const features: readonly Feature[] = [preview];
