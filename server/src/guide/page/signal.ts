import { h as html, s } from 'hastscript';
import type { Signal } from '../printed';
import type { Content } from './html';

/** What each word says, as ANSI Z535.6 defines it, in our own sentences. */
export const MEANING: Readonly<Record<Signal, string>> = {
  danger: 'A hazard that kills or gravely injures if it is not avoided.',
  warning: 'A hazard that can kill or gravely injure if it is not avoided.',
  caution: 'A hazard that can injure slightly or moderately if it is not avoided.',
  notice: 'Something can be damaged; nobody is injured.',
};

/** A caution in its panel. The safety alert symbol stands with the words that speak of injury, never with a notice. */
export function signalPanel(signal: Signal, text: readonly Content[]): Content {
  return html('div', { className: ['signal', signal], role: 'note' }, [
    html('div', { className: ['word'] }, [
      ...(signal === 'notice' ? [] : [alertSymbol()]),
      html('span', signal),
    ]),
    html('div', { className: ['text'] }, [...text]),
  ]);
}

/** A triangle with an exclamation mark; the word beside it says the same. */
const alertSymbol = (): Content =>
  s(
    'svg',
    { viewBox: '0 0 24 24', fill: 'none', stroke: 'currentColor', strokeWidth: 2.2, ariaHidden: 'true' },
    [
      s('path', { d: 'M12 3 22 21H2Z', strokeLineJoin: 'round' }),
      s('path', { d: 'M12 9.5v5.5M12 17.4v1.2' }),
    ],
  );
