import type { PedalMode } from '../rider/pedal-mode.ts';

/** What acts on bike and rider in one step. */
export interface StepForces {
  pedal: PedalMode;
  /** Mean crank torque the rider puts in while driving, Nm. */
  torqueNm: number;
  /** Soft pedalling: crank speed as part of the driven one. */
  softPart: number;
  /** How fast the legs spin where nothing holds them, turns/s. */
  spinRps: number;
  /** Wheel turns a crank turn. */
  gear: number;
  /** The chain is on and the teeth hold. */
  holds: boolean;
  grade: number;
  rollingCoefficient: number;
  brakeMps2: number;
  /** On foot beside the bike: the walking speed; NaN while riding. */
  walkMps: number;
  /** The rear wheel is lifted at a halt and the crank turned by hand: the chain runs, the bike does not. */
  handTurned: boolean;
}

const GRAVITY_MPS2 = 9.81;
const AIR_DENSITY = 1.19;
/** How fast a crank is turned by hand, turns/s. */
const HAND_RPS = 0.7;
/** Crank speed the legs gain or lose a second, turns/s; and gain where nothing holds them. */
const LEG_SPIN_UP = 3.2;
const LEG_SLOW_DOWN = 3.5;
const LEG_RUN_AWAY = 5;

/** Rider and bike along the way: mass, rolling, air and slope against the chain's pull, with a freewheel in between. */
export class CrankAndWheel {
  speedMps = 0;
  distanceM = 0;
  crankRps = 0;
  crankTurns = 0;
  /** The crank drives the wheel in this step. */
  engaged = false;
  /** Torque at the crank in this step, ripple of the two legs included, Nm. */
  torqueNowNm = 0;

  constructor(
    private readonly massKg: number,
    private readonly dragAreaM2: number,
    private readonly rolloutM: number,
  ) {}

  /** Crank speed at which the crank would just drive the wheel, turns/s. */
  drivenRps(gear: number): number {
    return this.speedMps / this.rolloutM / gear;
  }

  step(dtS: number, forces: StepForces): void {
    const driven = this.drivenRps(forces.gear);
    this.turnCrank(dtS, forces, driven);
    const force = this.engaged ? (this.torqueNowNm * 2 * Math.PI) / (forces.gear * this.rolloutM) : 0;
    const slope = forces.grade;
    const v = this.speedMps;
    const against =
      this.massKg * GRAVITY_MPS2 * (slope + (v > 0.05 ? forces.rollingCoefficient : 0)) +
      0.5 * AIR_DENSITY * this.dragAreaM2 * v * Math.abs(v);
    let next = v + ((force - against) / (this.massKg + 1.5) - (v > 0 ? forces.brakeMps2 : 0)) * dtS;
    if (!Number.isNaN(forces.walkMps)) next = v + (forces.walkMps - v) * Math.min(1, 2 * dtS);
    // A rider who cannot hold the bike on a slope puts a foot down: it never rolls backward.
    this.speedMps = Math.max(0, next);
    this.distanceM += this.speedMps * dtS;
    this.crankTurns += this.crankRps * dtS;
  }

  private turnCrank(dtS: number, forces: StepForces, driven: number): void {
    this.engaged = false;
    this.torqueNowNm = 0;
    if (forces.handTurned) {
      this.crankRps = HAND_RPS;
      return;
    }
    if (forces.pedal === 'coast' || !Number.isNaN(forces.walkMps)) {
      this.crankRps = Math.max(0, this.crankRps - LEG_SLOW_DOWN * dtS);
      if (forces.holds) this.crankRps = Math.min(this.crankRps, driven);
      return;
    }
    if (!forces.holds) {
      // Nothing to push against: the legs run away, up to what they can spin.
      this.crankRps = Math.max(this.crankRps, Math.min(forces.spinRps, this.crankRps + LEG_RUN_AWAY * dtS));
      this.torqueNowNm = 1.5;
      return;
    }
    const goal = forces.pedal === 'soft' ? driven * forces.softPart : driven;
    if (this.crankRps < goal - LEG_SPIN_UP * dtS) this.crankRps += LEG_SPIN_UP * dtS;
    else if (forces.pedal === 'soft')
      this.crankRps = Math.max(Math.min(goal, driven), this.crankRps - LEG_SLOW_DOWN * dtS);
    else {
      this.crankRps = driven;
      this.engaged = true;
      // Setting off, the foot stands where it can push; turning, each leg has its dead spot.
      const ripple = 0.7 * Math.min(1, driven / 0.6);
      this.torqueNowNm = forces.torqueNm * (1 - ripple * Math.cos(4 * Math.PI * this.crankTurns));
    }
    this.crankRps = Math.min(this.crankRps, driven);
  }
}
