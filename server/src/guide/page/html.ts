import type { ElementContent, Root } from 'hast';
import { toHtml } from 'hast-util-to-html';
import { h } from 'hastscript';

export { h };
export type Content = ElementContent;

/** A page as one file, without scripts and without anything to load. */
export function htmlPage(title: string, style: string, body: readonly Content[]): string {
  const root: Root = {
    type: 'root',
    children: [
      { type: 'doctype' },
      h('html', { lang: 'en' }, [
        h('head', [
          h('meta', { charSet: 'utf-8' }),
          h('meta', { name: 'viewport', content: 'width=device-width, initial-scale=1' }),
          h('meta', { httpEquiv: 'Content-Security-Policy', content: POLICY }),
          h('title', title),
          h('style', style),
        ]),
        h('body', [...body]),
      ]),
    ],
  };
  return `${toHtml(root)}\n`;
}

/** The page shows itself and pictures that it carries; nothing in it runs or is fetched. */
const POLICY = "default-src 'none'; style-src 'unsafe-inline'; img-src data:";

/** A text as a string of a style sheet, which no text can end. */
export const cssString = (text: string): string =>
  `"${text.replaceAll(/[\\"<>&\n\r\f]/g, (one) => `\\${one.codePointAt(0)!.toString(16)} `)}"`;
