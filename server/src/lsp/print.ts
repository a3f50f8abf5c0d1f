import { guideMarkdown, torqueSheetMarkdown } from '../guide/markdown';
import { guidePage, torqueSheetPage } from '../guide/page/page';
import { PAPERS } from '../guide/page/style';
import { base64 } from '../workspace/base64';
import { picturesOf } from '../workspace/pictures';
import { publishedGuide } from '../workspace/publish';
import { chosenVariants } from '../workspace/variant';
import { answering, type Context, type Feature } from './context';
import { PRINT_REQUEST, type PrintAnswer, type PrintParams } from './print-types';

/** The guide for the box and the torque sheet, from the texts as they stand in the editor. */
export const print: Feature = {
  capabilities: () => ({ experimental: { kitproof: { print: true } } }),
  register(connection, context) {
    connection.onRequest(
      PRINT_REQUEST,
      answering<PrintParams, PrintAnswer | null>(context, null, (wanted) => printed(context, wanted)),
    );
  },
};

async function printed(context: Context, wanted: PrintParams): Promise<PrintAnswer | null> {
  const { form, sheet } = wanted;
  const paper = PAPERS.find((one) => one === wanted.paper) ?? 'a4';
  const document = await context.document(wanted.uri);
  const open = document === null ? null : await context.guides.open(document.uri);
  if (document === null || open === null)
    return { problem: 'This is no guide, so there is nothing to print.' };
  const { taken } = chosenVariants(open.model, wanted.variant ?? {});
  const variant = new Map(Object.entries(taken));
  const guide = await publishedGuide(context.project, document, variant, context.today());
  if (form === 'markdown') return { text: sheet ? torqueSheetMarkdown(guide) : guideMarkdown(guide) };
  const page = sheet
    ? torqueSheetPage(guide, paper)
    : guidePage(guide, { paper, pictures: await picturesOf(guide, context.texts) });
  if (form === 'html') return { text: page };
  if (context.printPdf === null || context.printPdf === undefined)
    return {
      problem: 'A browser cannot make a PDF for an extension. Make the HTML page, open it and print it.',
    };
  try {
    return { base64: base64(await context.printPdf(page)) };
  } catch (error) {
    return { problem: error instanceof Error ? error.message : String(error) };
  }
}
