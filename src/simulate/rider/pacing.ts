import type { SeededRandom } from '../../numeric/seeded-random.ts';
import type { RiderNature } from './rider-nature.ts';
import type { RiderActs, RiderSenses } from './rider-senses.ts';

/** How hard the rider pedals on the open road, and when not at all: effort, standing, freewheeling, soft pedalling, braking. */
export class Pacing {
  private mood = 0;
  private spellUntilS = 0;
  private spell: 'none' | 'coast' | 'soft' = 'none';
  private standUntilS = 0;

  constructor(
    private readonly nature: RiderNature,
    private readonly random: SeededRandom,
  ) {}

  /** Fills in the acts for `dtS` seconds of open road. */
  ride(senses: RiderSenses, acts: RiderActs, dtS: number): void {
    const { nature, random } = this;
    this.mood += -0.03 * this.mood * dtS + 0.05 * Math.sqrt(dtS) * random.normal();
    const slopeFactor = Math.max(0.55, Math.min(1.45, 1 + 5 * senses.grade));
    acts.powerW = nature.basePowerW * slopeFactor * Math.max(0.4, 1 + this.mood);
    this.stand(senses, acts, dtS);
    this.drawSpell(senses, dtS);
    const spinningOut = Math.min(senses.drivenCadenceRpm, senses.askedCadenceRpm) > nature.cadenceRpm + 28;
    const tooFast = senses.speedMps > senses.speedLimitMps;
    acts.brakeMps2 = tooFast ? Math.min(3, 0.4 + 0.6 * (senses.speedMps - senses.speedLimitMps)) : 0;
    if (tooFast || spinningOut) {
      // Nobody takes the pedals up again for a moment only.
      this.spell = 'coast';
      this.spellUntilS = Math.max(this.spellUntilS, senses.timeS + this.random.between(1, 4));
    }
    if (tooFast || spinningOut) acts.pedal = 'coast';
    else if (this.spell === 'coast') acts.pedal = 'coast';
    else if (this.spell === 'soft') acts.pedal = 'soft';
    else acts.pedal = 'drive';
  }

  private stand(senses: RiderSenses, acts: RiderActs, dtS: number): void {
    if (senses.timeS < this.standUntilS) {
      acts.standing = true;
      acts.powerW *= 1.3;
      return;
    }
    acts.standing = false;
    const rate = (this.nature.standsPerMinute / 60) * (1 + 40 * Math.max(0, senses.grade));
    if (this.random.chance(rate * dtS)) this.standUntilS = senses.timeS + this.random.between(4, 18);
  }

  private drawSpell(senses: RiderSenses, dtS: number): void {
    const { random, nature } = this;
    if (senses.timeS < this.spellUntilS) return;
    this.spell = 'none';
    const downhill = senses.grade < -0.025 ? 3 : senses.grade > 0.03 ? 0.3 : 1;
    if (random.chance((nature.coastsPerMinute / 60) * downhill * dtS)) {
      this.spell = 'coast';
      this.spellUntilS = senses.timeS + 1 + random.exponential(downhill > 1 ? 7 : 3);
    } else if (random.chance((0.35 / 60) * dtS)) {
      this.spell = 'soft';
      this.spellUntilS = senses.timeS + random.between(2, 7);
    }
  }
}
