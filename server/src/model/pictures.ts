import { type Report, shown } from './report';
import type { Runs } from './runs';
import { itemsAt, type Library, textAt } from './source';

/** Reports pictures that are not there, and such as nobody describes for who cannot see them. Those of a used section are its own guide's. */
export function checkPictures({ steps }: Runs, report: Report, library: Library): void {
  const told = new Set<unknown>();
  for (const { frame, step } of steps) {
    if (frame.use !== null || told.has(step)) continue;
    told.add(step);
    for (const figure of [...itemsAt(step.cursor, 'figure'), ...itemsAt(step.cursor, 'figures')]) {
      const file = figure.get('file');
      const written = file?.text?.trim() ?? '';
      if (file === null || written === '') continue;
      if (library.isLost?.(library.resolve(figure.document.uri, written)) === true)
        report.add('missing-picture', file.place, `There is no picture at "${shown(written)}".`, {
          severity: 'warning',
        });
      if ((textAt(figure, 'alt')?.trim() ?? '') === '')
        report.add('picture-without-words', file.place, 'Nothing says what this picture shows.', {
          operation: step.path,
        });
    }
  }
}
