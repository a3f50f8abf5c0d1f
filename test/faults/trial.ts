/** One mutant on trial: what the checker finds in it, and whether the judge calls it harmful. */

import type { Finding } from '../../server/src/findings/finding';
import { Judge, type Verdict } from '../oracle/harm/judge';
import type { Raw } from '../oracle/raw';
import { Checking } from './checking';
import type { Mutant } from './mutants';
import type { Folder, Sample } from './samples';

/** What came of a trial: plain data, as workers pass it on. */
export interface Outcome {
  readonly harm: Verdict | undefined;
  /** Findings that the sound guide does not have, by rules that every house has. */
  readonly findings: readonly Finding[];
  /** The same by rules that this house chose, or wrote. */
  readonly houseFindings: readonly Finding[];
}

export interface Trial extends Outcome {
  readonly mutant: Mutant;
}

/** Tries mutants; what is the same for all of them is made once. */
export class Court {
  private readonly checking: Checking;
  private readonly judges = new Map<string, Judge>();
  private readonly houseRules: ReadonlySet<string>;

  constructor(
    private readonly packs: readonly Raw[],
    folders: readonly Folder[],
  ) {
    this.checking = new Checking(folders);
    this.houseRules = new Set(
      [
        ...packs.flatMap((pack) => rulesOf(pack).filter(({ core }) => core !== true)),
        ...folders.flatMap(({ documents }) => Object.values(documents).flatMap(rulesOf)),
      ].map(({ id }) => String(id)),
    );
  }

  /** What the judge says of a sample that nobody changed: nothing, if it is right. */
  soundHarm(sample: Sample): readonly string[] {
    return sample.jobs.flatMap((job) => this.judgeOf(sample, job).soundHarm());
  }

  async try(mutant: Mutant): Promise<Outcome> {
    const { sample, text, raw } = mutant;
    const findings = await this.checking.newFindings(sample, text);
    const isHouse = ({ rule }: Finding) => this.houseRules.has(rule);
    let harm: Verdict | undefined;
    for (const job of sample.jobs) harm ??= this.judgeOf(sample, job).harmOf({ [sample.guide]: raw });
    return {
      harm,
      findings: findings.filter((one) => !isHouse(one)),
      houseFindings: findings.filter(isHouse),
    };
  }

  private judgeOf({ folder }: Sample, job: readonly string[]): Judge {
    const key = `${folder.name} ${job}`;
    const vocabulary = [
      ...this.packs,
      ...Object.values(folder.documents).filter((one) => one.pack !== undefined),
    ];
    const known = this.judges.get(key) ?? new Judge(folder.documents, job, vocabulary);
    this.judges.set(key, known);
    return known;
  }
}

const rulesOf = (pack: Raw): Raw[] => (Array.isArray(pack.rules) ? (pack.rules as Raw[]) : []);
