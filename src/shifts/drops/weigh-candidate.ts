import { logistic } from '../../numeric/logistic.ts';
import type { DropCandidate, DropPattern, DropSign, MeasuredSign } from './drop-candidate.ts';
import { LEAST_SPIN } from './usual-cadence.ts';

/** A sign with what it adds to the log odds of a lost chain. */
export interface WeighedSign extends MeasuredSign {
  readonly logOdds: number;
}

/** A lost chain: record index, its signs, and their sum as log odds and as probability. */
export interface WeighedCandidate {
  readonly start: number;
  readonly signs: readonly WeighedSign[];
  readonly logOdds: number;
  readonly confidence: number;
}

type Weight = (value: number) => number;

const flat =
  (logOdds: number): Weight =>
  () =>
    logOdds;
const each =
  (logOdds: number, most: number): Weight =>
  (value) =>
    Math.min(most, logOdds * value);
const beyond =
  (limit: number, logOdds: number): Weight =>
  (value) =>
    value > limit ? logOdds : 0;
const from =
  (limit: number, logOdds: number): Weight =>
  (value) =>
    value >= limit ? logOdds : 0;

/** What signs weigh in one pattern. Those without a weight were asked for by the search already; they are told, and add nothing. */
interface PatternWeights {
  readonly beforehand: number;
  /** Fewer log odds than these, or as many, are too little. */
  readonly moreThan: number;
  readonly signs: Readonly<Partial<Record<DropSign, Weight>>>;
}

/** A halt this soon after the legs spun is the rider's answer to it, s. */
const SOON_S = 20;
/** Shorter halts are too short to put a chain back, longer ones longer than most at a junction, s. */
const SHORT_HALT_S = 20;
const LONG_HALT_S = 25;
/** A chain behind the largest cog is seldom freed sooner (common practice, no source), s. */
const VERY_LONG_HALT_S = 75;
/** A halt longer than this is a rest. */
const REST_S = 600;
/** A ratio this far below the end cog's, log share: legs that ran away, or a shift that had not come through when they stopped. */
const SHORT_OF_COG = 0.25;
/** So long on the end cog's ratio, s: the chain drove there. */
const REACHED_S = 2;
/** A bike that slows down more than this is braked for a stop that was meant, m/s². */
const BRAKED = 1.8;
/** Less likely than this a lost chain is not told of. */
const MIN_CONFIDENCE = 0.5;

const haltAtEnd: Readonly<Partial<Record<DropSign, Weight>>> = {
  'halts-so-often': Math.log,
  'cog-reached': from(REACHED_S, -2),
};

/** Halts too short to put a chain back, rests, and the ride's end speak for a stop that was meant. */
const longHalt =
  (leastS: number, logOdds: number): Weight =>
  (lastsS) =>
    lastsS < SHORT_HALT_S || lastsS === Number.POSITIVE_INFINITY
      ? -1
      : lastsS >= leastS && lastsS < REST_S
        ? logOdds
        : 0;

/**
 * Weights of the signs, in log odds (assumptions of ours; the sum decides, no single one can). Riders shift to larger cogs before a stop they
 * see coming, so past the largest only legs that run away tell. Nobody shifts to the smallest for a stop, but a bike rolls on longer there.
 */
const WEIGHTS: Readonly<Record<DropPattern, PatternWeights>> = {
  'low-ratio': {
    beforehand: -9,
    moreThan: Number.NEGATIVE_INFINITY,
    signs: {
      'legs-faster': each(25, 4),
      'legs-set-off-faster': each(25, 4),
      'records-below': each(1, 4),
      'past-gear': each(10, 3),
      'power-gone': flat(5),
      'power-there': flat(-20),
      'halt-lasts': flat(2),
      'no-halt': flat(-3),
      creeping: flat(-5),
      'end-cog-asked': flat(2),
      'end-cog-held': flat(2),
      'cadence-leaps': flat(-3),
    },
  },
  'free-spin': {
    beforehand: -5.5,
    moreThan: 1,
    signs: {
      'legs-past-usual': (times) => Math.min(4, 40 * (times - LEAST_SPIN)),
      'past-gear': each(4, 2),
      'halt-after': (afterS) => (afterS < SOON_S ? 1.5 : -1),
      'power-gone': flat(1),
      'single-reading': flat(-2),
      'end-cog-asked': flat(1.5),
      'end-cog-held': flat(1.5),
    },
  },
  'halt-at-largest': {
    beforehand: 0,
    moreThan: Number.NEGATIVE_INFINITY,
    signs: { 'legs-faster': each(12, 4), 'halt-lasts': longHalt(VERY_LONG_HALT_S, 1.5), ...haltAtEnd },
  },
  'halt-at-smallest': {
    beforehand: 0,
    moreThan: Number.NEGATIVE_INFINITY,
    signs: {
      'legs-faster': each(20, 1.5),
      'turned-in-vain': each(0.7, 4),
      'past-gear': beyond(SHORT_OF_COG, 1),
      'halt-lasts': longHalt(LONG_HALT_S, 1),
      braking: beyond(BRAKED, -2),
      ...haltAtEnd,
    },
  },
  'stop-on-largest': {
    beforehand: -1,
    moreThan: Number.NEGATIVE_INFINITY,
    signs: { 'asked-off-standing': flat(2.5), 'halt-lasts': longHalt(VERY_LONG_HALT_S, 1) },
  },
};

/** Signs with what each weighs in a pattern. */
export const weighSigns = (pattern: DropPattern, signs: readonly MeasuredSign[]): WeighedSign[] =>
  signs.map(({ sign, value }) => ({ sign, value, logOdds: WEIGHTS[pattern].signs[sign]?.(value) ?? 0 }));

/** Adds up the signs of a candidate; null where a lost chain is not likely enough by them. */
export function weighCandidate({ pattern, start, signs: measured }: DropCandidate): WeighedCandidate | null {
  const { beforehand, moreThan } = WEIGHTS[pattern];
  const signs: WeighedSign[] = [{ sign: 'beforehand', value: Number.NaN, logOdds: beforehand }];
  signs.push(...weighSigns(pattern, measured));
  const logOdds = signs.reduce((sum, one) => sum + one.logOdds, 0);
  const confidence = logistic(logOdds);
  return confidence >= MIN_CONFIDENCE && logOdds > moreThan ? { start, signs, logOdds, confidence } : null;
}
