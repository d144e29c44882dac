import { Command } from 'commander';
import { addAnalyseCommand } from './analyse-command.ts';
import { programVersion } from './program-version.ts';
import { addServeCommand } from './serve-command.ts';
import { addSimulateCommand } from './simulate-command.ts';

/** The command line with its three commands. Each loads what it needs only when it runs, so that help comes at once. */
export function cogwrightProgram(): Command {
  const program = new Command('cogwright')
    .description(
      'Reads ride logs with gear changes and cadence, finds late, missed and unasked shifts, and names the rear-derailleur parameter likeliest mis-set.',
    )
    .version(programVersion(), '-V, --version', 'print the version')
    .helpOption('-h, --help', 'print this help')
    .helpCommand('help [command]', 'print the help of a command')
    .showSuggestionAfterError()
    .showHelpAfterError('Run with --help for what is allowed.')
    .configureOutput({ outputError: (text, write) => write(`cogwright: ${text.replace(/^error: /, '')}`) })
    .exitOverride();
  addAnalyseCommand(program);
  addServeCommand(program);
  addSimulateCommand(program);
  return program;
}
