// The server's worker, but for rides whose file says so: they hang, eat memory, break off, or cannot be compared.
import { register } from 'tsx/esm/api';

register();
const worker = await import('../../server/work/worker.ts');

export const { intake, conclude, place, guess, wholeReport, placeless } = worker;

export function analyse(task) {
  if (task.file.includes('hangs')) for (;;);
  if (task.file.includes('eats')) {
    const hoard = [];
    for (;;) hoard.push(new Array(1000).fill({ hoard: hoard.length }));
  }
  if (task.file.includes('breaks')) throw new TypeError('a fault of the program');
  return worker.analyse(task);
}

export function compare(task) {
  if (task.ride.file.includes('compares not')) throw new TypeError('a fault of the program');
  return worker.compare(task);
}
