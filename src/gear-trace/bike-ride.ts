import type { Bike } from '../drivetrain/bike.ts';
import type { RideLog } from '../ride-log/ride-log.ts';
import type { GearCommands } from './commands/gear-commands.ts';
import type { PedallingSamples } from './samples/pedalling-samples.ts';

/** A ride of a bike: the log, what each of its records says about the gear, and where the derailleurs were told to go. */
export interface BikeRide {
  readonly log: RideLog;
  readonly bike: Bike;
  readonly samples: PedallingSamples;
  readonly commands: GearCommands;
}
