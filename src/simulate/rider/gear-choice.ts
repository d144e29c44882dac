import type { SeededRandom } from '../../numeric/seeded-random.ts';
import { MissedShiftAnswer } from './missed-shift-answer.ts';
import type { PressPlan } from './press-plan.ts';
import type { RiderNature } from './rider-nature.ts';
import type { RiderActs, RiderSenses } from './rider-senses.ts';

/** Seconds of unease after which a rider shifts, at a strain that is just too much. */
const PATIENCE_S = 3.3;
/** Below this speed a rider is setting off and thinks of balance, not of gears, m/s. */
const SETTING_OFF_MPS = 0.9;
/** Share of shifts over several cogs that are made cog by cog, with a moment to feel each one, and that moment, s. */
const FEELING_SHARE = 0.3;
const feelingS = [1.3, 5] as const;
/** Time after a shift in which no other is thought of, s. */
const quietS = [1, 7] as const;
/** How far ahead a rider reckons with gaining or losing speed, s. */
const TREND_S = 3;

/** When, how far and in which rhythm the rider shifts: by the cadence felt, with some patience. */
export class GearChoice {
  private uneasyS = 0;
  private quietUntilS = 0;
  private avoidSmallestUntilS = 0;
  private avoidLargestUntilS = 0;
  private readonly answer: MissedShiftAnswer;

  constructor(
    private readonly nature: RiderNature,
    private readonly teeth: readonly number[],
    private readonly rings: readonly number[],
    private readonly plan: PressPlan,
    private readonly random: SeededRandom,
    startCog: number,
  ) {
    this.answer = new MissedShiftAnswer(plan, random, startCog);
  }

  /** Plans a shift by `steps` cogs (positive to larger), in a burst or cog by cog with a moment to feel each one. */
  ask(senses: RiderSenses, steps: number, delayS = 0): void {
    const { random, nature, plan } = this;
    const lowest = senses.timeS < this.avoidSmallestUntilS ? 1 : 0;
    const highest = senses.cogs - (senses.timeS < this.avoidLargestUntilS ? 2 : 1);
    const target = Math.max(lowest, Math.min(highest, senses.commandedCog + steps));
    if (Math.sign(target - senses.commandedCog) !== Math.sign(steps)) return;
    const count = Math.abs(target - senses.commandedCog);
    if (count === 0) return;
    const direction = Math.sign(steps);
    const feeling = random.chance(FEELING_SHARE);
    plan.add(senses.timeS + delayS, direction, count, () =>
      feeling ? random.between(...feelingS) : nature.pressIntervalS * random.between(0.6, 1.6),
    );
    let wanted = target;
    if (random.chance(0.06)) {
      // Now and then it was the wrong thing to do.
      plan.add(plan.endS + random.between(1, 2.2), -direction, 1, () => 0.3);
      wanted -= direction;
    }
    this.answer.expect(wanted, senses);
    this.uneasyS = 0;
    this.quietUntilS = plan.endS + random.between(...quietS);
  }

  /** The chain was put back by hand: whatever was wanted is forgotten. */
  forget(senses: RiderSenses): void {
    this.plan.clear();
    this.answer.expect(senses.commandedCog, senses);
    this.quietUntilS = senses.timeS + 4;
  }

  /** The chain went past an end cog: most riders keep away from that cog for a while. */
  bewareOf(senses: RiderSenses): void {
    if (this.random.chance(0.3)) return;
    const untilS = senses.timeS + this.random.between(600, 2400);
    if (senses.chainLost === 'past-largest') this.avoidLargestUntilS = untilS;
    if (senses.chainLost === 'past-smallest') this.avoidSmallestUntilS = untilS;
  }

  /** Called at each decision while riding. Returns ring steps to press. */
  decide(senses: RiderSenses, acts: RiderActs, dtS: number): number {
    if (senses.chainLost !== null) return 0;
    if (!this.plan.empty) {
      this.answer.stillPressing(senses);
      return 0;
    }
    if (acts.pedal === 'drive' && this.answer.decide(senses)) {
      this.quietUntilS = senses.timeS + 3;
      return 0;
    }
    if (senses.timeS < this.quietUntilS || senses.speedMps < SETTING_OFF_MPS) return 0;
    const strain = this.strain(senses, acts);
    const tolerated = this.nature.tolerance * this.stepTo(senses.driveCog, senses.driveCog - Math.sign(strain));
    if (strain === 0 || Math.abs(strain) < tolerated) {
      this.uneasyS = 0;
      return 0;
    }
    // While freewheeling a rider feels no cadence and shifts by habit, rarely; more often when the legs spun out before.
    const attention = acts.pedal === 'drive' ? 1 : strain > 0.25 ? 0.2 : 0.05;
    this.uneasyS += attention * dtS;
    if (this.uneasyS < PATIENCE_S / Math.min(3, Math.abs(strain) / tolerated)) return 0;
    return this.shift(senses, strain);
  }

  /** How far the cadence is from the wanted one, on the log scale; positive when the legs turn too fast. */
  private strain(senses: RiderSenses, acts: RiderActs): number {
    const climbing = Math.min(16, Math.max(0, senses.grade) * 170);
    const wanted = Math.max(52, this.nature.cadenceRpm - climbing - (acts.standing ? 13 : 0));
    const target = wanted * (senses.grade < -0.02 ? 1.06 : 1);
    const strain = Math.log(Math.max(20, senses.drivenCadenceRpm) / target);
    // What mends itself within some seconds is waited for: the first turns after a halt, the last of a fast stretch.
    const trend = (TREND_S * senses.accelerationMps2) / Math.max(1, senses.speedMps);
    return trend * strain < 0 ? Math.sign(strain) * Math.max(0, Math.abs(strain) - Math.abs(trend)) : strain;
  }

  private shift(senses: RiderSenses, strain: number): number {
    const direction = strain > 0 ? -1 : 1;
    const ringStep = this.ringStep(senses, direction);
    if (ringStep !== 0) {
      // A change of ring is answered by two cogs the other way.
      this.ask(senses, ringStep > 0 ? 2 : -2, 0.3);
      this.quietUntilS += 3;
      return ringStep;
    }
    let steps = 0;
    let left = Math.abs(strain);
    for (let cog = senses.driveCog; steps < 4; cog += direction, steps++) {
      const step = this.stepTo(cog, cog + direction);
      if (!Number.isFinite(step) || left < 0.6 * step) break;
      left -= step;
    }
    if (steps > 2 && this.random.chance(0.4)) steps = 2;
    this.ask(senses, direction * Math.max(1, steps));
    return 0;
  }

  private ringStep(senses: RiderSenses, direction: number): number {
    if (this.rings.length < 2 || senses.commandedCog !== senses.driveCog) return 0;
    const place = senses.driveCog / (senses.cogs - 1);
    if (direction > 0 && senses.ring > 0 && place > 0.7) return -1;
    if (direction < 0 && senses.ring < senses.rings - 1 && place < 0.3) return 1;
    return 0;
  }

  /** Size of the step between two cogs on the log scale, infinite past the ends. */
  private stepTo(from: number, to: number): number {
    if (to < 0 || to >= this.teeth.length) return Number.POSITIVE_INFINITY;
    return Math.abs(Math.log(this.teeth[to] / this.teeth[from]));
  }
}
