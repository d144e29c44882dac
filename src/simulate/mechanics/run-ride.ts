import type { Bike } from '../../drivetrain/bike.ts';
import { seededRandom } from '../../numeric/seeded-random.ts';
import { PressPlan } from '../rider/press-plan.ts';
import { Rider } from '../rider/rider.ts';
import type { RiderNature } from '../rider/rider-nature.ts';
import type { RiderSenses } from '../rider/rider-senses.ts';
import type { Terrain } from '../setting/terrain.ts';
import type { BikeCondition } from './bike-condition.ts';
import { CrankAndWheel, type StepForces } from './crank-and-wheel.ts';
import { Derailleur } from './derailleur.ts';
import { FrontChain } from './front-chain.ts';
import { type MechanicalTrack, trackHz } from './mechanical-track.ts';
import { RearChain } from './rear-chain.ts';
import { ToothHold } from './tooth-hold.ts';
import { TrackWriter } from './track-writer.ts';

/** Steps of the mechanics a second; a chain at a fast cadence runs about two links in one. */
const stepHz = 32;
const dtS = 1 / stepHz;
const stepsPerSample = stepHz / trackHz;
/** A rider decides four times a second. */
const stepsPerDecision = 8;
/** Sideways give of the frame under pedal torque, mm at 100 Nm. */
const flexMmPer100Nm = 0.45;
const linkM = 0.0127;

export interface RideSetting {
  readonly bike: Bike;
  readonly rolloutMm: number;
  readonly durationS: number;
  readonly terrain: Terrain;
  readonly nature: RiderNature;
  readonly looseChain: boolean;
  readonly seed: number;
  readonly ride: number;
  /** The bike at a moment of the ride; called once a second, may change the condition in place. */
  readonly condition: BikeCondition;
  readonly conditionAt: (timeS: number) => void;
}

/** Runs bike, chain, derailleur and rider through one ride. */
export function runRide(setting: RideSetting): MechanicalTrack {
  const { bike, condition, terrain, nature, seed, ride } = setting;
  const teeth = bike.cassette;
  const random = (label: string) => seededRandom(seed, label, ride);
  const startCog = Math.round((teeth.length - 1) * 0.6);
  const startRing = Math.floor((bike.chainrings.length - 1) / 2);
  const rolloutM = setting.rolloutMm / 1000;
  setting.conditionAt(0);
  const derailleur = new Derailleur(condition, startCog, bike.actuation === 'electronic', random('derailleur'));
  const chain = new RearChain(condition, teeth, startCog, random('chain'));
  const front = new FrontChain(bike.chainrings.length, startRing, setting.looseChain, random('front'));
  const hold = new ToothHold(condition.wear, random('teeth'));
  const body = new CrankAndWheel(nature.massKg, nature.dragAreaM2, rolloutM);
  const plan = new PressPlan();
  const rider = new Rider(nature, teeth, bike.chainrings, plan, terrain.places, startCog, random('rider'));
  const writer = new TrackWriter(setting.durationS, startCog, startRing);
  const shakeRandom = random('shake');

  let segment = 0;
  let shake = 0;
  let acceleration = 0;
  let lastSpeed = 0;
  let grade = 0;
  let easedUntilS = -1;
  let loggedCog = startCog;
  let workJ = 0;
  let tensionSum = 0;
  let coveredUntilM = -1;
  let nextTunnel = 0;
  const tunnels = terrain.places.filter((place) => place.kind === 'tunnel');
  const forces: StepForces = {
    pedal: 'coast',
    torqueNm: 0,
    softPart: 0.9,
    gear: 1,
    holds: true,
    grade: 0,
    rollingCoefficient: 0.005,
    brakeMps2: 0,
    walkMps: Number.NaN,
    handTurned: false,
  };
  const steps = Math.floor(setting.durationS * stepHz);
  for (let step = 0; step <= steps; step++) {
    const timeS = step * dtS;
    if (step % stepHz === 0 && step > 0) setting.conditionAt(timeS);
    while (segment + 1 < terrain.startM.length && terrain.startM[segment + 1] <= body.distanceM) segment++;
    grade += (terrain.grade[segment] - grade) * Math.min(1, (body.speedMps * dtS) / 15);
    const roughness = terrain.roughness[segment];

    if (step % stepsPerDecision === 0) {
      const wanted = roughness * Math.min(1.2, body.speedMps / 6) * (0.5 + shakeRandom.uniform());
      shake += 0.5 * (Math.min(1, wanted) - shake);
      acceleration += 0.4 * ((body.speedMps - lastSpeed) / (stepsPerDecision * dtS) - acceleration);
      lastSpeed = body.speedMps;
      const senses: RiderSenses = {
        timeS,
        speedMps: body.speedMps,
        distanceM: body.distanceM,
        drivenCadenceRpm: 60 * body.drivenRps(bike.chainrings[front.ring] / teeth[chain.driveCog]),
        askedCadenceRpm: 60 * body.drivenRps(bike.chainrings[front.ring] / teeth[derailleur.commanded]),
        accelerationMps2: acceleration,
        crankTurns: body.crankTurns,
        driveCog: chain.driveCog,
        commandedCog: derailleur.commanded,
        cogs: teeth.length,
        ring: front.ring,
        rings: bike.chainrings.length,
        grade,
        speedLimitMps: terrain.speedLimitMps[segment],
        roughness,
        chainLost: chain.lost ?? (front.lost ? 'chainring' : null),
      };
      const ringSteps = rider.decide(senses, stepsPerDecision * dtS);
      if (ringSteps !== 0 && front.press(ringSteps) !== 0) writer.ringCommands.push({ timeS, ring: front.commanded });
      if (rider.acts.refit) {
        if (chain.lost) chain.refit(chain.lost === 'past-largest' ? teeth.length - 1 : 0);
        front.lost = false;
      }
      if (nextTunnel < tunnels.length && tunnels[nextTunnel].atM <= body.distanceM) {
        coveredUntilM = body.distanceM + tunnels[nextTunnel].size;
        nextTunnel++;
      }
    }

    const press = plan.due(timeS);
    if (press !== 0) {
      const fromCog = derailleur.commanded;
      if (derailleur.press(press) !== 0) {
        writer.commands.push({ timeS, fromCog, toCog: derailleur.commanded, crankTurns: body.crankTurns });
        easedUntilS = timeS + 0.7;
      }
    }

    const acts = rider.acts;
    const gear = bike.chainrings[front.ring] / teeth[chain.driveCog];
    const onChain = chain.lost === null && !front.lost;
    forces.pedal = acts.pedal;
    forces.softPart = acts.softPart;
    forces.gear = gear;
    forces.holds = onChain && hold.slippingS <= 0;
    forces.grade = grade;
    forces.rollingCoefficient = 0.005 + 0.014 * roughness;
    forces.brakeMps2 = acts.brakeMps2;
    forces.walkMps = acts.walkMps;
    forces.handTurned = acts.handTurned;
    const turnRateRadps = Math.max(1.2, 2 * Math.PI * body.drivenRps(gear));
    const torqueCap = acts.standing ? 125 : 62;
    const ease = timeS < easedUntilS ? nature.easeTo : 1;
    const fade = Math.max(0, Math.min(1, (125 - (turnRateRadps * 60) / (2 * Math.PI)) / 15));
    // Pulling away takes more than the seated limit for the first turns.
    const startBoost = body.speedMps < 2 || grade > 0.07 ? 1.5 : 1;
    forces.torqueNm = Math.min(acts.powerW / turnRateRadps, torqueCap * startBoost) * ease * fade;

    const turnsBefore = body.crankTurns;
    const distanceBefore = body.distanceM;
    body.step(dtS, forces);
    const turned = body.crankTurns - turnsBefore;
    const ringRadiusM = (bike.chainrings[front.ring] * linkM) / (2 * Math.PI);
    const tensionN = onChain ? body.torqueNowNm / ringRadiusM : 0;

    if (onChain && hold.step(dtS, chain.driveCog, tensionN)) writer.skips.push({ timeS, cog: chain.driveCog });
    derailleur.step(dtS, shake, (flexMmPer100Nm * body.torqueNowNm * Math.sin(2 * Math.PI * body.crankTurns)) / 100);
    if (onChain) {
      chain.step(turned * bike.chainrings[front.ring], tensionN, derailleur.pulleyMm, shake);
      front.step(turned, tensionN, shake, dtS);
    }

    passMagnet(turnsBefore, body.crankTurns, timeS, writer.crankEventS);
    passMagnet(distanceBefore / rolloutM, body.distanceM / rolloutM, timeS, writer.wheelEventS);
    const lostNow = chain.lost !== null || front.lost;
    const cogNow = lostNow ? -1 : chain.driveCog;
    if (cogNow !== loggedCog) {
      writer.cogChanges.push({ timeS, cog: cogNow, crankTurns: body.crankTurns });
      if (cogNow === -1)
        writer.drops.push({ timeS, side: chain.lost ?? 'chainring', commandedCog: derailleur.commanded });
      loggedCog = cogNow;
    }
    workJ += body.torqueNowNm * 2 * Math.PI * turned;
    tensionSum += tensionN;
    if (step % stepsPerSample === 0) {
      writer.sample({
        speedMps: body.speedMps,
        distanceM: body.distanceM,
        crankTurns: body.crankTurns,
        powerW: workJ * trackHz,
        tensionN: tensionSum / stepsPerSample,
        cog: cogNow,
        ring: front.ring,
        driving: body.engaged && onChain,
        covered: body.distanceM < coveredUntilM,
        halted: acts.halted && body.speedMps < 0.1,
      });
      workJ = 0;
      tensionSum = 0;
    }
  }
  return writer.finish();
}

/** Adds the moment at which a counter of turns passed a whole number within the step that began at `timeS`. */
function passMagnet(before: number, after: number, timeS: number, events: number[]): void {
  const whole = Math.floor(after);
  if (whole > Math.floor(before)) events.push(timeS + (dtS * (whole - before)) / (after - before));
}
