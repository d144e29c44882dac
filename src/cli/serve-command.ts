import { type Command, InvalidArgumentError } from 'commander';
import { nonEmpty } from './non-empty.ts';

/** Options of `serve` as commander hands them over. */
interface ServeCommandOptions {
  readonly port: number;
  readonly data?: string;
  readonly listen?: string;
  readonly token?: string;
  readonly verbose?: true;
}

/** Adds `serve` to the program. */
export function addServeCommand(program: Command): void {
  program
    .command('serve')
    .description('serve the page and its API on this machine')
    .option('-p, --port <number>', 'port to listen on; 0 for any that is free', readPort, 4173)
    .option(
      '-d, --data <folder>',
      "folder that holds the bikes and rides (default: in the user's own data folder)",
      nonEmpty,
    )
    .option(
      '--listen <address>',
      'address to listen on; beyond this machine a token is wanted from everyone',
      nonEmpty,
      '127.0.0.1',
    )
    .option('--token <text>', 'token of at least 16 characters; beyond this machine one is made if none is given')
    .option(
      '--verbose',
      'log every request and each stage of every analysis; on a terminal only faults are logged without it',
    )
    .action(async (options: ServeCommandOptions) => {
      const { serve } = await import('../../server/serve.ts');
      await serve(options);
    });
}

function readPort(text: string): number {
  const port = Number(text);
  if (!/^\d{1,5}$/.test(text) || port > 65535)
    throw new InvalidArgumentError('It must be a whole number from 0 to 65535.');
  return port;
}
