/**
 * Cadence as a device makes it from the crank magnet's passes: whole turns over the time they took. With no new pass
 * the value of many devices can only sink (no turn within t means less than 60 / t), others go on saying the last one (`repeats`);
 * after `holdS` it falls to 0. `windowS` is the span of past turns that the device averages over.
 *
 * `events` are times in seconds, rising; calls must come with rising `timeS`.
 */
export class CrankSensor {
  private latest = -1;

  constructor(
    private readonly events: readonly number[],
    private readonly holdS: number,
    private readonly windowS: number,
    private readonly repeats = false,
  ) {}

  /** Number of passes seen so far. */
  get passes(): number {
    return this.latest + 1;
  }

  /** Rpm at a moment, not rounded. */
  readRpm(timeS: number): number {
    const { events } = this;
    while (this.latest + 1 < events.length && events[this.latest + 1] <= timeS) this.latest++;
    if (this.latest < 1) return 0;
    const silentS = timeS - events[this.latest];
    if (silentS > this.holdS) return 0;
    let first = this.latest - 1;
    while (first > 0 && events[this.latest] - events[first] < this.windowS) first--;
    const spanS = events[this.latest] - events[first];
    // A span with a long rest in it says nothing about the last turns.
    const broken = spanS > 2.5 * Math.max(1.2, this.windowS);
    const turns = broken ? 1 : this.latest - first;
    const usedS = broken ? events[this.latest] - events[this.latest - 1] : spanS;
    const rpm = usedS > 4 ? 0 : (60 * turns) / usedS;
    return this.repeats ? rpm : Math.min(rpm, 60 / Math.max(silentS, 1e-3));
  }
}
