import type { DropSideTrue } from '../setting/drop-sides.ts';
import type { PedalMode } from './pedal-mode.ts';

/** What a rider feels and sees at one moment. Nothing here that a rider could not know. */
export interface RiderSenses {
  timeS: number;
  speedMps: number;
  distanceM: number;
  /** Cadence that driving would need at this speed on the cog the chain is really on. */
  drivenCadenceRpm: number;
  /** The same on the cog that the shifter asks for. */
  askedCadenceRpm: number;
  accelerationMps2: number;
  crankTurns: number;
  driveCog: number;
  /** The shifter's window. */
  commandedCog: number;
  cogs: number;
  ring: number;
  rings: number;
  grade: number;
  speedLimitMps: number;
  /** The chain is off, and where it lies. */
  chainLost: DropSideTrue | null;
}

/** What the rider does until the next decision. */
export interface RiderActs {
  pedal: PedalMode;
  powerW: number;
  standing: boolean;
  softPart: number;
  /** How fast the legs spin where nothing holds them, turns/s. */
  spinRps: number;
  brakeMps2: number;
  walkMps: number;
  /** At a halt, on the bike or off it. */
  halted: boolean;
  /** The crank is turned by hand with the wheel lifted. */
  handTurned: boolean;
  /** The chain is put back by hand at this moment. */
  refit: boolean;
}
