import { CogwrightError } from '../../errors/cogwright-error.ts';

/** A simulation was asked for that cannot be made. */
export class SimulationOptionError extends CogwrightError {
  override readonly name = 'SimulationOptionError';
  readonly code = 'simulation-option';
  constructor(
    readonly option: string,
    readonly found: unknown,
    readonly allowed: string,
  ) {
    super(`Simulation option "${option}": found ${JSON.stringify(found)}, allowed: ${allowed}.`);
  }
}
