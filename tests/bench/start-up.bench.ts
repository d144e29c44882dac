import { spawn } from 'node:child_process';

/**
 * Time from starting `npm run --silent cogwright -- --help` to the first byte of its output, and the same without npm
 * and with an empty Node program, so that what is ours can be told from what is not. From the built program.
 */
const TIMES = 15;
const commands: Record<string, readonly [string, ...string[]]> = {
  'npm run --silent cogwright -- --help': ['npm', 'run', '--silent', 'cogwright', '--', '--help'],
  'node src/setup/cogwright.mjs --help': [process.execPath, 'src/setup/cogwright.mjs', '--help'],
  'an empty Node program': [process.execPath, '-e', 'console.log(1)'],
};

for (const [label, command] of Object.entries(commands)) {
  await firstByteMs(command);
  const taken: number[] = [];
  for (let i = 0; i < TIMES; i++) taken.push(await firstByteMs(command));
  taken.sort((a, b) => a - b);
  console.log(
    `  ${label}: first byte after ${taken[TIMES >> 1].toFixed(0)} ms (median of ${TIMES}; ${taken[0].toFixed(0)} to ${taken[TIMES - 1].toFixed(0)})`,
  );
}

function firstByteMs([program, ...args]: readonly [string, ...string[]]): Promise<number> {
  return new Promise((resolve, reject) => {
    const start = performance.now();
    const child = spawn(program, args, { stdio: ['ignore', 'pipe', 'inherit'] });
    let first = Number.NaN;
    child.stdout.on('data', () => {
      if (Number.isNaN(first)) first = performance.now() - start;
    });
    child.on('error', reject);
    child.on('close', (code) => (code === 0 ? resolve(first) : reject(new Error(`${program} ended with ${code}`))));
  });
}
