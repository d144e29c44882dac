import type { SeededRandom } from '../../numeric/seeded-random.ts';

/**
 * The chain on the rings. A front shift waits for one of the ring's pick-up points and is slowed by load. A slack
 * chain on rough ground, freewheeling, can whip off the ring.
 */
export class FrontChain {
  ring: number;
  commanded: number;
  lost = false;
  private turnsLeft = 0;
  private whip = 0;

  constructor(
    readonly rings: number,
    startRing: number,
    private readonly loose: boolean,
    private readonly random: SeededRandom,
  ) {
    this.ring = startRing;
    this.commanded = startRing;
  }

  press(steps: number): number {
    const target = Math.max(0, Math.min(this.rings - 1, this.commanded + steps));
    const moved = target - this.commanded;
    this.commanded = target;
    if (moved !== 0) this.turnsLeft = this.random.between(0.25, 0.75);
    return moved;
  }

  step(crankTurns: number, tensionN: number, shake: number, dtS: number): void {
    if (this.ring !== this.commanded && !this.lost) {
      this.turnsLeft -= crankTurns / (1 + tensionN / 1500);
      if (this.turnsLeft <= 0) {
        this.ring += Math.sign(this.commanded - this.ring);
        this.turnsLeft = 0.5;
      }
    }
    if (!this.loose || tensionN > 60) return;
    this.whip += -4 * this.whip * dtS + shake * Math.sqrt(dtS) * this.random.normal();
    if (Math.abs(this.whip) > 1.25 && !this.lost) {
      this.lost = true;
      this.whip = 0;
    }
  }
}
