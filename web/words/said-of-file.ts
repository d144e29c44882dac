import { upperFirst } from '../../src/numeric/upper-first.ts';

/** What a message says of a file, for a place where its name stands beside it: most begin with the name. */
export const saidOfFile = (file: string, message: string): string =>
  message.startsWith(`${file}: `) ? upperFirst(message.slice(file.length + 2)) : message;
