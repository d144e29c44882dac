import { CommanderError } from 'commander';
import { CogwrightError } from '../errors/cogwright-error.ts';
import { cogwrightProgram } from './cogwright-program.ts';
import { exitCode } from './exit-code.ts';
import { endQuietlyOnBrokenPipe } from './output.ts';

/**
 * Runs the command line. Sets the exit code; results go to standard output, everything else to standard error.
 *
 * @param args what stands after the program's name
 */
export async function main(args: readonly string[]): Promise<void> {
  endQuietlyOnBrokenPipe();
  try {
    await cogwrightProgram().parseAsync(args, { from: 'user' });
  } catch (error) {
    process.exitCode = codeOf(error);
    if (error instanceof CommanderError) return;
    process.stderr.write(error instanceof CogwrightError ? `cogwright: ${error.message}\n` : unexpected(error));
  }
}

function codeOf(error: unknown): number {
  if (!(error instanceof CommanderError)) return error instanceof CogwrightError ? exitCode.usage : exitCode.ownFault;
  return error.exitCode === 0 ? exitCode.done : exitCode.usage;
}

function unexpected(error: unknown): string {
  const detail = error instanceof Error ? (error.stack ?? error.message) : String(error);
  return `cogwright: a fault of the program itself, please report it with these lines:\n${detail}\n`;
}
