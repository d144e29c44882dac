import { lastHelpedForSure } from '../adjustments/helped-for-sure.ts';
import { FEWEST_SHIFTS } from '../diagnosis/fewest-shifts.ts';
import { NAMED_ALONE } from '../diagnosis/verdict-limits.ts';
import { hangsWhetherFault, noneIsLikely, noneLeads, standsAlone } from '../diagnosis/what-leads.ts';
import type { DiagnosisReport } from './diagnosis-report-schema.ts';
import type { Report } from './report-schema.ts';
import { showsNothing } from './shows-nothing.ts';

/**
 * What a report says of its bike, and the causes it speaks of, likeliest first. Text, page and API only put it into words. The kinds stand in the order in which they are asked for.
 *
 * - `nothing-seen`: no verdict is drawn (`diagnosis.heldBack`), or in what could be weighed no shift was judged and nothing else found; no cause
 * - `overdone`: an adjustment went past the mark, so that something else is wrong now (`diagnosis.now`); what was likeliest before it
 * - `another`: the fault is most likely gone, and the rides since the last adjustment name another by themselves (`diagnosis.anotherSince`); the first
 * - `under-load`: no part is named, and shifts go wrong under hard pedalling alone; the likeliest
 * - `unexplained`: a bike in order is likeliest, yet shifts go wrong in a place that no cause explains; `no-fault`
 * - `sound`: nothing points to a part, and no assumption turns that; `no-fault`
 * - `cured`: the rides since the last adjustment no longer show the fault; that fault
 * - `put-right`: a fault was as good as sure and the newest rides shift well since a logged adjustment that goes against it, though less was to be expected of it; the likeliest before them
 * - `not-shown`: the same where nothing that is logged goes against it: it did not show, which is not to say that it is gone
 * - `unsettled`: the rides since the last adjustment do not tell what became of the fault; that fault
 * - `unnamed`: a fault is likeliest, but the evidence is too thin to name it; that fault
 * - `open`: between two causes, since neither is likely enough or an assumption turns the verdict
 * - `named`: one cause stands alone
 */
export type Verdict =
  | { readonly kind: 'nothing-seen'; readonly causes: readonly [] }
  | { readonly kind: Exclude<Kind, 'nothing-seen' | 'open'>; readonly causes: readonly [Weighed] }
  | { readonly kind: 'open'; readonly causes: readonly [Weighed, Weighed] };
type Weighed = DiagnosisReport['causes'][number];

/** As much of a report as the verdict hangs on. */
type Judged = Pick<Report, 'diagnosis' | 'adjustments'>;

/** The kinds of verdict but `named`, each with what it asks for: the first that holds is the verdict. */
const kindsInOrder = [
  { kind: 'nothing-seen', holds: ({ diagnosis }) => Boolean(diagnosis.heldBack) },
  { kind: 'overdone', holds: ({ diagnosis }) => diagnosis.now.setting === 'overdone' },
  { kind: 'another', holds: ({ diagnosis }) => diagnosis.now.setting === 'another' },
  { kind: 'nothing-seen', holds: showsNothing },
  { kind: 'under-load', holds: failsUnderLoadAlone },
  { kind: 'unexplained', holds: ({ diagnosis }) => noneLeads(diagnosis.causes) && Boolean(diagnosis.unexplained) },
  { kind: 'sound', holds: isSound },
  { kind: 'cured', holds: isCured },
  { kind: 'put-right', holds: (report) => isPutRight(report) && Boolean(report.diagnosis.shiftsWellSince?.entryAt) },
  { kind: 'not-shown', holds: isPutRight },
  { kind: 'unsettled', holds: (report) => report.diagnosis.now.setting === 'unsettled' && saysWhatItWas(report) },
  { kind: 'unnamed', holds: ({ diagnosis }) => !noneLeads(diagnosis.causes) && !diagnosis.suggestion.namesCause },
  { kind: 'open', holds: ({ diagnosis: { causes, undecided } }) => !standsAlone(causes, undecided) },
] as const satisfies readonly { kind: string; holds: (report: Judged) => boolean }[];
type Kind = (typeof kindsInOrder)[number]['kind'] | 'named';

/** The verdict of a report. */
export function verdictOf(report: Judged): Verdict {
  const kind: Kind = kindsInOrder.find(({ holds }) => holds(report))?.kind ?? 'named';
  if (kind === 'nothing-seen') return { kind, causes: [] };
  return kind === 'open' ? { kind, causes: openBetween(report) } : { kind, causes: [report.diagnosis.causes[0]] };
}

/** The two that an assumption turns the verdict between, else the two likeliest. */
function openBetween({ diagnosis: { causes, undecided } }: Judged): readonly [Weighed, Weighed] {
  const weighed = (i: 0 | 1): Weighed => causes.find(({ cause }) => cause === undecided?.between[i]) ?? causes[i];
  return [weighed(0), weighed(1)];
}

/** Whether easing off is all that is advised: trouble is gone with soft legs, nothing was turned against it, and no part is named. */
export function failsUnderLoadAlone({ diagnosis }: Pick<Judged, 'diagnosis'>): boolean {
  const { riderPart, suggestion, now, shiftsWellSince } = diagnosis;
  return riderPart.goneWithSoftLegs && !suggestion.namesCause && now.setting === 'same' && !shiftsWellSince;
}

/** Whether nothing points to a part, and no assumption turns that. */
function isSound({ diagnosis: { causes, undecided } }: Judged): boolean {
  return noneIsLikely(causes) && !undecided;
}

/** Whether a fault was as good as sure and the newest rides shift well. */
function isPutRight({ diagnosis }: Judged): boolean {
  return Boolean(diagnosis.shiftsWellSince?.putRight);
}

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
  !noneLeads(causes) && !hangsWhetherFault(undecided);

/** What made shifting better for sure mended something. */
const mendedSomething = ({ adjustments, diagnosis: { causes } }: Judged): boolean =>
  !noneLeads(causes) && lastHelpedForSure(adjustments);

const saysWhatItWas = (report: Pick<Judged, 'diagnosis'>): boolean =>
  wasAFault(report) && report.diagnosis.causes[0].probability >= NAMED_ALONE;

/** Whether what was wrong before the last adjustment is one cause and no other. */
export const wasOneCause = (report: Pick<Judged, 'diagnosis'>): boolean =>
  saysWhatItWas(report) && !report.diagnosis.undecided;

/** Whether no fault is as likely as none, though all together are, and no assumption turns that: a bike that shifts well, too little ridden to be sure. */
export const noneStandsOut = ({ kind, causes }: Verdict, { diagnosis }: Pick<Judged, 'diagnosis'>): boolean =>
  kind === 'open' && noneLeads(causes) && !diagnosis.undecided;

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
    case 'not-shown':
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
