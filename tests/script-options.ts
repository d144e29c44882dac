import { type ParseArgsConfig, parseArgs } from 'node:util';

type Options = NonNullable<ParseArgsConfig['options']>;

/**
 * The options that a script was started with. Ends it there where help was asked for (prints the usage, exit code 0), and where an
 * option is not one of its own (says so, exit code 2).
 *
 * @param usage what is printed as help
 */
export function scriptOptions<const Own extends Options>(usage: string, options: Own) {
  const args = process.argv.slice(2);
  if (asksForHelp(args)) endWith(0, usage);
  try {
    return parseArgs({ args, options }).values;
  } catch (error) {
    return endWith(2, `${(error as Error).message}\n\n${usage}`);
  }
}

export const asksForHelp = (args: readonly string[]): boolean => args.includes('--help') || args.includes('-h');

/** Ends the script with words on standard output, or on standard error where it did not do what was asked. */
export function endWith(code: 0 | 2, words: string): never {
  (code === 0 ? process.stdout : process.stderr).write(`${words}\n`);
  process.exit(code);
}
