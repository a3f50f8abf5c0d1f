/** What a client asks to have a guide printed, and what it is given. */
import type { VariantParams } from './guide-view-types';

export const PRINT_REQUEST = 'kitproof/print';

export interface PrintParams extends VariantParams {
  readonly form: 'html' | 'pdf' | 'markdown';
  /** The torque sheet alone. */
  readonly sheet: boolean;
  readonly paper: 'a4' | 'letter';
}

/** The file, a PDF in base64; or one sentence that says why there is none. */
export type PrintAnswer =
  | { readonly text: string }
  | { readonly base64: string }
  | { readonly problem: string };
