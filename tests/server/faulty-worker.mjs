// The server's worker, but for rides whose file says so: they hang, eat memory, break off, or cannot be compared.
import { register } from 'tsx/esm/api';

register();
const worker = await import('../../server/work/worker.ts');

export const { intake, conclude, place, wholeReport, placeless } = worker;

function eatMemory() {
  const hoard = [];
  for (;;) hoard.push(new Array(100_000).fill({ hoard: hoard.length }));
}

export function analyse(task) {
  if (task.file.includes('hangs')) for (;;);
  if (task.file.includes('eats')) eatMemory();
  if (task.file.includes('breaks')) throw new TypeError('a fault of the program');
  return worker.analyse(task);
}

export function compare(task) {
  if (task.ride.file.includes('compares not')) throw new TypeError('a fault of the program');
  return worker.compare(task);
}

export function guess(task) {
  if (task.files.some(({ file }) => file.includes('eats'))) eatMemory();
  return worker.guess(task);
}
