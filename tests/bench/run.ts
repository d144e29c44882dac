import { spawnSync } from 'node:child_process';
import { readdirSync } from 'node:fs';
import { asksForHelp, endWith } from '../script-options.ts';

const END = '.bench.ts';
const all = readdirSync(import.meta.dirname)
  .filter((name) => name.endsWith(END))
  .map((name) => name.slice(0, -END.length))
  .sort();
const usage = `npm run bench [-- NAME...]: measures speed and memory and prints the figures; without a name, of all.
Names, or parts of them: ${all.join(', ')}`;
const words = process.argv.slice(2);
if (asksForHelp(words)) endWith(0, usage);
const unknown = words.filter((word) => !all.some((name) => name.includes(word)));
if (unknown.length > 0) endWith(2, `No bench is named ${unknown.join(', ')}.\n\n${usage}`);

// each runs in a process of its own, so that peak memory is its own
let failed = false;
for (const name of all.filter((one) => words.length === 0 || words.some((word) => one.includes(word)))) {
  console.log(`\n${name}`);
  const { status } = spawnSync(process.execPath, ['--import', 'tsx', `${import.meta.dirname}/${name}${END}`], {
    stdio: 'inherit',
  });
  failed ||= status !== 0;
}
process.exitCode = failed ? 1 : 0;
