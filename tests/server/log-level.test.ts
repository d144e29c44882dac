import { expect, it } from 'vitest';
import { logLevel } from '../../server/log-level.ts';

it.each([
  [{}, false, 'info'],
  [{}, true, 'warn'],
  [{ quiet: true }, false, 'warn'],
  [{ quiet: false }, true, 'info'],
  [{ verbose: true }, true, 'debug'],
  [{ verbose: true, quiet: true }, false, 'debug'],
] as const)('with %o, terminal %s, the log begins at %s', (options, onTerminal, level) => {
  expect(logLevel(options, onTerminal)).toBe(level);
});
