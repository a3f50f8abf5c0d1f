import { version } from '../../../package.json';
import { PAPERS } from '../guide/page/style';
import { CERTIFIES_NOTHING } from '../review/record';
import { recordPage } from '../review/record-html';
import { recordMarkdown } from '../review/record-markdown';
import { standardPacks } from '../workspace/packs';
import { Project } from '../workspace/project';
import { recordOfGuide } from '../workspace/record';
import { dayOf } from './as-of';
import { type Arguments, type Command, choiceOf } from './command';
import { formsOf, pdfOf, writeForm } from './forms';
import { EXIT, type Exit, type Io } from './io';
import { guideOf } from './targets';
import { knowing, VARIANT_OPTION, variantOf } from './variant-option';

export const reviewCommand: Command = {
  name: 'review',
  summary: 'write the check record of a guide, with what only a person can judge, to sign',
  options: {
    html: { type: 'string' },
    pdf: { type: 'string' },
    markdown: { type: 'string' },
    json: { type: 'string' },
    paper: { type: 'string' },
    'as-of': { type: 'string' },
    ...VARIANT_OPTION,
  },
  choices: { paper: PAPERS },
  help: `kitproof review GUIDE [--html FILE] [--pdf FILE] [--markdown FILE] [--json FILE]

The check record of one guide, for whoever answers for it. It says of every rule in
force how often it was asked, in which variants, and what came of it: held, open,
covered by a caution, waived by whom, or undecided and why; which rules had nothing to
ask; which steps were not checked; what is taken for granted; and what only a person can
judge, as a list made from this guide, with room for initials and signatures. The files
it was made from stand in it with a hash of their text.

It certifies nothing. "-" in place of a file is the screen; where no file is named,
Markdown goes there.

  --html FILE               the record as one HTML file, in the look of the guide
  --pdf FILE                the record as a PDF, printed by a browser of this machine
  --markdown FILE           the record as Markdown
  --json FILE               the record for programs
  --variant NAME=VALUE      for the vehicle with this trait or option only; may be given
                            several times
  --paper a4|letter         the size of the paper (a4)
  --as-of DATE              the day that waivers are held against (today), 2026-03-14

Examples
  kitproof review lift.install.yaml --pdf record.pdf
  kitproof review lift.install.yaml --variant wheelbase=long --markdown record.md

Exit status
  0  written, whatever is open
  2  the command line is wrong, or the guide has no such trait or value
  3  something could not be read, written or printed, or Kitproof itself failed
`,
  run,
};

const FORMS = ['html', 'pdf', 'markdown', 'json'] as const;

async function run(args: Arguments, io: Io): Promise<Exit> {
  const paper = choiceOf(args, 'paper', PAPERS, 'a4');
  const variant = variantOf(args.texts('variant'));
  const wanted = formsOf(args, FORMS, io);

  const project = new Project(io.files, standardPacks());
  const document = await guideOf(args.positionals, io, project, 'review');
  const day = dayOf(args.text('as-of')) ?? io.today;
  const record = await knowing(recordOfGuide(project, document, variant, day, version));
  for (const one of wanted) {
    const { form } = one;
    const content =
      form === 'markdown'
        ? recordMarkdown(record)
        : form === 'json'
          ? `${JSON.stringify({ ...record, caution: CERTIFIES_NOTHING }, null, 2)}\n`
          : form === 'html'
            ? recordPage(record, paper)
            : await pdfOf(recordPage(record, paper), io);
    await writeForm(one, content, io);
  }
  return EXIT.clean;
}
