import { type Command, InvalidArgumentError, Option } from 'commander';
import { faultCauses } from '../simulate/setting/fault-causes.ts';
import { nonEmpty } from './non-empty.ts';
import type { SimulateOptions } from './run-simulate.ts';

/** Adds `simulate` to the program. */
export function addSimulateCommand(program: Command): void {
  program
    .command('simulate')
    .description('write invented rides of a bike with a known fault, with the truth beside them')
    .requiredOption('--fault <cause>', `what is wrong with the bike: ${faultCauses.join(', ')}`)
    .requiredOption('--seed <number>', 'the same seed gives the same rides, byte for byte', readCount)
    .requiredOption('--out <folder>', 'folder to write to; made if it is missing', nonEmpty)
    .option('--rides <number>', 'rides of the one bike, in order (default: 1)', readCount)
    .option('--minutes <number>', 'length of each ride (default: 60)', readCount)
    .addOption(
      new Option(
        '--severity <size>',
        'size of the fault, not of what it does: a severe one may spoil no shift (default: mild)',
      ).choices(['mild', 'severe']),
    )
    .option('--bike <file>', 'bike file (JSON); without it a trail bike with twelve cogs', nonEmpty)
    .action(async (options: SimulateOptions) => {
      const { runSimulate } = await import('./run-simulate.ts');
      process.exitCode = await runSimulate(options);
    });
}

function readCount(text: string): number {
  if (!/^\d{1,15}$/.test(text)) throw new InvalidArgumentError('It must be a whole number from 0.');
  return Number(text);
}
