import { guideMarkdown, torqueSheetMarkdown } from '../guide/markdown';
import { guidePage, torqueSheetPage } from '../guide/page/page';
import { PAPERS } from '../guide/page/style';
import { standardPacks } from '../workspace/packs';
import { folderOf, relativePath, resolvePath } from '../workspace/paths';
import { picturesOf } from '../workspace/pictures';
import { Project } from '../workspace/project';
import { publishedGuide } from '../workspace/publish';
import { dayOf } from './as-of';
import { type Arguments, type Command, choiceOf } from './command';
import { formsOf, pdfOf, writeForm } from './forms';
import { EXIT, type Exit, type Io } from './io';
import { guideOf } from './targets';
import { knowing, VARIANT_OPTION, variantOf } from './variant-option';
import { counted, listed } from './words';

export const guideCommand: Command = {
  name: 'guide',
  summary: 'print the guide for the box, or the torque sheet, as HTML, PDF or Markdown',
  options: {
    html: { type: 'string' },
    pdf: { type: 'string' },
    markdown: { type: 'string' },
    'torque-sheet': { type: 'boolean' },
    paper: { type: 'string' },
    'as-of': { type: 'string' },
    ...VARIANT_OPTION,
  },
  choices: { paper: PAPERS },
  help: `kitproof guide GUIDE [--html FILE] [--pdf FILE] [--markdown FILE]

Prints the guide as it goes into the box: what it fits and for whom, what is in the box
and which tools and consumables it takes, every step with its cautions before it, its
sides, variants, figures and torques, settings as tables, the torque table with places
to tick, the checks before driving, the hand-over sheet, the hours, and what was not
checked. Without --variant it is for all that the guide covers, and steps for some of
them alone are marked. A guide with open errors, warnings or drafts says on its first
page that it is not for issue.

HTML is one file with its pictures in it, without scripts. A PDF is printed by Chromium
or a browser made of it, which is looked for on this machine (KITPROOF_BROWSER says
which): tagged, with bookmarks, to be searched. "-" in place of a file is the screen;
where no file is named, Markdown goes there.

  --html FILE               the guide as one HTML file
  --pdf FILE                the guide as a PDF
  --markdown FILE           the guide as Markdown
  --torque-sheet            the torque table alone, with places to tick and to sign
  --variant NAME=VALUE      for the vehicle with this trait or option only; may be given
                            several times
  --paper a4|letter         the size of the paper (a4)
  --as-of DATE              the day that waivers are held against (today), 2026-03-14

Examples
  kitproof guide lift.install.yaml --html lift.html --pdf lift.pdf
  kitproof guide lift.install.yaml --variant wheelbase=long --paper letter --pdf l.pdf
  kitproof guide lift.install.yaml --torque-sheet --pdf torques.pdf

Exit status
  0  printed, be it as not for issue
  2  the command line is wrong, or the guide has no such trait or value
  3  something could not be read, written or printed, or Kitproof itself failed
`,
  run,
};

async function run(args: Arguments, io: Io): Promise<Exit> {
  const paper = choiceOf(args, 'paper', PAPERS, 'a4');
  const variant = variantOf(args.texts('variant'));
  const wanted = formsOf(args, ['html', 'pdf', 'markdown'] as const, io);

  const project = new Project(io.files, standardPacks());
  const document = await guideOf(args.positionals, io, project, 'guide');
  const guide = await knowing(
    publishedGuide(project, document, variant, dayOf(args.text('as-of')) ?? io.today),
  );
  const sheet = args.flag('torque-sheet');
  const pictures = sheet ? new Map<string, string>() : await picturesOf(guide, io.files);
  const page = () => (sheet ? torqueSheetPage(guide, paper) : guidePage(guide, { paper, pictures }));
  for (const one of wanted) {
    const { form, file } = one;
    const content =
      form === 'markdown'
        ? sheet
          ? torqueSheetMarkdown(guide)
          : guideMarkdown(guide, (figure) => relativePath(homeOf(file, io), figure.name))
        : form === 'html'
          ? page()
          : await pdfOf(page(), io);
    await writeForm(one, content, io);
  }
  const lost = guide.sections
    .flatMap(({ steps }) => steps.flatMap(({ figures }) => figures))
    .filter(({ name }) => !sheet && !pictures.has(name))
    .map(({ file }) => file);
  if (lost.length > 0 && wanted.some(({ form }) => form !== 'markdown'))
    io.err(
      `kitproof: ${counted(lost.length, 'picture')} could not be read: ${listed([...new Set(lost)])}.\n`,
    );
  const { error, warning } = guide.cover.findings;
  if (error + warning > 0)
    io.err(
      `kitproof: printed as not for issue: ${[...(error > 0 ? [counted(error, 'error')] : []), ...(warning > 0 ? [counted(warning, 'warning')] : [])].join(' and ')}; kitproof check tells.\n`,
    );
  return EXIT.clean;
}

/** The folder that a file will stand in; the working folder for the screen. */
const homeOf = (file: string, io: Io): string =>
  file === '-' ? io.folder : folderOf(resolvePath(io.folder, file));
