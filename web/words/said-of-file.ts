/** What a message says of a file, for a place where its name stands beside it: most begin with the name, and go on from it. */
export const saidOfFile = (file: string, message: string): string =>
  message.startsWith(`${file}: `) ? message.slice(file.length + 2) : message;
