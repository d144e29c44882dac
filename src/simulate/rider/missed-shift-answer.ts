import type { SeededRandom } from '../../numeric/seeded-random.ts';
import type { PressPlan } from './press-plan.ts';
import type { RiderSenses } from './rider-senses.ts';

/** What a rider does when the bike does not answer. A second push (and one back if the chain then goes too far), back and again, or nothing. */
export class MissedShiftAnswer {
  private askedAtTurns = 0;
  private patienceTurns = 3;
  private answers = 0;

  constructor(
    private readonly plan: PressPlan,
    private readonly random: SeededRandom,
    private wantedCog: number,
  ) {}

  /** A shift was asked for that should end on `cog`. */
  expect(cog: number, senses: RiderSenses): void {
    this.wantedCog = cog;
    this.askedAtTurns = senses.crankTurns;
    this.patienceTurns = this.random.between(2.2, 6);
    this.answers = 0;
  }

  /** Presses are still to come: patience begins after the last one. */
  stillPressing(senses: RiderSenses): void {
    this.askedAtTurns = senses.crankTurns;
  }

  /** Plans the answer to a shift that did not come; true when it did so. Call while the rider drives. */
  decide(senses: RiderSenses): boolean {
    const { plan, random } = this;
    const settled = senses.driveCog === this.wantedCog;
    if (settled && senses.commandedCog === this.wantedCog) {
      // patience begins anew when the chain leaves the cog by itself
      this.askedAtTurns = senses.crankTurns;
      return false;
    }
    if (senses.crankTurns - this.askedAtTurns < this.patienceTurns || this.answers >= 3) return false;
    this.answers++;
    this.askedAtTurns = senses.crankTurns;
    this.patienceTurns = random.between(2, 6);
    const press = (step: number, delayS = 0): void => plan.add(senses.timeS + delayS, step, 1, () => 0.3);
    if (senses.commandedCog !== this.wantedCog) {
      // A second push has done it. If the chain sits right, most leave the shifter alone; if it went past, one back.
      if (settled && random.chance(0.8)) this.wantedCog = senses.commandedCog;
      else press(Math.sign(this.wantedCog - senses.commandedCog));
      return true;
    }
    const towards = Math.sign(this.wantedCog - senses.driveCog);
    const beyond = senses.commandedCog + towards;
    if (random.chance(0.5) && beyond >= 0 && beyond < senses.cogs) press(towards);
    else if (random.chance(0.6)) {
      press(-towards);
      press(towards, random.between(0.5, 2.5));
    }
    return true;
  }
}
