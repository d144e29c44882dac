import { spawnSync } from 'node:child_process';
import { readdirSync } from 'node:fs';

/**
 * Runs every `*.bench.ts` of this folder, or those whose names contain one of the arguments, each in a process of its own so that
 * peak memory is its own. A bench is a script that prints its figures.
 */
const names = readdirSync(import.meta.dirname)
  .filter((name) => name.endsWith('.bench.ts'))
  .filter((name) => process.argv.length <= 2 || process.argv.slice(2).some((word) => name.includes(word)))
  .sort();
let failed = names.length === 0;
for (const name of names) {
  console.log(`\n${name.replace('.bench.ts', '')}`);
  const { status } = spawnSync(process.execPath, ['--import', 'tsx', `${import.meta.dirname}/${name}`], {
    stdio: 'inherit',
  });
  failed ||= status !== 0;
}
process.exitCode = failed ? 1 : 0;
