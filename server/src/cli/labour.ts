import type { Place } from '../findings/finding';
import { labourOfGuide, unreadTimes } from '../workspace/labour';
import { standardPacks } from '../workspace/packs';
import { relativePath } from '../workspace/paths';
import { Project } from '../workspace/project';
import { COLOUR_CHOICE, COLOUR_OPTION, type Colours, coloursFor } from './colours';
import { type Arguments, type Command, choiceOf } from './command';
import { EXIT, type Exit, type Io } from './io';
import { reportCsv } from './labour/csv';
import { explainedSteps } from './labour/explain';
import { reportJson } from './labour/json';
import { reportMarkdown } from './labour/markdown';
import type { LabourReport } from './labour/report';
import { reportText } from './labour/text';
import { guideOf } from './targets';
import { Titles } from './titles';
import { knowing, VARIANT_OPTION, variantOf } from './variant-option';
import { counted } from './words';

/** Every format that `labour --format` takes. */
const formats: Readonly<
  Record<string, (report: LabourReport, colours: Colours, columns: number | null) => string>
> = {
  text: reportText,
  json: reportJson,
  csv: reportCsv,
  markdown: reportMarkdown,
};

export const labourCommand: Command = {
  name: 'labour',
  summary: 'total the hours of a guide, by section, skill and over its variants',
  options: {
    format: { type: 'string' },
    explain: { type: 'boolean' },
    ...VARIANT_OPTION,
    ...COLOUR_OPTION,
  },
  choices: { format: Object.keys(formats), ...COLOUR_CHOICE },
  help: `kitproof labour GUIDE

Totals what a guide takes, by section, by skill and as a whole, lowest and highest over
the vehicles and options it covers, each as the 50 % figure, within which half of such
jobs are done, and the 90 % figure. Labour is time × people; waiting is on the clock but
is nobody's labour. A time with low, likely and high counts (low + 4 likely + high) / 6;
only such times tell how far a job may run over. A step without a time takes its
operations' standard times, from the files that "times:" in kitproof.yaml lists; the
most specific entry counts, and access that several need counts once. Where neither
knows, the step is listed and every total is "at least". The allowances of
kitproof.yaml are added to the working time, on job time or on shift time as it says
there. Each printed figure is rounded up once, to a tenth of an hour unless
kitproof.yaml says otherwise.

  --variant NAME=VALUE      for the vehicle with this trait or option only; may be given
                            several times
  --explain                 where every minute comes from, step by step
  --format FORMAT           text (hours for people, the default), json (minutes for
                            programs), csv (minutes and hours for spreadsheets; with
                            --explain a line for each piece of time), markdown
  --color auto|always|never colour; auto is on at a terminal unless NO_COLOR is set

Examples
  kitproof labour guides/lift.install.yaml
  kitproof labour guides/lift.install.yaml --variant wheelbase=long --explain
  kitproof labour guides/lift.install.yaml --format csv > hours.csv

Exit status
  0  totalled, be it "at least"
  2  the command line is wrong, or the guide has no such trait or value
  3  something could not be read, or Kitproof itself failed
`,
  run,
};

async function run(args: Arguments, io: Io): Promise<Exit> {
  const format = choiceOf(args, 'format', Object.keys(formats), 'text');
  const colours = coloursFor(args, io);
  const variant = variantOf(args.texts('variant'));
  const project = new Project(io.files, standardPacks());
  const guide = await guideOf(args.positionals, io, project, 'labour');
  const taken = await knowing(labourOfGuide(project, guide, variant));
  const { labour, model, times, closure, hourStep, problems } = taken;
  if (problems > 0) {
    io.err(
      `kitproof: ${counted(problems, 'error')} in reading this guide; kitproof check tells. What could be read is totalled.\n`,
    );
  }
  for (const { message } of closure.configuration.allowanceFindings)
    io.err(`kitproof: in the allowances of kitproof.yaml: ${message} It is not added.\n`);
  for (const message of unreadTimes(closure)) io.err(`kitproof: ${message}\n`);
  // A step that came in by `use` is written in another guide, a standard time in its own file.
  const documents = [guide, ...closure.documents.values(), ...closure.times];
  const locate = (place: Place) => {
    const lines = documents.find(({ uri }) => uri === place.uri)?.lines;
    const line = (lines?.positionAt(place.span.start).line ?? 0) + 1;
    return { file: relativePath(io.folder, place.uri), line };
  };
  const titles = new Titles(model, closure);
  const report: LabourReport = {
    labour,
    file: relativePath(io.folder, guide.uri),
    hourStep,
    variant,
    unknown: labour.unknown.map(({ place, step, title }) => ({ ...locate(place), step, title })),
    steps: args.flag('explain') ? explainedSteps(model, times, locate, (step) => titles.of(step)) : null,
  };
  io.out(formats[format]!(report, colours, io.columns));
  return EXIT.clean;
}
