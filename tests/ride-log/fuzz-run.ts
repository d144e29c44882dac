import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { seededRandom } from '../../src/numeric/seeded-random.ts';
import { scriptOptions } from '../script-options.ts';
import { FUZZ_SEEDS } from './fuzz-seeds.ts';
import { mutate } from './mutations.ts';
import { soundOutcome } from './sound-outcome.ts';

const usage = `Damages whole files of every kind for some minutes and reads them: npm run fuzz -- --minutes 5 --seed 1. Begins from small
made-up files, the sample rides, and real rides where they are to be found. Stops at the first input that ends neither in a sound ride nor
in a typed refusal, writes it to a file, and fails. Prints what became of the inputs, the slowest one and peak memory.`;
const values = scriptOptions(usage, {
  minutes: { type: 'string', default: '1' },
  seed: { type: 'string', default: '1' },
});
const FOLDERS = ['../../sample-rides/', '../../../shared/real-rides/'];
/** Larger files would make for few inputs a minute. */
const LARGEST_SEED = 500_000;

function filesBelow(folder: URL): [string, Uint8Array<ArrayBuffer>][] {
  if (!existsSync(folder)) return [];
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && /\.(fit|tcx|gpx|csv)$/i.test(entry.name))
    .map((entry): [string, Uint8Array<ArrayBuffer>] => [
      entry.name,
      new Uint8Array(readFileSync(`${entry.parentPath}/${entry.name}`)),
    ])
    .filter(([, bytes]) => bytes.length <= LARGEST_SEED);
}

const seeds = [
  ...Object.entries(FUZZ_SEEDS),
  ...FOLDERS.flatMap((folder) => filesBelow(new URL(folder, import.meta.url))),
];
const random = seededRandom(Number(values.seed), 'fuzz');
const end = performance.now() + Number(values.minutes) * 60_000;
const outcomes = new Map<string, number>();
let slowest = { ms: 0, name: '', bytes: new Uint8Array() };

while (performance.now() < end) {
  const [name, bytes] = random.pick(seeds);
  const mutated = mutate(bytes, random, random.pick(seeds)[1]);
  const start = performance.now();
  try {
    const outcome = soundOutcome(mutated);
    outcomes.set(outcome, (outcomes.get(outcome) ?? 0) + 1);
  } catch (error) {
    const path = `${tmpdir()}/fuzzed-${values.seed}-${name.replaceAll(/\W+/g, '-')}`;
    writeFileSync(path, mutated);
    console.error(`${name}, damaged, ends in neither a ride nor a refusal. The input is in ${path}.`);
    throw error;
  }
  const ms = performance.now() - start;
  if (ms > slowest.ms) slowest = { ms, name, bytes: mutated };
}
const total = [...outcomes.values()].reduce((sum, count) => sum + count, 0);
console.log(`${total} inputs from ${seeds.length} files, seed ${values.seed}`);
for (const [outcome, count] of [...outcomes].sort((a, b) => b[1] - a[1]))
  console.log(`  ${String(count).padStart(8)} ${outcome}`);
console.log(`slowest: ${slowest.ms.toFixed(0)} ms (${slowest.name}, ${slowest.bytes.length} bytes damaged)`);
console.log(`peak memory: ${Math.round(process.resourceUsage().maxRSS / 1024)} MB`);
