import type { Command } from 'commander';

/** Refuses an option with a value that is given twice: of two files the last would win without a word. */
export function onceOnly(command: Command): void {
  for (const option of command.options.filter(({ required, optional }) => required || optional)) {
    let given = false;
    command.on(`option:${option.name()}`, () => {
      if (given) command.error(`error: option '${option.flags}' is given more than once: name one.`);
      given = true;
    });
  }
}
