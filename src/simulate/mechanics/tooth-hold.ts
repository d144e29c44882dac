import type { SeededRandom } from '../../numeric/seeded-random.ts';

/** Chain tension that sound teeth hold whatever the chain does, N, and the part of it that full wear takes away. */
const SOUND_HOLD_N = 6500;
const WEAR_TAKES = 0.93;

/** Teeth under a worn chain: they hold until the tension is too much for their wear, then the chain rides up and slips. */
export class ToothHold {
  /** Seconds of slipping still to come; above 0 the drive does not hold. */
  slippingS = 0;
  private restS = 0;

  constructor(
    private readonly wear: Float64Array,
    private readonly random: SeededRandom,
  ) {}

  /** True at the moment a slip begins. */
  step(dtS: number, cog: number, tensionN: number): boolean {
    this.restS -= dtS;
    if (this.slippingS > 0) {
      this.slippingS -= dtS;
      return false;
    }
    const hold = SOUND_HOLD_N * (1 - WEAR_TAKES * this.wear[cog]) * (1 + 0.05 * this.random.normal());
    if (tensionN < hold || this.restS > 0) return false;
    this.slippingS = this.random.between(0.12, 0.5);
    // Having felt it, nobody pushes as hard at once.
    this.restS = this.random.between(2.5, 8);
    return true;
  }
}
