import { existsSync } from 'node:fs';
import { root } from './project.mjs';

const settings = ['tsconfig.json', 'package-lock.json'];

/** The command line and the server, as JavaScript. @type {import('./build-part.mjs').BuildPart} */
export const program = {
  name: 'the program',
  sources: ['src', 'server', ...settings],
  args: ['node_modules/typescript/bin/tsc', '-p', 'src/setup/tsconfig.build.json'],
};

/** The page that the server shows. @type {import('./build-part.mjs').BuildPart} */
export const page = {
  name: 'the page',
  sources: ['web', 'src', ...settings],
  args: ['node_modules/vite/bin/vite.js', 'build', '--config', 'web/vite.config.ts', '--logLevel', 'warn'],
};

/** Everything there is to build. */
export function allParts() {
  return existsSync(`${root}web/vite.config.ts`) ? [program, page] : [program];
}

/** Whether only the help of a command is asked for. */
export const asksForHelp = (options) => options.some((option) => option === '--help' || option === '-h');

/** What a command line needs: the page only where it is served, and not for the help of that. */
export const partsFor = ([command, ...options]) =>
  command === 'serve' && !asksForHelp(options) ? allParts() : [program];
