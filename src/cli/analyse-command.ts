import { type Command, Option } from 'commander';
import { eachNonEmpty, nonEmpty } from './non-empty.ts';
import { onceOnly } from './once-only.ts';
import type { AnalyseCommandOptions } from './run-analyse.ts';

/** Adds `analyse` to the program. */
export function addAnalyseCommand(program: Command): void {
  const command = program
    .command('analyse')
    .description('analyse rides of one bike and print the report')
    .argument('<ride...>', 'ride logs (FIT, TCX, GPX, CSV) or folders with such', eachNonEmpty)
    .option('-b, --bike <file>', 'bike file (JSON); without it the drivetrain is guessed from the rides', nonEmpty)
    .option('-a, --adjustments <file>', 'adjustments made to the bike (CSV or JSON)', nonEmpty)
    .option('--json', 'print the report as JSON, and nothing else, to standard output')
    .addOption(
      new Option('--html <file>', 'write the report with charts to one HTML page as well')
        .conflicts('json')
        .argParser(nonEmpty),
    )
    .option('--strict', 'end with exit code 1 when even one ride could not be read')
    .option('--verbose', 'tell on standard error what each stage made of every ride')
    .addHelpText(
      'after',
      '\nExit code: 0 at least one ride was analysed; 1 none could be (or --strict and one could not);\n' +
        '2 wrong usage, a bad bike or adjustments file, or a result that could not be written.',
    )
    .action(async (rides: string[], options: AnalyseCommandOptions) => {
      const { runAnalyse } = await import('./run-analyse.ts');
      process.exitCode = await runAnalyse(rides, options);
    });
  onceOnly(command);
}
