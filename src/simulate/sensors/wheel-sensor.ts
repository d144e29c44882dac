/**
 * Speed as a device makes it from the wheel magnet's passes over the last second or so, with the rollout set in it.
 * Silent for over 2 s at walking pace and below, the speed sinks, then reads 0.
 *
 * `events` are times in seconds, rising; calls must come with rising `timeS`.
 */
export class WheelSensor {
  private latest = -1;

  constructor(
    private readonly events: readonly number[],
    private readonly setRolloutM: number,
    private readonly windowS: number,
  ) {}

  /** Speed at a moment, m/s. */
  readMps(timeS: number): number {
    const { events } = this;
    while (this.latest + 1 < events.length && events[this.latest + 1] <= timeS) this.latest++;
    if (this.latest < 1) return 0;
    const silentS = timeS - events[this.latest];
    if (silentS > 3) return 0;
    let first = this.latest - 1;
    while (first > 0 && events[this.latest] - events[first] < this.windowS) first--;
    const spanS = events[this.latest] - events[first];
    if (spanS > 6) return 0;
    const speed = ((this.latest - first) * this.setRolloutM) / spanS;
    return Math.min(speed, this.setRolloutM / Math.max(silentS, 1e-3));
  }
}
