/** What is wrong in a vehicle, kit or pack document itself, whoever uses it. */

import type { Finding } from '../findings/finding';
import { Report } from './report';
import type { Library, OpenDocument } from './source';

export function checkDeclarations(_document: OpenDocument, _library: Library): Finding[] {
  return new Report().findings;
}
