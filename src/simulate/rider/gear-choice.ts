import type { SeededRandom } from '../../numeric/seeded-random.ts';
import type { PressPlan } from './press-plan.ts';
import type { RiderNature } from './rider-nature.ts';
import type { RiderActs, RiderSenses } from './rider-senses.ts';

/**
 * When and how often the rider presses: by the cadence felt, with some patience, and again when the bike did not
 * answer. A missed shift is answered by a second push (and one back if the chain then jumps two), by going back and
 * trying again, or by waiting.
 */
export class GearChoice {
  private uneasyS = 0;
  private quietUntilS = 0;
  /** Cog the rider wants to be on; differs from the shifter's while a missed shift is being answered. */
  private wantedCog: number;
  private askedAtTurns = 0;
  private patienceTurns = 3;
  private answers = 0;

  constructor(
    private readonly nature: RiderNature,
    private readonly teeth: readonly number[],
    private readonly rings: readonly number[],
    private readonly plan: PressPlan,
    private readonly random: SeededRandom,
    startCog: number,
  ) {
    this.wantedCog = startCog;
  }

  /** Plans a burst and remembers what it is for. */
  ask(senses: RiderSenses, steps: number, delayS = 0): void {
    const target = Math.max(0, Math.min(senses.cogs - 1, senses.commandedCog + steps));
    const count = Math.abs(target - senses.commandedCog);
    if (count === 0) return;
    const { random, nature } = this;
    this.plan.add(
      senses.timeS + delayS,
      Math.sign(steps),
      count,
      () => nature.pressIntervalS * random.between(0.6, 1.6),
    );
    this.wantedCog = target;
    this.askedAtTurns = senses.crankTurns;
    this.patienceTurns = random.between(2, 5.5) + 0.4 * count;
    this.answers = 0;
    this.uneasyS = 0;
    this.quietUntilS = senses.timeS + delayS + (random.chance(0.3) ? random.between(0.7, 2) : random.between(2, 5));
  }

  /** The chain was put back by hand: whatever was wanted is forgotten. */
  forget(senses: RiderSenses): void {
    this.plan.clear();
    this.wantedCog = senses.commandedCog;
    this.quietUntilS = senses.timeS + 4;
  }

  /** Called at each decision while riding. Returns ring steps to press. */
  decide(senses: RiderSenses, acts: RiderActs, dtS: number): number {
    if (!this.plan.empty || senses.chainLost) return 0;
    if (acts.pedal === 'drive' && this.answerMissedShift(senses)) return 0;
    if (senses.timeS < this.quietUntilS) return 0;
    const target = this.targetCadence(senses, acts);
    const strain = Math.log(Math.max(20, senses.drivenCadenceRpm) / target);
    const next = strain > 0 ? senses.driveCog - 1 : senses.driveCog + 1;
    const step = this.stepTo(senses.driveCog, next);
    if (Math.abs(strain) < this.nature.tolerance * step) {
      this.uneasyS = 0;
      return 0;
    }
    // While freewheeling a rider feels no cadence and shifts by habit, rarely.
    this.uneasyS += acts.pedal === 'drive' ? dtS : 0.25 * dtS;
    const urgency = Math.min(3, Math.abs(strain) / (this.nature.tolerance * step));
    if (this.uneasyS < 2.2 / urgency) return 0;
    return this.chooseShift(senses, strain);
  }

  private chooseShift(senses: RiderSenses, strain: number): number {
    const { random } = this;
    const direction = strain > 0 ? -1 : 1;
    let steps = 0;
    let left = Math.abs(strain);
    let cog = senses.driveCog;
    while (steps < 4) {
      const step = this.stepTo(cog, cog + direction);
      if (!Number.isFinite(step) || left < 0.6 * step) break;
      left -= step;
      cog += direction;
      steps++;
    }
    steps = Math.max(1, steps);
    if (steps > 2 && random.chance(0.5)) steps = 2;
    const ringStep = this.ringStep(senses, direction);
    if (ringStep !== 0) {
      // A change of ring is answered by two cogs the other way.
      this.ask(senses, ringStep > 0 ? 2 : -2, 0.3);
      this.quietUntilS = senses.timeS + 5;
      return ringStep;
    }
    this.ask(senses, direction * steps);
    return 0;
  }

  private ringStep(senses: RiderSenses, direction: number): number {
    if (this.rings.length < 2 || senses.commandedCog !== senses.driveCog) return 0;
    const place = senses.driveCog / (senses.cogs - 1);
    if (direction > 0 && senses.ring > 0 && place > 0.7) return -1;
    if (direction < 0 && senses.ring < senses.rings - 1 && place < 0.3) return 1;
    return 0;
  }

  /** True when the rider is busy with a shift that did not come. */
  private answerMissedShift(senses: RiderSenses): boolean {
    const { random } = this;
    if (senses.driveCog === this.wantedCog) {
      if (senses.commandedCog !== this.wantedCog && this.answers > 0) {
        // The second push brought the chain where it was wanted first: leave it so, or bring the shifter back.
        if (random.chance(0.12)) {
          this.plan.add(senses.timeS + 0.3, Math.sign(this.wantedCog - senses.commandedCog), 1, () => 0.3);
          this.answers = 3;
          this.quietUntilS = senses.timeS + 3;
          return true;
        }
      }
      return false;
    }
    if (senses.commandedCog === senses.driveCog && this.answers === 0) return false;
    if (senses.crankTurns - this.askedAtTurns < this.patienceTurns || this.answers >= 3) return false;
    this.answers++;
    this.askedAtTurns = senses.crankTurns;
    this.patienceTurns = random.between(2, 6);
    const towards = Math.sign(this.wantedCog - senses.driveCog);
    const beyond = senses.commandedCog + towards;
    if (senses.commandedCog !== this.wantedCog) {
      // The chain followed the second push and went past: one back.
      this.plan.add(senses.timeS, Math.sign(this.wantedCog - senses.commandedCog), 1, () => 0.3);
      return true;
    }
    const pushAgain = random.chance(0.5) && beyond >= 0 && beyond < senses.cogs;
    if (pushAgain) this.plan.add(senses.timeS, towards, 1, () => 0.3);
    else if (random.chance(0.6)) {
      this.plan.add(senses.timeS, -towards, 1, () => 0.3);
      this.plan.add(senses.timeS + random.between(0.5, 2.5), towards, 1, () => 0.3);
    }
    this.quietUntilS = senses.timeS + 3;
    return true;
  }

  private targetCadence(senses: RiderSenses, acts: RiderActs): number {
    const climbing = Math.max(0, senses.grade) * 170;
    const wanted = this.nature.cadenceRpm - Math.min(16, climbing) - (acts.standing ? 13 : 0);
    return Math.max(52, wanted) * (senses.grade < -0.02 ? 1.06 : 1);
  }

  /** Size of the step between two cogs on the log scale, infinite past the ends. */
  private stepTo(from: number, to: number): number {
    if (to < 0 || to >= this.teeth.length) return Number.POSITIVE_INFINITY;
    return Math.abs(Math.log(this.teeth[to] / this.teeth[from]));
  }
}
