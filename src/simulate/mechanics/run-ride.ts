import type { Bike } from '../../drivetrain/bike.ts';
import { type SeededRandom, seededRandom } from '../../numeric/seeded-random.ts';
import { pedalTorque } from '../rider/pedal-torque.ts';
import { PressPlan } from '../rider/press-plan.ts';
import { Rider } from '../rider/rider.ts';
import type { RiderNature } from '../rider/rider-nature.ts';
import type { RiderSenses } from '../rider/rider-senses.ts';
import type { Terrain } from '../setting/terrain.ts';
import type { BikeCondition } from './bike-condition.ts';
import { CrankAndWheel, type StepForces } from './crank-and-wheel.ts';
import { Derailleur } from './derailleur.ts';
import { FrontChain } from './front-chain.ts';
import { type MechanicalTrack, TRACK_HZ } from './mechanical-track.ts';
import { RearChain } from './rear-chain.ts';
import { RoadUnderWheel } from './road-under-wheel.ts';
import { ToothHold } from './tooth-hold.ts';
import { TrackWriter } from './track-writer.ts';

/** Steps of the mechanics a second; a chain at a fast cadence runs about two links in one. */
const STEP_HZ = 32;
const DT_S = 1 / STEP_HZ;
const STEPS_PER_SAMPLE = STEP_HZ / TRACK_HZ;
/** A rider decides four times a second. */
const STEPS_PER_DECISION = 8;
const DECISION_S = STEPS_PER_DECISION * DT_S;
/** How long a rider eases off (or not) for a shift, s. */
const EASE_S = 0.7;
/** Sideways give of the frame under pedal torque, mm at 100 Nm. */
const FLEX_MM_PER100_NM = 0.45;
const LINK_M = 0.0127;

/** All that one ride is made from. `ride` counts the rides of a simulation from 0. */
interface RideSetting {
  readonly bike: Bike;
  readonly rolloutMm: number;
  readonly durationS: number;
  readonly terrain: Terrain;
  readonly nature: RiderNature;
  readonly looseChain: boolean;
  readonly seed: number;
  readonly ride: number;
  /** The bike's condition; `conditionAt` may change it in place and is called once a second. */
  readonly condition: BikeCondition;
  readonly conditionAt: (timeS: number) => void;
}

/** Runs bike, chain, derailleur and rider through one ride. */
export function runRide(setting: RideSetting): MechanicalTrack {
  return new RideRun(setting).run();
}

/** One ride in the making: the parts, and the order in which they act on one another in each step. */
class RideRun {
  private readonly rings: readonly number[];
  private readonly teeth: readonly number[];
  private readonly rolloutM: number;
  private readonly derailleur: Derailleur;
  private readonly chain: RearChain;
  private readonly front: FrontChain;
  private readonly hold: ToothHold;
  private readonly body: CrankAndWheel;
  private readonly road: RoadUnderWheel;
  private readonly plan = new PressPlan();
  private readonly rider: Rider;
  private readonly writer: TrackWriter;
  private readonly forces: StepForces = {
    pedal: 'coast',
    torqueNm: 0,
    softPart: 0.9,
    spinRps: 1.95,
    gear: 1,
    holds: true,
    grade: 0,
    rollingCoefficient: 0.005,
    brakeMps2: 0,
    walkMps: Number.NaN,
    handTurned: false,
  };
  private easedUntilS = -1;
  private accelerationMps2 = 0;
  private lastSpeedMps = 0;
  private loggedCog: number;
  private workJ = 0;
  private tensionSumN = 0;

  constructor(private readonly setting: RideSetting) {
    const { bike, condition, terrain, nature } = setting;
    this.rings = bike.chainrings;
    this.teeth = bike.cassette;
    this.rolloutM = setting.rolloutMm / 1000;
    const random = (label: string): SeededRandom => seededRandom(setting.seed, label, setting.ride);
    const startCog = Math.round((this.teeth.length - 1) * 0.6);
    const startRing = Math.floor((this.rings.length - 1) / 2);
    setting.conditionAt(0);
    this.derailleur = new Derailleur(condition, startCog, bike.actuation === 'electronic', random('derailleur'));
    this.chain = new RearChain(condition, this.teeth, startCog, random('chain'));
    this.front = new FrontChain(this.rings.length, startRing, setting.looseChain, random('front'));
    this.hold = new ToothHold(condition.wear, random('teeth'));
    this.body = new CrankAndWheel(nature.massKg, nature.dragAreaM2, this.rolloutM);
    this.road = new RoadUnderWheel(terrain, random('shake'));
    this.rider = new Rider(nature, this.teeth, this.rings, this.plan, terrain.places, startCog, random('rider'));
    this.writer = new TrackWriter(setting.durationS, startCog, startRing);
    this.loggedCog = startCog;
  }

  run(): MechanicalTrack {
    const steps = Math.floor(this.setting.durationS * STEP_HZ);
    for (let step = 0; step <= steps; step++) {
      const timeS = step * DT_S;
      if (step % STEP_HZ === 0 && step > 0) this.setting.conditionAt(timeS);
      this.road.follow(this.body.distanceM, this.body.speedMps * DT_S);
      if (step % STEPS_PER_DECISION === 0) this.decide(timeS);
      this.press(timeS);
      this.move(timeS);
      if (step % STEPS_PER_SAMPLE === 0) this.sample();
    }
    return this.writer.finish();
  }

  private get onChain(): boolean {
    return this.chain.lost === null && !this.front.lost;
  }

  private gearOn(cog: number): number {
    return this.rings[this.front.ring] / this.teeth[cog];
  }

  private decide(timeS: number): void {
    const { body, chain, front, rider, road } = this;
    road.shakeAt(body.distanceM, body.speedMps);
    this.accelerationMps2 += 0.4 * ((body.speedMps - this.lastSpeedMps) / DECISION_S - this.accelerationMps2);
    this.lastSpeedMps = body.speedMps;
    const ringSteps = rider.decide(this.senses(timeS), DECISION_S);
    if (ringSteps !== 0 && front.press(ringSteps) !== 0)
      this.writer.ringCommands.push({ timeS, ring: front.commanded });
    if (!rider.acts.refit) return;
    if (chain.lost) chain.refit(chain.lost === 'past-largest' ? this.teeth.length - 1 : 0);
    front.lost = false;
  }

  private senses(timeS: number): RiderSenses {
    const { body, chain, derailleur, front, road } = this;
    return {
      timeS,
      speedMps: body.speedMps,
      distanceM: body.distanceM,
      drivenCadenceRpm: 60 * body.drivenRps(this.gearOn(chain.driveCog)),
      askedCadenceRpm: 60 * body.drivenRps(this.gearOn(derailleur.commanded)),
      accelerationMps2: this.accelerationMps2,
      crankTurns: body.crankTurns,
      driveCog: chain.driveCog,
      commandedCog: derailleur.commanded,
      cogs: this.teeth.length,
      ring: front.ring,
      rings: this.rings.length,
      grade: road.grade,
      speedLimitMps: road.speedLimitMps,
      chainLost: chain.lost ?? (front.lost ? 'chainring' : null),
    };
  }

  private press(timeS: number): void {
    const { derailleur } = this;
    const press = this.plan.due(timeS);
    if (press === 0) return;
    const fromCog = derailleur.commanded;
    if (derailleur.press(press) === 0) return;
    this.writer.commands.push({ timeS, fromCog, toCog: derailleur.commanded, crankTurns: this.body.crankTurns });
    this.easedUntilS = timeS + EASE_S;
  }

  /** The bike moves, then the derailleur, then the chain. */
  private move(timeS: number): void {
    const { body, chain, derailleur, front, hold, road, writer } = this;
    const onChain = this.onChain;
    const ring = this.rings[front.ring];
    this.setForces(timeS, onChain);
    const turnsBefore = body.crankTurns;
    const distanceBefore = body.distanceM;
    body.step(DT_S, this.forces);
    const turned = body.crankTurns - turnsBefore;
    const tensionN = onChain ? (body.torqueNowNm * 2 * Math.PI) / (ring * LINK_M) : 0;
    if (onChain && hold.step(DT_S, chain.driveCog, tensionN)) writer.skips.push({ timeS, cog: chain.driveCog });
    const sway = Math.sin(2 * Math.PI * body.crankTurns);
    derailleur.step(DT_S, road.shake, (FLEX_MM_PER100_NM * body.torqueNowNm * sway) / 100);
    if (onChain) {
      chain.step(turned * ring, tensionN, derailleur.pulleyMm, road.shake);
      front.step(turned, tensionN, road.shake, DT_S);
    }
    passMagnet(turnsBefore, body.crankTurns, timeS, writer.crankEventS);
    passMagnet(distanceBefore / this.rolloutM, body.distanceM / this.rolloutM, timeS, writer.wheelEventS);
    this.workJ += body.torqueNowNm * 2 * Math.PI * turned;
    this.tensionSumN += tensionN;
    this.noteCog(timeS);
  }

  private setForces(timeS: number, onChain: boolean): void {
    const { body, forces, road } = this;
    const { acts } = this.rider;
    const gear = this.gearOn(this.chain.driveCog);
    const ease = timeS < this.easedUntilS ? this.setting.nature.easeTo : 1;
    forces.pedal = acts.pedal;
    forces.softPart = acts.softPart;
    forces.spinRps = acts.spinRps;
    forces.gear = gear;
    forces.holds = onChain && this.hold.slippingS <= 0;
    forces.grade = road.grade;
    forces.rollingCoefficient = road.rollingCoefficient;
    forces.brakeMps2 = acts.brakeMps2;
    forces.walkMps = acts.walkMps;
    forces.handTurned = acts.handTurned;
    forces.torqueNm = pedalTorque(acts, body.drivenRps(gear), body.speedMps, road.grade) * ease;
  }

  private noteCog(timeS: number): void {
    const { chain, derailleur, writer } = this;
    const cog = this.onChain ? chain.driveCog : -1;
    if (cog === this.loggedCog) return;
    this.loggedCog = cog;
    writer.cogChanges.push({ timeS, cog, crankTurns: this.body.crankTurns });
    if (cog === -1) writer.drops.push({ timeS, side: chain.lost ?? 'chainring', commandedCog: derailleur.commanded });
  }

  private sample(): void {
    const { body } = this;
    this.writer.sample({
      speedMps: body.speedMps,
      distanceM: body.distanceM,
      crankTurns: body.crankTurns,
      powerW: this.workJ * TRACK_HZ,
      tensionN: this.tensionSumN / STEPS_PER_SAMPLE,
      cog: this.loggedCog,
      ring: this.front.ring,
      driving: body.engaged && this.onChain,
      covered: this.road.covered(body.distanceM),
      halted: this.rider.acts.halted && body.speedMps < 0.1,
    });
    this.workJ = 0;
    this.tensionSumN = 0;
  }
}

/** Adds the moment at which a counter of turns passed a whole number within the step that began at `timeS`. */
function passMagnet(before: number, after: number, timeS: number, events: number[]): void {
  const whole = Math.floor(after);
  if (whole > Math.floor(before)) events.push(timeS + (DT_S * (whole - before)) / (after - before));
}
