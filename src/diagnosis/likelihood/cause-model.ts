import { logSumExp } from '../../numeric/log-sum-exp.ts';
import { type Cause, causes } from '../causes.ts';
import type { RidingEvidence } from '../evidence/build-evidence.ts';
import { LOAD_BINS, outcomes } from '../evidence/evidence-table.ts';
import { adjustSetup } from '../imagined-bike/adjust-setup.ts';
import { type Draw, readDraw } from '../imagined-bike/draw.ts';
import { faultySetup } from '../imagined-bike/faulty-setup.ts';
import { healthySetup } from '../imagined-bike/healthy-setup.ts';
import { emptyRates, fillRates, type PulleyRates } from '../imagined-bike/pulley-rates.ts';
import type { Setup } from '../imagined-bike/setup.ts';
import { foundRightLogs } from './found-right-logs.ts';
import { changes, type OnsetOption, onsetLogPriors, onsetOptions } from './onset-options.ts';
import { type PreparedSegment, prepareSegments } from './prepare-segments.ts';
import { segmentLogLikelihood } from './segment-likelihood.ts';
import { overStrayReadings, strayReadings } from './stray-cog.ts';

/** The bike, as far as the model needs it. */
export interface ModelBike {
  readonly cassetteLength: number;
  readonly cogPitchMm: number;
  readonly electronic: boolean;
}

/** One imagined bike: its draw, how it is when healthy, and how likely the evidence of each segment then is, in each reading of its cogs (segment by segment). */
interface ImaginedBike {
  readonly draw: Draw;
  readonly healthy: Setup;
  readonly healthyLog: Float64Array;
  /** The same as what was turned since its first ride moves it: a bike in order is put out by a wrong turn. */
  readonly turnedLog: Float64Array;
}

/** Usage of each cog over all segments, the most used one at 1. */
function cogUsage(evidence: RidingEvidence, cassetteLength: number): Float64Array {
  const usage = new Float64Array(cassetteLength);
  for (const segment of evidence.segments)
    for (let cog = 0; cog < cassetteLength; cog++) usage[cog] += segment.pedallingS[cog];
  const most = Math.max(...usage, 1e-9);
  return usage.map((value) => Math.max(1e-3, value / most));
}

/** Room for the rates of the cogs, directions and loads that occur in the evidence. */
function ratesFor(evidence: RidingEvidence, cassetteLength: number): PulleyRates {
  const used = new Uint8Array(2 * cassetteLength);
  const loads = new Set<number>();
  for (const { shifts } of evidence.segments)
    shifts.forEach((count, place) => {
      if (count === 0) return;
      const cellAndLoad = Math.floor(place / outcomes.length);
      used[Math.floor(cellAndLoad / LOAD_BINS)] = 1;
      loads.add(cellAndLoad % LOAD_BINS);
    });
  return emptyRates(cassetteLength, [...loads], used);
}

/** The setup halfway between healthy and faulty. */
function halfway(healthy: Setup, faulty: Setup): Setup {
  const middle = { ...faulty };
  for (const key of Object.keys(faulty) as (keyof Setup)[]) middle[key] = (healthy[key] + faulty[key]) / 2;
  middle.pivot = faulty.pivot;
  return middle;
}

/** A fault is not looked at as one that grows where each way of growing is less likely beforehand than this: it would cost much and change little. */
const HARDLY_GROWS = 0.02;

/** Likelihood of the evidence for imagined bikes with any cause's fault, begun in any way. */
export class CauseModel {
  readonly options: readonly OnsetOption[];
  private readonly prepared: readonly PreparedSegment[];
  private readonly priors: readonly Float64Array[];
  private readonly lookLogs: readonly Float64Array[];
  /** Share of pedalling on each cog, the most used one at 1. */
  readonly usage: Float64Array;
  private readonly rates: PulleyRates;
  private readonly readings: number;
  private readonly fullLog: readonly Float64Array[];
  private readonly halfLog: Float64Array;
  /** Scratch: sums over the segments in each reading. */
  private readonly sums: Float64Array;

  constructor(
    readonly evidence: RidingEvidence,
    readonly bike: ModelBike,
  ) {
    const { segments, groups } = evidence;
    this.prepared = prepareSegments(segments, evidence.revSpread);
    this.options = onsetOptions(segments.filter(({ placed }) => placed));
    this.priors = causes.map((cause) => onsetLogPriors(cause, this.options, segments, groups));
    this.lookLogs = causes.map((cause) => foundRightLogs(cause, this.options, evidence));
    this.usage = cogUsage(evidence, bike.cassetteLength);
    this.rates = ratesFor(evidence, bike.cassetteLength);
    this.readings = strayReadings(bike.cassetteLength);
    this.fullLog = Array.from({ length: groups.length + 1 }, () => new Float64Array(segments.length * this.readings));
    this.halfLog = new Float64Array(segments.length * this.readings);
    this.sums = new Float64Array(this.readings);
  }

  /** The bike that a point of the unit cube stands for. */
  imagine(points: Float64Array, row: number): ImaginedBike {
    const draw = readDraw(points, row);
    const healthy = healthySetup(draw, this.bike.cogPitchMm, this.bike.electronic);
    fillRates(healthy, this.usage, this.rates);
    const healthyLog = new Float64Array(this.prepared.length * this.readings);
    this.prepared.forEach((one, s) => {
      segmentLogLikelihood(one, this.rates, healthyLog, s * this.readings);
    });
    const turnedLog = healthyLog.slice();
    const { segments } = this.evidence;
    const firstTurned = segments.find(({ placed, period }) => placed && this.isTurnedBy(period))?.period;
    if (firstTurned !== undefined)
      this.fillPeriods(firstTurned, turnedLog, (period) => this.setupInOrder({ draw, healthy }, period));
    return { draw, healthy, healthyLog, turnedLog };
  }

  /** Whether anything was turned between the first ride and a period. */
  private isTurnedBy(period: number): boolean {
    const firstRidden = this.evidence.segments[0]?.period ?? 0;
    return this.evidence.groups
      .slice(firstRidden, period)
      .some(({ adjustments }) => adjustments.some(({ amount }) => amount !== null && amount !== 0));
  }

  /** The setup in a period of a bike that was in order at its first ride. */
  setupInOrder(bike: Pick<ImaginedBike, 'draw' | 'healthy'>, period: number): Setup {
    return this.setupInPeriod(bike.healthy, bike, 0, period);
  }

  /**
   * The setup in a period when the fault was there from the period `since` on: the adjustments between have moved it. A fault is as large as
   * the first rides found it, so what was turned before them moves nothing; a part that was replaced before them is still a new one.
   */
  setupInPeriod(faulty: Setup, bike: Pick<ImaginedBike, 'draw' | 'healthy'>, since: number, period: number): Setup {
    if (since >= period) return faulty;
    const firstRidden = this.evidence.segments[0]?.period ?? 0;
    const moved = { ...faulty };
    for (let group = since; group < period; group++)
      for (const adjustment of this.evidence.groups[group].adjustments)
        if (group >= firstRidden || adjustment.amount === null) adjustSetup(moved, bike.healthy, adjustment, bike.draw);
    return moved;
  }

  /** Period in which the fault of an onset option is first there. */
  firstPeriod(option: OnsetOption): number {
    return option.kind === 'sudden' ? this.evidence.segments[option.fullFrom].period : 0;
  }

  /**
   * The setup in a segment, for a bike whose fault began in a given way; `faulty` as the fault was when it had just come. A segment without
   * a place in the order of time may have it.
   */
  setupInSegment(faulty: Setup, bike: Pick<ImaginedBike, 'draw' | 'healthy'>, onset: OnsetOption, at: number): Setup {
    const { period, placed } = this.evidence.segments[at];
    if (!placed) return faulty;
    if (at < onset.halfFrom) return this.setupInOrder(bike, period);
    if (at >= onset.goneFrom) return bike.healthy;
    if (at < onset.fullFrom) return this.setupInPeriod(halfway(bike.healthy, faulty), bike, 0, period);
    return this.setupInPeriod(faulty, bike, this.firstPeriod(onset), period);
  }

  /** Log likelihood, looks that found a part right and the prior of the onset included, for each way the fault can begin. A healthy bike has but the first. */
  onsetLogLikelihoods(cause: Cause, bike: ImaginedBike): Float64Array {
    const logs = new Float64Array(this.options.length).fill(Number.NEGATIVE_INFINITY);
    if (cause === 'no-fault') {
      logs[0] = this.overSegments((at) => bike.turnedLog[at]);
      return logs;
    }
    const prior = this.priors[causes.indexOf(cause)];
    const looked = this.lookLogs[causes.indexOf(cause)];
    const faulty = faultySetup(cause, bike.draw, bike.healthy);
    for (let since = 0; since <= this.evidence.groups.length; since++)
      this.fillPeriods(since, this.fullLog[since], (period) => this.setupInPeriod(faulty, bike, since, period));
    const gradual = this.options.some((option, i) => option.kind === 'gradual' && prior[i] > Math.log(HARDLY_GROWS));
    if (gradual) {
      const half = halfway(bike.healthy, faulty);
      this.fillPeriods(0, this.halfLog, (period) => this.setupInPeriod(half, bike, 0, period));
    }
    this.options.forEach((option, i) => {
      if (option.kind === 'gradual' && !gradual) return;
      const full = this.fullLog[this.firstPeriod(option)];
      const all = this.overSegments((at, s) => this.segmentLog(s, at, option, bike, full));
      logs[i] = prior[i] + looked[i] + all;
    });
    return logs;
  }

  /** Log likelihood of all segments together. `logAt`: that of a segment `s` in one reading, which stand at `at` in the arrays of them all. */
  private overSegments(logAt: (at: number, s: number) => number): number {
    const sums = this.sums.fill(0);
    for (let s = 0; s < this.prepared.length; s++)
      for (let h = 0; h < sums.length; h++) sums[h] += logAt(s * sums.length + h, s);
    return overStrayReadings(sums);
  }

  /** Log likelihood of one segment under a way to begin. One without a place in the order of time is as likely of before as of after a change. */
  private segmentLog(
    s: number,
    at: number,
    option: OnsetOption,
    { healthyLog, turnedLog }: ImaginedBike,
    full: Float64Array,
  ): number {
    if (!this.prepared[s].segment.placed)
      return changes(option) ? logSumExp([healthyLog[at], full[at]]) - Math.LN2 : full[at];
    if (s < option.halfFrom) return turnedLog[at];
    if (s >= option.goneFrom) return healthyLog[at];
    return s < option.fullFrom ? this.halfLog[at] : full[at];
  }

  /** Log likelihood of every segment from period `since` on, with the setup of its period. */
  private fillPeriods(since: number, into: Float64Array, setupOf: (period: number) => Setup): void {
    let filled = -1;
    this.prepared.forEach((one, s) => {
      const { period } = one.segment;
      if (period < since) return;
      if (period !== filled) fillRates(setupOf(period), this.usage, this.rates);
      filled = period;
      segmentLogLikelihood(one, this.rates, into, s * this.readings);
    });
  }
}
