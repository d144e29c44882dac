// The server's worker, but for rides whose file says so: they hang, eat memory, break off, or cannot be compared.
import { register } from 'tsx/esm/api';

register();
const worker = await import('../../server/work/worker.ts');
const { takingUp } = await import('../../server/work/taken-up.ts');

export const { intake, conclude, place, wholeReport, placeless } = worker;

function eatMemory() {
  const hoard = [];
  for (;;) hoard.push(new Array(100_000).fill({ hoard: hoard.length }));
}

/** Takes a task up and misbehaves where it is told to; else the task goes to the server's own function. */
const before = (misbehave, own) => (sent) => {
  takingUp(misbehave)(sent);
  return own(sent);
};

export const analyse = before(({ file }) => {
  if (file.includes('hangs')) for (;;);
  if (file.includes('eats')) eatMemory();
  if (file.includes('breaks')) throw new TypeError('a fault of the program');
}, worker.analyse);

export const compare = before(({ ride }) => {
  if (ride.file.includes('compares not')) throw new TypeError('a fault of the program');
}, worker.compare);

export const guess = before(({ files }) => {
  if (files.some(({ file }) => file.includes('eats'))) eatMemory();
}, worker.guess);
