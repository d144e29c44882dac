import { spawnSync } from 'node:child_process';
import { HOSTILE_FILES } from '../ride-log/hostile-files.ts';
import { soundOutcome } from '../ride-log/sound-outcome.ts';
import { peakMb } from './measure.ts';

/** Each hostile file at 5 MB, in a process of its own: how long it takes, and how much memory above what the file and the program take. */
const SIZE = 5_000_000;
const wanted = process.argv[2];
if (wanted === undefined) {
  for (const { name } of HOSTILE_FILES)
    spawnSync(process.execPath, ['--import', 'tsx', import.meta.filename, name], { stdio: 'inherit' });
} else {
  const file = HOSTILE_FILES.find(({ name }) => name === wanted);
  const bytes = file?.make(SIZE) ?? new Uint8Array();
  globalThis.gc?.();
  const before = peakMb();
  const cpuBefore = process.cpuUsage();
  const start = performance.now();
  const outcome = soundOutcome(bytes);
  const ms = performance.now() - start;
  const { user, system } = process.cpuUsage(cpuBefore);
  console.log(
    `  ${ms.toFixed(0).padStart(5)} ms (processor ${((user + system) / 1000).toFixed(0).padStart(4)} ms) ${String(peakMb()).padStart(4)} MB peak (${before} MB before)  ${(bytes.length / 1e6).toFixed(1)} MB  ${wanted}: ${outcome}`,
  );
}
