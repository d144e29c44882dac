import { helpedForSure } from '../adjustments/helped-for-sure.ts';
import { FEWEST_SHIFTS } from '../diagnosis/fewest-shifts.ts';
import { NAMED_ALONE } from '../diagnosis/verdict-limits.ts';
import type { DiagnosisReport } from './diagnosis-report-schema.ts';
import type { Report } from './report-schema.ts';
import { showsNothing } from './shows-nothing.ts';
import { standingAdjustments } from './standing-adjustments.ts';

/** From here on a bike in order is likelier than all faults together: then nothing points to a part. */
const SOUND_FROM = 0.5;

/**
 * What a report says of its bike, and the causes it speaks of, likeliest first. Text, page and API only put it into words.
 *
 * - `nothing-seen`: in what could be weighed no shift was judged and nothing else found, or no verdict is drawn (`diagnosis.heldBack`); no cause
 * - `sound`: nothing points to a part, and no assumption turns that; `no-fault`
 * - `unexplained`: a bike in order is likeliest, yet shifts go wrong in a place that no cause explains; `no-fault`
 * - `under-load`: no part is named, and shifts go wrong under hard pedalling alone; the likeliest
 * - `cured`: the rides since the last adjustment no longer show the fault; that fault
 * - `overdone`: an adjustment went past the mark, so that something else is wrong now (`diagnosis.now`); what was likeliest before it
 * - `another`: the fault is most likely gone, and the rides since the last adjustment name another by themselves (`diagnosis.anotherSince`); the first
 * - `unsettled`: the rides since the last adjustment do not tell what became of the fault; that fault
 * - `put-right`: a fault was as good as sure and the newest rides shift well, though no logged adjustment accounts for all of it; the likeliest before them
 * - `unnamed`: a fault is likeliest, but the evidence is too thin to name it; that fault
 * - `named`: one cause stands alone
 * - `open`: between two causes, since neither is likely enough or an assumption turns the verdict
 */
export type Verdict =
  | { readonly kind: 'nothing-seen'; readonly causes: readonly [] }
  | {
      readonly kind:
        | 'sound'
        | 'unexplained'
        | 'under-load'
        | 'cured'
        | 'overdone'
        | 'another'
        | 'unsettled'
        | 'put-right'
        | 'unnamed'
        | 'named';
      readonly causes: readonly [Weighed];
    }
  | { readonly kind: 'open'; readonly causes: readonly [Weighed, Weighed] };
type Weighed = DiagnosisReport['causes'][number];

/** As much of a report as the verdict hangs on. */
type Judged = Pick<Report, 'diagnosis' | 'adjustments'>;

/** The verdict of a report. */
export function verdictOf(report: Judged): Verdict {
  const { causes, undecided, suggestion, shiftsWellSince, now, unexplained } = report.diagnosis;
  const [first, second] = causes;
  if (report.diagnosis.heldBack) return { kind: 'nothing-seen', causes: [] };
  if (now.setting === 'overdone') return { kind: 'overdone', causes: [first] };
  if (now.setting === 'another') return { kind: 'another', causes: [first] };
  if (showsNothing(report)) return { kind: 'nothing-seen', causes: [] };
  if (failsUnderLoadAlone(report)) return { kind: 'under-load', causes: [first] };
  if (first.cause === 'no-fault' && unexplained) return { kind: 'unexplained', causes: [first] };
  if (first.cause === 'no-fault' && first.probability >= SOUND_FROM && !undecided)
    return { kind: 'sound', causes: [first] };
  if (isCured(report)) return { kind: 'cured', causes: [first] };
  if (shiftsWellSince?.putRight) return { kind: 'put-right', causes: [first] };
  if (now.setting === 'unsettled' && saysWhatItWas(report)) return { kind: 'unsettled', causes: [first] };
  if (first.cause !== 'no-fault' && !suggestion.namesCause) return { kind: 'unnamed', causes: [first] };
  if (undecided) {
    const weighed = (wanted: Weighed['cause'], other: Weighed): Weighed =>
      causes.find(({ cause }) => cause === wanted) ?? other;
    return { kind: 'open', causes: [weighed(undecided.between[0], first), weighed(undecided.between[1], second)] };
  }
  return first.probability >= NAMED_ALONE
    ? { kind: 'named', causes: [first] }
    : { kind: 'open', causes: [first, second] };
}

/** Whether easing off is all that is advised: trouble is gone with soft legs, nothing was turned against it, and no part is named. */
export const failsUnderLoadAlone = ({
  diagnosis: { riderPart, suggestion, now, shiftsWellSince },
}: Pick<Judged, 'diagnosis'>): boolean =>
  riderPart.goneWithSoftLegs && !suggestion.namesCause && now.setting === 'same' && !shiftsWellSince;

/** What was cured need not be known: of many faults that fit alike, all are gone. */
function isCured(report: Judged): boolean {
  const { cured, suggestion, weighed } = report.diagnosis;
  const turnsNothing = report.adjustments.length > 0 && cured && suggestion.parameter === 'none';
  return (
    turnsNothing &&
    (wasAFault(report) || mendedSomething(report)) &&
    (weighed.judgedShifts >= FEWEST_SHIFTS || saysWhatItWas(report))
  );
}

/** Not where it hangs on an assumption whether there was a fault at all: then nothing can have been cured for sure. */
const wasAFault = ({ diagnosis: { causes, undecided } }: Pick<Judged, 'diagnosis'>): boolean =>
  causes[0].cause !== 'no-fault' && !undecided?.between.includes('no-fault');

/** What made shifting better for sure mended something. */
const mendedSomething = ({ adjustments, diagnosis }: Judged): boolean => {
  const last = standingAdjustments({ adjustments }).at(-1);
  return last !== undefined && diagnosis.causes[0].cause !== 'no-fault' && helpedForSure(last);
};

const saysWhatItWas = (report: Pick<Judged, 'diagnosis'>): boolean =>
  wasAFault(report) && report.diagnosis.causes[0].probability >= NAMED_ALONE;

/** Whether what was wrong before the last adjustment is one cause and no other. */
export const wasOneCause = (report: Pick<Judged, 'diagnosis'>): boolean =>
  saysWhatItWas(report) && !report.diagnosis.undecided;

/** Whether no fault is as likely as none, though all together are, and no assumption turns that: a bike that shifts well, too little ridden to be sure. */
export const noneStandsOut = ({ kind, causes }: Verdict, { diagnosis }: Pick<Judged, 'diagnosis'>): boolean =>
  kind === 'open' && causes[0].cause === 'no-fault' && !diagnosis.undecided;

/** How the verdict of a report is marked: nothing is wrong, a part is at fault, or it is not known which of the two. */
export function verdictTone(report: Judged): 'good' | 'alarm' | 'open' {
  const { kind, causes } = verdictOf(report);
  if (report.diagnosis.unexplained && kind !== 'nothing-seen') return 'alarm';
  switch (kind) {
    case 'sound':
    case 'cured':
    case 'put-right':
      return 'good';
    case 'nothing-seen':
    case 'under-load':
    case 'unnamed':
    case 'unsettled':
      return 'open';
    case 'overdone':
    case 'another':
    case 'unexplained':
      return 'alarm';
    case 'named':
    case 'open':
      return causes.some(({ cause }) => cause === 'no-fault') ? 'open' : 'alarm';
  }
}
