import type { PlacedRide } from '../../src/adjustments/adjustment-periods.ts';
import { causeWords } from '../../src/diagnosis/cause-words.ts';
import type { Cause } from '../../src/diagnosis/causes.ts';
import { FEWEST_SHIFTS } from '../../src/diagnosis/fewest-shifts.ts';
import { counted } from '../../src/numeric/counted.ts';
import { figure } from '../../src/numeric/figure.ts';
import { percent } from '../../src/numeric/percent.ts';
import { upperFirst } from '../../src/numeric/upper-first.ts';
import type { Report } from '../../src/report/report-schema.ts';
import { ridesThatCount } from '../../src/report/rides-that-count.ts';
import { verdictOf } from '../../src/report/verdict-kind.ts';
import { verdictSentence } from '../../src/report/words/verdict-words.ts';
import { hasClock } from '../../src/ride-log/has-clock.ts';
import { type TroubleNow, troubleNow } from './trouble-now.ts';

/** The states, the one that needs a hand most first. */
export const stateOrder = ['service', 'watch', 'too little data', 'fine'] as const;
/** One of `stateOrder`. */
export type StateWord = (typeof stateOrder)[number];

/** The state of a bike in a word and a number, and why. Rates are of judged shifts; null where there is none. */
export interface BikeState {
  readonly word: StateWord;
  /** True while its first rides are being worked through: the word then says nothing of the bike. */
  readonly underWay: boolean;
  /** The likeliest cause, `no-fault` among them; null while there is too little data. */
  readonly topCause: Cause | null;
  readonly probability: number | null;
  /** Probability that something is wrong now; null where no ride could be weighed. */
  readonly faultProbability: number | null;
  readonly reasons: readonly string[];
  /** Those of the reasons that speak of danger: to be said whatever the word is. */
  readonly dangers: readonly string[];
  /** From when on shifts count for the rate, and when that was: see `troubleNow`. */
  readonly since: TroubleNow['since'];
  readonly sinceAt: string | null;
  /** True where that is the last adjustment. */
  readonly sinceAdjustment: boolean;
  readonly judgedShifts: number;
  /** Rides in which they were made. */
  readonly judgedRides: number;
  readonly troubleRate: number | null;
  readonly low: number;
  readonly high: number;
}

/**
 * Limits of the rule below. Assumptions of ours, chosen so that the sample bikes and healthy rides fall where a
 * mechanic would put them; none is from a source. How many judged shifts are enough, the diagnosis says.
 */
const rule = {
  /** Probability of a fault that sends a bike to the workshop. */
  service: 0.8,
  /** Probability of a fault that is worth keeping an eye on. */
  watch: 0.5,
  /** Trouble that no healthy bike shows: the low end of its interval lies above this. */
  troubleToWatch: 0.03,
  /** The same, so much that the bike needs service whatever the cause. */
  troubleToService: 0.15,
  /** Where no more than this share of the shifts went wrong, and nothing else, no fault shows, however likely all of them are together. */
  nextToNothing: 0.02,
  /** Such a bike is fine once trouble is surely below this; until then there is too little data. */
  fineBelow: 0.05,
  /** A chain that came off with at least this confidence counts. */
  sureDrop: 0.8,
  /** Probability of a bent hanger, on which a derailleur can reach the spokes, that is worth a warning. */
  bentHanger: 0.5,
};

/**
 * The rule, in order:
 *
 * 1. `service`: with enough judged shifts, a fault as likely as `service` says whose cause is named, or the low end of the trouble
 *    rate above `troubleToService`; or, with however few, a chain that left the cassette towards spokes or frame since the last adjustment,
 *    or an adjustment that went too far.
 * 2. `too little data`: fewer than `FEWEST_SHIFTS` judged shifts, or fewer that could be weighed.
 * 3. `fine`, or `too little data` until that is sure: no cause named and next to nothing gone wrong. The faults together may be likelier than none
 *    by what is taken for granted alone.
 * 4. `watch`: a fault at least as likely as `watch` says, or the low end of the trouble rate above `troubleToWatch`.
 * 5. `fine`: otherwise.
 *
 * A bike whose newest rides shift well though nothing logged accounts for it is watched, not sent to the workshop: what was done is to be
 * logged. A fault that the last adjustment cured counts only as far as it may still be there or past the mark. Where one went too far, what it
 * made of the fault is the cause that counts. What the trouble rate counts, `troubleNow` says.
 *
 * @param rides those that count for the bike, with all their shifts
 */
export function bikeState(report: Report | null, rides: readonly PlacedRide[]): BikeState {
  if (!report) return nothingYet;
  const signs = signsOf(report, troubleNow(report, rides));
  const { trouble } = signs;
  const word = wordFor(signs);
  const known = word !== 'too little data';
  const dangers = dangersOf(signs);
  return {
    word,
    underWay: false,
    topCause: known ? signs.top.cause : null,
    probability: known ? signs.top.probability : null,
    faultProbability: signs.weighed.rides > 0 ? signs.fault : null,
    reasons: [...dangers, ...reasonsFor(signs, word)],
    dangers,
    since: trouble.since,
    sinceAt: trouble.sinceAt,
    sinceAdjustment: trouble.since === 'last-adjustment',
    judgedShifts: trouble.shifts,
    judgedRides: trouble.rides,
    troubleRate: trouble.rate,
    low: trouble.low,
    high: trouble.high,
  };
}

type Actuation = Report['bike']['actuation'];
type Named = Pick<Report['diagnosis']['causes'][number], 'cause' | 'probability'>;

/** What the state of a bike hangs on. */
interface Signs {
  readonly actuation: Actuation;
  /** Probability that something is wrong now. */
  readonly fault: number;
  readonly noFault: number;
  /** The likeliest fault, however likely. */
  readonly topFault: Named | undefined;
  /** The likeliest of all, no fault among them. */
  readonly top: Named;
  /** The fault that the last adjustment seems to have cured. */
  readonly cured: Named | null;
  /** What an adjustment that went too far made of it. */
  readonly overdone: Named | null;
  /** The verdict where it is about the last adjustment: that it went too far, or that nobody knows yet what it did. */
  readonly aboutLast: string | null;
  /** From when on the newest rides shift well though no logged adjustment accounts for it; the likeliest fault before. */
  readonly wellSince: string | null;
  readonly trouble: TroubleNow;
  /** Whether enough shifts could be judged, and weighed. */
  readonly enough: boolean;
  readonly leftTheCassette: LostChain;
  readonly cameOffElsewhere: LostChain;
  readonly weighed: Report['diagnosis']['weighed'];
  readonly namesCause: boolean;
}

function signsOf(report: Report, trouble: TroubleNow): Signs {
  const { causes, stillThere, now, suggestion, shiftsWellSince, weighed } = report.diagnosis;
  const [likeliest] = causes;
  const noFault = causes.find(({ cause }) => cause === 'no-fault')?.probability ?? 0;
  const topFault = causes.find(({ cause }) => cause !== 'no-fault');
  const { kind } = verdictOf(report);
  const cured = kind === 'cured' ? likeliest : null;
  const overdone = kind === 'overdone' ? { cause: now.fault, probability: now.pastTheMark } : null;
  // a fault that was cured is one no longer, as far as it is no longer there and not past the mark
  const gone = cured ? cured.probability * Math.max(0, 1 - stillThere - now.pastTheMark) : 0;
  const fault = Math.max(overdone?.probability ?? 0, 1 - noFault - gone);
  return {
    actuation: report.bike.actuation,
    fault,
    noFault,
    topFault,
    top: overdone ?? (fault >= 0.5 && topFault ? topFault : { cause: 'no-fault', probability: 1 - fault }),
    cured,
    overdone,
    aboutLast: kind === 'overdone' || kind === 'unsettled' ? verdictSentence(report) : null,
    wellSince: kind === 'put-right' ? (shiftsWellSince?.at ?? null) : null,
    trouble,
    enough: trouble.shifts >= FEWEST_SHIFTS && weighed.judgedShifts >= FEWEST_SHIFTS,
    weighed,
    leftTheCassette: lostChain(report, towardsSpokesOrFrame),
    cameOffElsewhere: lostChain(report, (side) => !towardsSpokesOrFrame(side)),
    namesCause: suggestion.namesCause,
  };
}

/** True where the rides show no fault, though the priors of all together may outweigh that of none. */
function showsNoFault({ fault, namesCause, wellSince, cured, aboutLast, trouble, weighed }: Signs): boolean {
  if (fault < rule.watch || namesCause || wellSince || cured || aboutLast) return false;
  return weighed.events === 0 && (trouble.rate ?? 0) <= rule.nextToNothing && trouble.low <= rule.troubleToWatch;
}

function wordFor(signs: Signs): StateWord {
  const { fault, trouble, enough, leftTheCassette, namesCause, wellSince, overdone } = signs;
  // a bike whose fault cannot be named yet is watched; a named one needs hands even where there is nothing to turn
  const needsService = !wellSince && ((fault >= rule.service && namesCause) || trouble.low > rule.troubleToService);
  if (leftTheCassette.sure > 0 || overdone || (enough && needsService)) return 'service';
  if (!enough) return 'too little data';
  if (showsNoFault(signs)) return trouble.high < rule.fineBelow ? 'fine' : 'too little data';
  return fault >= rule.watch || trouble.low > rule.troubleToWatch ? 'watch' : 'fine';
}

function dangersOf({ actuation, topFault, cured, enough, leftTheCassette, cameOffElsewhere }: Signs): string[] {
  const dangers: string[] = [];
  if (leftTheCassette.sure > 0)
    dangers.push(`The chain left the cassette ${timesInWords(leftTheCassette)}: inspect before riding.`);
  if (cameOffElsewhere.sure > 0)
    dangers.push(
      `The chain came off the chainring, or nobody knows where, ${timesInWords(cameOffElsewhere)}: look over chain, chainring and chain guide before riding.`,
    );
  if (enough && !cured && topFault?.cause === 'hanger-bent' && topFault.probability >= rule.bentHanger)
    dangers.push(
      `${upperFirst(causeWords('hanger-bent', actuation).name)} (${percent(topFault.probability)}): the derailleur can reach the spokes. Keep off the largest cog until it is checked.`,
    );
  return dangers;
}

const timesInWords = ({ sure, unsure, since }: LostChain): string =>
  `${counted(sure, 'time')}${since}${unsure > 0 ? ` (and perhaps ${counted(unsure, 'time')} more)` : ''}`;

function reasonsFor(signs: Signs, word: StateWord): string[] {
  const { cured, trouble, enough, actuation } = signs;
  const unproven = enough && showsNoFault(signs);
  const reasons: string[] = [];
  if (!unproven) reasons.push(...faultReason(signs));
  if (trouble.low > rule.troubleToWatch)
    reasons.push(
      `${counted(trouble.count, 'shift')} of ${figure(trouble.shifts)} late, missed or overshot${sinceInWords[trouble.since]} (${percent(trouble.rate ?? 0)}).`,
    );
  if (cured) reasons.push(`It was ${nameOf(cured, actuation)}; the last adjustment seems to have cured it.`);
  if (word === 'too little data' && !enough) reasons.push(tooFew(signs));
  if (word === 'fine' || unproven)
    reasons.push(
      `${figure(trouble.count)} of ${figure(trouble.shifts)} judged shifts late, missed or overshot${unproven ? ': no sign of a fault, but not enough to rule faults out' : ''}.`,
    );
  return reasons;
}

const sinceInWords: Readonly<Record<TroubleNow['since'], string>> = {
  'first-ride': '',
  'last-adjustment': ' since the last adjustment',
  onset: ' since a fault began suddenly',
};

const nameOf = ({ cause }: Named, actuation: Actuation): string => causeWords(cause, actuation).name;

/** What is likeliest wrong, or was. A fault is called likely only where one of them is, not where many together are. */
function faultReason({ actuation, fault, noFault, topFault, wellSince, overdone, aboutLast, enough }: Signs): string[] {
  if (aboutLast && (overdone || enough)) return [aboutLast];
  if (!topFault) return [];
  const likeliest = `${nameOf(topFault, actuation)} (${percent(topFault.probability)})`;
  if (wellSince)
    return [
      `Since the ride of ${wellSince.slice(0, 10)} it shifts well, though no repair is logged that accounts for it; before, ${nameOf(topFault, actuation)} was likeliest (${percent(topFault.probability)}). Log what was done.`,
    ];
  if (!enough || fault < rule.watch) return [];
  return [
    topFault.probability > noFault
      ? `A fault is ${percent(fault)} likely; the likeliest is ${likeliest}.`
      : `No fault stands out: nothing mis-set (${percent(noFault)}) is likelier than any, the next is ${likeliest}.`,
  ];
}

function tooFew({ trouble, weighed }: Signs): string {
  if (trouble.shifts >= FEWEST_SHIFTS)
    return `${weighed.judgedShifts === 0 ? 'None' : `Only ${weighed.judgedShifts}`} of ${counted(trouble.shifts, 'judged shift')} could be weighed; ${FEWEST_SHIFTS} are needed.`;
  return `${trouble.shifts === 0 ? 'No shift' : `Only ${counted(trouble.shifts, 'shift')}`} could be judged; ${FEWEST_SHIFTS} are needed.`;
}

/** The state of a bike of which no ride has been analysed. */
export const nothingYet: BikeState = {
  word: 'too little data',
  underWay: false,
  topCause: null,
  probability: null,
  faultProbability: null,
  reasons: ['No ride has been analysed yet.'],
  dangers: [],
  since: 'first-ride',
  sinceAt: null,
  sinceAdjustment: false,
  judgedShifts: 0,
  judgedRides: 0,
  troubleRate: null,
  low: 0,
  high: 1,
};

type Drop = Report['rides'][number]['chainDrops'][number];

const towardsSpokesOrFrame = (side: Drop['side']): boolean => side === 'past-largest' || side === 'past-smallest';

/**
 * How often the chain came off since the last adjustment, surely and perhaps; `since` says so in words where it came off before as well.
 * What happened on a ride without a date counts: nobody knows that it was before.
 */
interface LostChain {
  readonly sure: number;
  readonly unsure: number;
  readonly since: string;
}

function lostChain(report: Report, counts: (side: Drop['side']) => boolean): LostChain {
  const lastAdjustment = report.adjustments.at(-1)?.at;
  const from = lastAdjustment ? Date.parse(lastAdjustment) : Number.NEGATIVE_INFINITY;
  const all = ridesThatCount(report)
    .flatMap(({ start, chainDrops }) => chainDrops.map((drop) => ({ ...drop, dated: hasClock(Date.parse(start)) })))
    .filter(({ side }) => counts(side));
  const recent = all.filter(({ at, dated }) => !dated || Date.parse(at) >= from);
  const sure = recent.filter(({ confidence }) => confidence >= rule.sureDrop).length;
  return {
    sure,
    unsure: recent.length - sure,
    since: recent.length < all.length ? sinceWords(recent.some(({ dated }) => !dated)) : '',
  };
}

const sinceWords = (undated: boolean): string =>
  ` since the last adjustment${undated ? ' or on a ride without a date' : ''}`;
