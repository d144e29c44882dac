import { MagnetPasses } from './magnet-passes.ts';

/**
 * Cadence as a device makes it from the crank magnet's passes: whole turns over the time they took. With no new pass
 * the value of many devices can only sink (no turn within t means less than 60 / t), others go on saying the last one (`repeats`);
 * after `holdS` it falls to 0. `windowS` is the span of past turns that the device averages over.
 *
 * `events` are times in seconds, rising; calls must come with rising `timeS`.
 */
export class CrankSensor {
  private readonly magnet: MagnetPasses;

  constructor(
    events: readonly number[],
    private readonly holdS: number,
    private readonly windowS: number,
    private readonly repeats = false,
  ) {
    this.magnet = new MagnetPasses(events, windowS);
  }

  /** Number of passes seen so far. */
  get passes(): number {
    return this.magnet.seen;
  }

  /** Rpm at a moment, not rounded. */
  readRpm(timeS: number): number {
    const passes = this.magnet.until(timeS);
    if (!passes || passes.silentS > this.holdS) return 0;
    const { silentS, turns, spanS, lastTurnS } = passes;
    // A span with a long rest in it says nothing about the last turns.
    const broken = spanS > 2.5 * Math.max(1.2, this.windowS);
    const usedS = broken ? lastTurnS : spanS;
    const rpm = usedS > 4 ? 0 : (60 * (broken ? 1 : turns)) / usedS;
    return this.repeats ? rpm : Math.min(rpm, 60 / Math.max(silentS, 1e-3));
  }
}
