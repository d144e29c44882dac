import { sum } from 'd3-array';
import type { PlacedRide } from '../../adjustments/adjustment-periods.ts';
import { FEWEST_SHIFTS } from '../../diagnosis/fewest-shifts.ts';
import { gotBetterWith, rightWayBefore } from '../../diagnosis/now/got-better.ts';
import { hangsWhetherFault } from '../../diagnosis/what-leads.ts';
import { wilsonInterval } from '../../numeric/wilson-interval.ts';
import { type NothingToJudge, nothingToJudge } from '../nothing-to-judge.ts';
import type { Report } from '../report-schema.ts';
import { ridesThatCount } from '../rides-that-count.ts';
import { verdictOf, wasOneCause } from '../verdict-kind.ts';
import { whichCauses } from '../which-causes.ts';
import { explainedSentence } from '../words/verdict-words.ts';
import { type LostChains, lostChains } from './lost-chains.ts';
import { type PartsSeenTo, partsSeenTo } from './parts-seen-to.ts';
import { type TroubleNow, troubleNow } from './trouble-now.ts';

type Weighed = Report['diagnosis']['causes'][number];

/** Shifts that fail where no cause explains it are something wrong: as sure as the checks that they are no chance. */
const SURELY_WRONG = 0.99;

/** A cause with its probability. */
export type NamedCause = Pick<Weighed, 'cause' | 'probability'>;

/** What the state of a bike hangs on. */
export interface StateSigns extends LostChains {
  readonly cassette: Report['bike']['cassette'];
  readonly seenTo: PartsSeenTo;
  /** What was done about the likeliest cause, and what became of it. */
  readonly now: Report['diagnosis']['now'];
  readonly actuation: Report['bike']['actuation'];
  /** Probability that something is wrong now. */
  readonly fault: number;
  readonly noFault: number;
  /** The likeliest fault, however likely. */
  readonly topFault: Weighed | undefined;
  /** True where that fault is likelier than none, or an assumption turns which of the two is: then it has to be looked into. */
  readonly faultLeads: boolean;
  /** The likeliest now, no fault among them: many faults that are likely together only are none of them likeliest. */
  readonly top: NamedCause;
  /** The fault that the last adjustment seems to have cured. */
  readonly cured: NamedCause | null;
  /** What an adjustment that went too far made of it. */
  readonly overdone: NamedCause | null;
  /** Trouble that no cause in question explains: what the verdict says of it, and the low end of the rate there; null without any. */
  readonly unexplained: { readonly sentence: string; readonly low: number } | null;
  /** Whether a bike in order is likeliest all the same: then no cause is to be named. */
  readonly onlyUnexplained: boolean;
  /** The verdict where it is about the last adjustment: that it cured what was wrong or went too far, or that nobody knows yet what it did. */
  readonly aboutLast: string | null;
  /** The verdict where the newest rides shift well though no logged adjustment accounts for all of it, and what to log. */
  readonly wellSince: string | null;
  /** What to say where trouble is gone with soft legs and no part is named; else null. */
  readonly easeOff: string | null;
  readonly trouble: TroubleNow;
  /** Whether enough shifts could be judged, and weighed. */
  readonly enough: boolean;
  readonly weighed: Report['diagnosis']['weighed'];
  readonly namesCause: boolean;
  /** The part or parameter that the next step is about; `none` where it turns nothing. */
  readonly stepIsAbout: string;
  /** How many rides are left out as another bike's, where that leaves none that counts; else 0. */
  readonly allLeftOut: number;
  /** Why no verdict is drawn from the shifts; null where one is. */
  readonly heldBack: NonNullable<Report['diagnosis']['heldBack']> | null;
  /** Why more rides of the kind would not help either; null where they would. */
  readonly nothingToJudge: NothingToJudge | null;
}

/**
 * Gathers from a report what the state of its bike hangs on.
 *
 * @param rides those that count for the bike, with all their shifts
 */
export function stateSigns(report: Report, rides: readonly PlacedRide[]): StateSigns {
  const { stillThere, now, suggestion, weighed, riderPart } = report.diagnosis;
  const { causes, undecided } = whichCauses(report.diagnosis).now;
  const trouble = troubleNow(report, rides);
  const [likeliest] = causes;
  const noFault = causes.find(({ cause }) => cause === 'no-fault')?.probability ?? 0;
  const topFault = causes.find(({ cause }) => cause !== 'no-fault');
  const { kind } = verdictOf(report);
  const cured = kind === 'cured' ? likeliest : null;
  const overdone = kind === 'overdone' ? { cause: now.fault, probability: now.pastTheMark } : null;
  // a fault that was cured is one no longer, as far as it is no longer there and not past the mark
  const gone = cured
    ? (wasOneCause(report) ? cured.probability : 1 - noFault) * Math.max(0, 1 - stillThere - now.pastTheMark)
    : 0;
  const unexplained = unexplainedTrouble(report);
  const fault = Math.max(overdone?.probability ?? 0, 1 - noFault - gone, unexplained ? SURELY_WRONG : 0);
  const faultLeads = (topFault?.probability ?? 0) > noFault || hangsWhetherFault(undecided);
  return {
    ...lostChains(report, rides),
    cassette: report.bike.cassette,
    seenTo: partsSeenTo(report),
    now,
    actuation: report.bike.actuation,
    fault,
    noFault,
    topFault,
    faultLeads,
    top:
      overdone ??
      (fault >= 0.5 && faultLeads && topFault ? topFault : { cause: 'no-fault', probability: noFault + gone }),
    cured,
    overdone,
    unexplained,
    onlyUnexplained: kind === 'unexplained',
    aboutLast: ['overdone', 'another', 'unsettled', 'cured'].includes(kind) ? explainedSentence(report) : null,
    wellSince: kind === 'put-right' || kind === 'not-shown' ? explainedSentence(report) + whatToLog(report) : null,
    easeOff: kind === 'under-load' ? riderPart.sentence : null,
    trouble,
    enough: trouble.shifts >= FEWEST_SHIFTS && weighed.judgedShifts >= FEWEST_SHIFTS,
    weighed,
    namesCause: suggestion.namesCause,
    stepIsAbout: suggestion.parameter,
    allLeftOut: ridesThatCount(report).length === 0 ? report.rides.length : 0,
    heldBack: report.diagnosis.heldBack ?? null,
    nothingToJudge: nothingToJudge(ridesThatCount(report)),
  };
}

/** Nothing where an entry accounts for it, or made it better for sure. */
function whatToLog({ adjustments, diagnosis: { shiftsWellSince: since, causes } }: Report): string {
  const [{ cause }] = causes;
  const accounted =
    since &&
    (since.entryAt ||
      (since.adjusted ? gotBetterWith(adjustments, cause, since.at)?.last : rightWayBefore(adjustments, cause, since)));
  return accounted ? '' : ' If something was done before those rides, log it.';
}

/** Over all the places together. */
function unexplainedTrouble({ diagnosis: { unexplained } }: Report): StateSigns['unexplained'] {
  if (!unexplained) return null;
  const trouble = sum(unexplained.places, (place) => place.trouble);
  const shifts = sum(unexplained.places, (place) => place.shifts);
  return { sentence: unexplained.sentence, low: wilsonInterval(trouble, shifts).low };
}
