import type { PlacedRide } from '../../adjustments/adjustment-periods.ts';
import type { Cause } from '../../diagnosis/causes.ts';
import type { CautionKind } from '../../diagnosis/next-step/caution.ts';
import type { Report } from '../report-schema.ts';
import { cautionsSaid } from './cautions-said.ts';
import { skipsSince } from './skips-since.ts';
import { stateDangers } from './state-dangers.ts';
import { stateReasons } from './state-reasons.ts';
import { stateSigns } from './state-signs.ts';
import { type StateWord, stateWord } from './state-word.ts';
import type { TroubleNow } from './trouble-now.ts';
import { type WorstCog, worstCog } from './worst-cog.ts';

/** The state of a bike in a word and a number, and why. Rates are of judged shifts; null where there is none. */
export interface BikeState {
  readonly word: StateWord;
  /** True while its first rides are being worked through: the word then says nothing of the bike. */
  readonly underWay: boolean;
  /** The likeliest cause, `no-fault` among them; null while there is too little data, and where none explains what goes wrong. */
  readonly topCause: Cause | null;
  /** Probability of that cause. */
  readonly probability: number | null;
  /** Probability that something is wrong now; null where no ride could be weighed. */
  readonly faultProbability: number | null;
  readonly reasons: readonly string[];
  /** Those of the reasons that speak of danger: to be said whatever the word is. */
  readonly dangers: readonly string[];
  /** The kinds of caution of the next step that the dangers say already, in words of their own. */
  readonly cautionsSaid: readonly CautionKind[];
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
  /** How often the chain skipped from that moment on: no shift that goes well shows wear. */
  readonly skips: number;
  /** How often the chain surely came off since the last adjustment and is not looked over since: no shift shows that either. */
  readonly chainsLost: number;
  /** The cog that stands out of that rate; null where none does. */
  readonly worstCog: WorstCog | null;
}

/**
 * The state of a bike by its report; by which rule, `stateWord` says.
 *
 * @param report null where no ride has been analysed
 * @param rides those that count for the bike, with all their shifts
 */
export function bikeState(report: Report | null, rides: readonly PlacedRide[]): BikeState {
  if (!report) return nothingYet;
  const signs = stateSigns(report, rides);
  const { trouble } = signs;
  const word = stateWord(signs);
  const known = word !== 'too little data' && !signs.heldBack && !signs.onlyUnexplained;
  const found = stateDangers(signs);
  const dangers = found.map(({ text }) => text);
  return {
    word,
    underWay: false,
    topCause: known ? signs.top.cause : null,
    probability: known ? signs.top.probability : null,
    faultProbability: signs.weighed.rides > 0 ? signs.fault : null,
    reasons: [...dangers, ...stateReasons(signs, word)],
    dangers,
    cautionsSaid: cautionsSaid(found),
    since: trouble.since,
    sinceAt: trouble.sinceAt,
    sinceAdjustment: trouble.since === 'last-adjustment',
    judgedShifts: trouble.shifts,
    judgedRides: trouble.rides,
    troubleRate: trouble.rate,
    low: trouble.low,
    high: trouble.high,
    skips: skipsSince(report, rides, trouble.sinceAt),
    chainsLost: signs.leftTheCassette.sure + signs.cameOffElsewhere.sure,
    worstCog: worstCog(report, rides, trouble),
  };
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
  cautionsSaid: [],
  since: 'first-ride',
  sinceAt: null,
  sinceAdjustment: false,
  judgedShifts: 0,
  judgedRides: 0,
  troubleRate: null,
  low: 0,
  high: 1,
  skips: 0,
  chainsLost: 0,
  worstCog: null,
};
