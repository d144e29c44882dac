import { vi } from 'vitest';
import { main } from '../../src/cli/main.ts';

interface CogwrightResult {
  readonly code: typeof process.exitCode;
  readonly stdout: string;
  readonly stderr: string;
}

/** Runs the command line in this process, with neither output a terminal. One call at a time. */
export async function runCogwright(...args: string[]): Promise<CogwrightResult> {
  const outputs = { stdout: '', stderr: '' };
  const spies = (['stdout', 'stderr'] as const).map((name) =>
    vi.spyOn(process[name], 'write').mockImplementation((chunk, encoding?: unknown, done?: unknown) => {
      outputs[name] += chunk;
      const callback = typeof encoding === 'function' ? encoding : done;
      if (typeof callback === 'function') callback();
      return true;
    }),
  );
  const codeBefore = process.exitCode;
  process.exitCode = undefined;
  try {
    await main(args);
    return { code: process.exitCode ?? 0, ...outputs };
  } finally {
    process.exitCode = codeBefore;
    for (const spy of spies) spy.mockRestore();
  }
}
