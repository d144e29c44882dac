import { cogCell, LOAD_BINS, outcomes } from '../evidence/evidence-table.ts';
import { emptyRates, fillRates } from '../imagined-bike/pulley-rates.ts';
import type { CauseModel } from '../likelihood/cause-model.ts';
import type { Particle } from './particles.ts';

/** Shifts that may be ridden: onto a cog (cassette index) in a direction, soft or firm on the pedals, this often. */
export interface PlannedShifts {
  readonly cog: number;
  readonly larger: boolean;
  readonly firm: boolean;
  readonly count: number;
}

/** What each particle expects of shifts yet to be ridden. Arrays over particles. */
export interface Expectation {
  readonly trouble: Float64Array;
  readonly drop: Float64Array;
}

/** Looks ahead from the bikes that the evidence has left standing, as they are after the last adjustment. */
export class LookAhead {
  private readonly outcome: Float64Array[];
  private readonly drops: Float64Array[];
  readonly skipsPerHour: Float64Array;

  constructor(
    readonly particles: readonly Particle[],
    private readonly model: CauseModel,
  ) {
    const { cassetteLength } = model.bike;
    const rates = emptyRates(cassetteLength, [0, 2], new Uint8Array(2 * cassetteLength).fill(1));
    this.skipsPerHour = new Float64Array(particles.length);
    this.outcome = [];
    this.drops = [];
    particles.forEach(({ now }, i) => {
      fillRates(now, model.usage, rates);
      this.outcome.push(rates.outcome.slice());
      this.drops.push(rates.drop.slice());
      this.skipsPerHour[i] = Math.max(...rates.skipPerS) * 3600;
    });
  }

  /** Trouble and drop probabilities of one shift, for each particle. */
  expect({ cog, larger, firm }: Omit<PlannedShifts, 'count'>): Expectation {
    const { cassetteLength } = this.model.bike;
    const place = (cogCell(cassetteLength, larger, cog) * LOAD_BINS + (firm ? 2 : 0)) * outcomes.length;
    const end = larger && cog === cassetteLength - 1 ? 0 : !larger && cog === 0 ? 1 : 2;
    return {
      trouble: Float64Array.from(this.outcome, (chances) => Math.min(0.999, Math.max(0.001, 1 - chances[place]))),
      drop: Float64Array.from(this.drops, (drop) => Math.min(0.9, drop[end])),
    };
  }
}
