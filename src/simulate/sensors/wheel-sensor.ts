import { MagnetPasses } from './magnet-passes.ts';

/**
 * Speed as a device makes it from the wheel magnet's passes over the last second or so, with the rollout set in it.
 * Silent for over 2 s at walking pace and below, the speed sinks, then reads 0.
 *
 * `events` are times in seconds, rising; calls must come with rising `timeS`.
 */
export class WheelSensor {
  private readonly magnet: MagnetPasses;

  constructor(
    events: readonly number[],
    private readonly setRolloutM: number,
    windowS: number,
  ) {
    this.magnet = new MagnetPasses(events, windowS);
  }

  /** Speed at a moment, m/s. */
  readMps(timeS: number): number {
    const passes = this.magnet.until(timeS);
    if (!passes || passes.silentS > 3 || passes.spanS > 6) return 0;
    const speed = (passes.turns * this.setRolloutM) / passes.spanS;
    return Math.min(speed, this.setRolloutM / Math.max(passes.silentS, 1e-3));
  }
}
