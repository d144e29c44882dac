import type { SeededRandom } from '../../numeric/seeded-random.ts';
import type { Place } from '../setting/terrain.ts';
import { GearChoice } from './gear-choice.ts';
import { Pacing } from './pacing.ts';
import type { PressPlan } from './press-plan.ts';
import type { RiderNature } from './rider-nature.ts';
import type { RiderActs, RiderSenses } from './rider-senses.ts';

type Phase = 'ride' | 'approach' | 'halt' | 'track-stand' | 'push' | 'notice-drop' | 'mend-chain' | 'hand-turn';

const EASY_BRAKE_MPS2 = 1.3;
/** Legs that lost their drive: some catch themselves at once, some run away, turns/s. */
const spinRps = [1.4, 2.4] as const;

/** Everything a rider does: the open road, junctions, halts, a track stand, a pushed bike, a chain to put back. */
export class Rider {
  readonly acts: RiderActs = {
    pedal: 'drive',
    powerW: 0,
    standing: false,
    softPart: 0.9,
    spinRps: 1.95,
    brakeMps2: 0,
    walkMps: Number.NaN,
    halted: false,
    refit: false,
    handTurned: false,
  };
  private phase: Phase = 'halt';
  private untilS = 3;
  private pushUntilM = 0;
  private crawledS = 0;
  private nextPlace = 0;
  private place: Place | null = null;
  private readonly gears: GearChoice;
  private readonly pacing: Pacing;

  constructor(
    nature: RiderNature,
    teeth: readonly number[],
    rings: readonly number[],
    plan: PressPlan,
    private readonly places: readonly Place[],
    startCog: number,
    private readonly random: SeededRandom,
  ) {
    this.gears = new GearChoice(nature, teeth, rings, plan, random, startCog);
    this.pacing = new Pacing(nature, random);
  }

  /** One decision; `dtS` since the last one. Returns ring steps to press now. */
  decide(senses: RiderSenses, dtS: number): number {
    const { acts } = this;
    acts.brakeMps2 = 0;
    acts.walkMps = Number.NaN;
    acts.halted = false;
    acts.refit = false;
    acts.handTurned = false;
    if (senses.chainLost !== null && this.phase !== 'notice-drop' && this.phase !== 'mend-chain') {
      this.phase = 'notice-drop';
      this.untilS = senses.timeS + this.random.between(1.2, 3.5);
      acts.spinRps = this.random.between(...spinRps);
      this.gears.bewareOf(senses);
    }
    switch (this.phase) {
      case 'ride':
        return this.openRoad(senses, dtS);
      case 'approach':
        this.approach(senses);
        return 0;
      case 'halt':
        this.stand(senses);
        return 0;
      case 'track-stand':
        this.trackStand(senses);
        return 0;
      case 'push':
        this.push(senses);
        return 0;
      case 'notice-drop':
        this.noticeDrop(senses);
        return 0;
      case 'mend-chain':
        this.mendChain(senses);
        return 0;
      case 'hand-turn':
        this.turnByHand(senses);
        return 0;
    }
  }

  private openRoad(senses: RiderSenses, dtS: number): number {
    const { acts } = this;
    this.pacing.ride(senses, acts, dtS);
    acts.softPart = 0.86 + 0.12 * ((senses.distanceM % 97) / 97);
    const ringSteps = this.gears.decide(senses, acts, dtS);
    const place = this.places[this.nextPlace];
    if (place && this.reachOf(place, senses) >= place.atM - senses.distanceM) this.meet(place, senses);
    this.crawledS = senses.speedMps < 0.6 && acts.pedal === 'drive' ? this.crawledS + dtS : 0;
    if (this.crawledS > 6) this.giveUp(senses);
    return ringSteps;
  }

  /** How far before a place the rider begins to act on it, m. */
  private reachOf(place: Place, senses: RiderSenses): number {
    if (place.kind === 'tunnel') return 0;
    return senses.speedMps ** 2 / (2 * EASY_BRAKE_MPS2) + 3.5 * senses.speedMps;
  }

  private meet(place: Place, senses: RiderSenses): void {
    this.nextPlace++;
    if (place.kind === 'tunnel') return;
    this.place = place;
    this.phase = 'approach';
    // Most riders go to an easier gear before a stop; some forget.
    if (this.random.chance(0.75)) {
      const steps = 1 + this.random.integer(4);
      const first = Math.min(2, steps);
      this.gears.ask(senses, first, this.random.between(0, 1.5));
      if (steps > first && senses.commandedCog + steps < senses.cogs)
        this.gears.ask(
          { ...senses, commandedCog: senses.commandedCog + first },
          steps - first,
          this.random.between(2, 3.5),
        );
    }
  }

  private approach(senses: RiderSenses): void {
    const { acts, random } = this;
    const place = this.place as Place;
    const left = Math.max(0.3, place.atM - senses.distanceM);
    const goingOn = place.kind === 'junction' && place.size === 0;
    const floorMps = goingOn ? 3.5 : 0;
    const needed = Math.max(0, senses.speedMps ** 2 - floorMps ** 2) / (2 * left);
    const early = needed < 0.55 * EASY_BRAKE_MPS2;
    acts.pedal = early && senses.speedMps > 2 ? 'soft' : 'coast';
    acts.softPart = 0.93;
    acts.brakeMps2 = early ? 0 : needed;
    if (goingOn && (left <= 0.5 || senses.speedMps < floorMps + 0.3)) this.phase = 'ride';
    else if (!goingOn && (senses.speedMps < 0.25 || left <= 0.35)) {
      if (place.kind === 'push') this.beginPush(senses, place.size);
      else if (place.kind === 'junction' && random.chance(0.2)) this.begin('track-stand', senses, random.between(2, 9));
      else this.begin('halt', senses, place.kind === 'break' ? place.size : 2 + random.exponential(14));
    }
  }

  private begin(phase: Phase, senses: RiderSenses, seconds: number): void {
    this.phase = phase;
    this.untilS = senses.timeS + seconds;
  }

  private stand(senses: RiderSenses): void {
    this.acts.pedal = 'coast';
    this.acts.brakeMps2 = 3;
    this.acts.halted = true;
    if (senses.timeS >= this.untilS) this.phase = 'ride';
  }

  /** Balancing on the spot: small turns of the crank, hardly any way made. */
  private trackStand(senses: RiderSenses): void {
    const { acts } = this;
    acts.pedal = Math.sin(3 * senses.timeS) > 0 ? 'drive' : 'coast';
    acts.standing = false;
    acts.powerW = 15;
    acts.brakeMps2 = senses.speedMps > 0.35 ? 2 : 0;
    if (senses.timeS >= this.untilS) this.phase = 'ride';
  }

  private beginPush(senses: RiderSenses, lengthM: number): void {
    this.phase = 'push';
    this.crawledS = 0;
    this.pushUntilM = senses.distanceM + lengthM;
  }

  private push(senses: RiderSenses): void {
    this.acts.pedal = 'coast';
    this.acts.walkMps = 1.15 + 0.15 * Math.sin(senses.timeS / 7);
    if (senses.distanceM >= this.pushUntilM) this.begin('halt', senses, this.random.between(2, 6));
  }

  /** The legs run into nothing for a moment, then stop; the bike rolls out. */
  private noticeDrop(senses: RiderSenses): void {
    const { acts } = this;
    acts.powerW = 10;
    if (senses.timeS < this.untilS) {
      acts.pedal = 'drive';
      return;
    }
    acts.pedal = 'coast';
    acts.brakeMps2 = 1;
    if (senses.speedMps < 0.3) this.begin('mend-chain', senses, this.random.between(18, 90));
  }

  private mendChain(senses: RiderSenses): void {
    const { acts } = this;
    acts.pedal = 'coast';
    acts.brakeMps2 = 3;
    acts.halted = true;
    if (senses.timeS < this.untilS) return;
    acts.refit = senses.chainLost !== null;
    this.gears.forget(senses);
    this.easierGearByHand(senses);
  }

  /** Stuck: too steep, then on foot; or too hard a gear to set off in. */
  private giveUp(senses: RiderSenses): void {
    this.crawledS = 0;
    if (senses.grade > 0.1 && senses.driveCog > 0.6 * senses.cogs) this.beginPush(senses, this.random.between(8, 30));
    else this.easierGearByHand(senses);
  }

  /** Lifts the wheel, presses to a middling gear and turns the crank until the chain is there. */
  private easierGearByHand(senses: RiderSenses): void {
    const wanted = Math.round((senses.grade > 0.04 ? 0.8 : 0.55) * (senses.cogs - 1));
    this.gears.ask(senses, wanted - senses.commandedCog, 0.5);
    this.begin('hand-turn', senses, 6);
  }

  private turnByHand(senses: RiderSenses): void {
    this.stand(senses);
    this.acts.handTurned = this.phase === 'hand-turn' && this.untilS - senses.timeS < 5;
  }
}
