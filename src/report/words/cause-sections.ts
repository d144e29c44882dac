import { causeWords } from '../../diagnosis/cause-words.ts';
import { chance } from '../../numeric/percent.ts';
import type { Report } from '../report-schema.ts';
import { SINCE_ALONE } from './another-fault.ts';
import { explainedCauses, explainedLater, explainedSince } from './explained-causes.ts';
import { ifOneFault } from './if-one-fault.ts';
import { causesTitle, LATER_CURED, wasOnce } from './what-it-was.ts';

/** Causes worth explaining that stand together, likeliest first. */
export interface CauseSection {
  /** Null where they say what is wrong now, by all rides: then none is needed. */
  readonly title: string | null;
  readonly causes: readonly { readonly chance: string; readonly name: string; readonly evidence: readonly string[] }[];
}

/** The causes that a written report explains, in order: of what is wrong by the newest rides alone, by all rides, and of what came in between. */
export function causeSections(report: Report): CauseSection[] {
  const since = explainedSince(report);
  const ifOne: Qualifier = (cause) => ifOneFault(report, cause);
  const none: Qualifier = () => '';
  const section = (
    title: string | null,
    causes: Report['diagnosis']['causes'],
    qualified: Qualifier,
  ): CauseSection[] =>
    causes.length === 0
      ? []
      : [
          {
            title,
            causes: causes.map(({ cause, probability, evidence }) => ({
              chance: chance(probability),
              name: causeWords(cause, report.bike.actuation).name + qualified(cause),
              evidence,
            })),
          },
        ];
  return [
    ...section(SINCE_ALONE, since, ifOne),
    ...section(
      wasOnce(report) ? causesTitle(report, '') : null,
      explainedCauses(report),
      since.length > 0 ? none : ifOne,
    ),
    ...section(LATER_CURED, explainedLater(report), none),
  ];
}

/** What is added to the name of a cause. */
type Qualifier = (cause: Report['diagnosis']['causes'][number]['cause']) => string;
