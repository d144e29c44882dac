import { mkdtempSync, rmSync, statSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { startChild } from '../crash/server-child.ts';
import { scriptOptions } from '../script-options.ts';
import { hoursLater, hutBike, madeRides } from '../server/made-rides.ts';

const usage = `npm run sitting [-- --rides 2000 --bikes 20]: imports rides in one sitting, a hundred to an upload, waits until all of
them are analysed, and prints the server's memory on the way: it must not grow with the number of rides.`;
const values = scriptOptions(usage, {
  rides: { type: 'string', default: '2000' },
  bikes: { type: 'string', default: '20' },
});
const count = Number(values.rides);
const data = mkdtempSync(join(tmpdir(), 'cogwright-sitting-'));
const server = startChild(data);
const url = await server.url;
const started = performance.now();
const made = madeRides(5, { seed: 9, minutes: 15 });
const bikes: string[] = [];
for (let i = 0; i < Number(values.bikes); i++)
  bikes.push((await ask('/api/bikes', { ...hutBike, name: `Bike ${i}` })).id);

for (let sent = 0; sent < count; sent += 100) {
  const form = new FormData();
  for (let i = sent; i < Math.min(sent + 100, count); i++) {
    const { name, bytes } = hoursLater(made[i % made.length], i);
    form.append('f', new Blob([new Uint8Array(bytes)]), name);
  }
  const bike = bikes[(sent / 100) % bikes.length];
  const response = await fetch(`${url}/api/uploads?bike=${bike}`, { method: 'POST', body: form });
  const { files } = (await response.json()) as { files: { status: string }[] };
  if (files.some(({ status }) => status !== 'queued')) throw new Error(JSON.stringify(files));
}
await tell(`${count} rides sent`);
for (let last = count; ; ) {
  const { bikes: all } = await ask('/api/bikes');
  const pending = all.reduce((sum: number, bike: { pending: number }) => sum + bike.pending, 0);
  if (pending === 0) break;
  if (last - pending >= count / 8) {
    last = pending;
    await tell(`${pending} still to do`);
  }
  await new Promise((resolve) => setTimeout(resolve, 500));
}
await tell('all analysed');
await new Promise((resolve) => setTimeout(resolve, 40_000));
await tell('after a rest');
console.log(
  `peak ${Math.round(await server.peakMb())} MB, database ${Math.round(statSync(join(data, 'cogwright.sqlite')).size / 1e6)} MB`,
);
await server.kill();
rmSync(data, { recursive: true });

async function tell(what: string): Promise<void> {
  const status = await readFile(`/proc/${server.process.pid}/status`, 'utf8');
  const residentMb = Number(/VmRSS:\s+(\d+)/.exec(status)?.[1]) / 1024;
  console.log(`${Math.round((performance.now() - started) / 1000)} s: ${what}, ${Math.round(residentMb)} MB`);
}

// biome-ignore lint/suspicious/noExplicitAny: a few fields are looked at
async function ask(path: string, json?: unknown): Promise<any> {
  const response = await fetch(url + path, {
    method: json === undefined ? 'GET' : 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(json),
  });
  return response.json();
}
