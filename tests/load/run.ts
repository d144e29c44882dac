import { execFile } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs, promisify } from 'node:util';
import { startChild } from '../crash/server-child.ts';
import { hutBike } from '../server/made-rides.ts';

/**
 * `npm run load [-- --seconds 120 --readers 50 --senders 5]`: readers look through bikes, rides and timelines as people
 * at a page do, one request after the other with a short look at each, while senders upload rides, all on this machine.
 * Prints how long reads took and how far memory grew; ends with 1 on any error or where the 99th percentile of reads
 * reaches 100 ms.
 */
const { values } = parseArgs({
  options: {
    seconds: { type: 'string', default: '120' },
    readers: { type: 'string', default: '50' },
    senders: { type: 'string', default: '5' },
    /** Longest look at an answer before the next request; each look is drawn evenly from 0 to this. */
    lookMs: { type: 'string', default: '500' },
  },
});
const [seconds, readers, senders, lookMs] = [values.seconds, values.readers, values.senders, values.lookMs].map(Number);
const mostMs = 100;

// biome-ignore lint/suspicious/noExplicitAny: answers are only walked through here
type Loose = any;
const data = mkdtempSync(join(tmpdir(), 'cogwright-load-'));
const server = startChild(data, { samples: new URL('../../sample-rides', import.meta.url).pathname });
const url = await server.url;
const pause = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));

const tookMs = new Map<string, number[]>();
const errors: string[] = [];
let uploaded = 0;

await pause(2000);
const end = performance.now() + seconds * 1000;
await Promise.all([
  ...Array.from({ length: readers }, () => read()),
  ...Array.from({ length: senders }, (_, i) => sendRides(i)),
]);
const peakMb = await server.peakMb();
await server.kill();
rmSync(data, { recursive: true });
report();

/** Looks around until the time is up: the list, a bike, its sheet, its rides, one ride, its timeline. */
async function read(): Promise<void> {
  while (performance.now() < end) {
    const { bikes } = (await get('bikes', '/api/bikes')) ?? {};
    const one = bikes?.[Math.floor(Math.random() * bikes.length)];
    if (!one) continue;
    await get('bike', `/api/bikes/${one.id}`);
    if (Math.random() < 0.2) await get('sheet', `/api/bikes/${one.id}/sheet`);
    const { rides } = (await get('rides', `/api/rides?bike=${one.id}`)) ?? {};
    const done = rides?.filter(({ status }: Loose) => status === 'done') ?? [];
    const ride = done[Math.floor(Math.random() * done.length)];
    if (!ride) continue;
    await get('ride', `/api/rides/${ride.id}`);
    await get('columns', `/api/rides/${ride.id}/columns`);
  }
}

async function get(kind: string, path: string): Promise<Loose> {
  await pause(Math.random() * lookMs);
  const start = performance.now();
  try {
    const response = await fetch(url + path);
    const bytes = await response.arrayBuffer();
    const list = tookMs.get(kind) ?? [];
    list.push(performance.now() - start);
    tookMs.set(kind, list);
    if (!response.ok) {
      errors.push(`${path}: ${response.status}`);
      return null;
    }
    // Only what is walked on from is parsed: the readers share this machine with the server.
    return kind === 'bikes' || kind === 'rides' ? JSON.parse(new TextDecoder().decode(bytes)) : null;
  } catch (error) {
    errors.push(`${path}: ${error}`);
    return null;
  }
}

/** Has one sender send new rides to a bike of its own. */
async function sendRides(sender: number): Promise<void> {
  const bike = await post('/api/bikes', { ...hutBike, name: `Load bike ${sender}` });
  const script = new URL('./send-rides.ts', import.meta.url).pathname;
  const left = (end - performance.now()) / 1000;
  const { stdout } = await promisify(execFile)(process.execPath, [
    '--import',
    'tsx',
    script,
    url,
    bike.id,
    `${sender}`,
    `${left}`,
  ]);
  const told = JSON.parse(stdout) as { sent: number; errors: string[] };
  uploaded += told.sent - told.errors.length;
  errors.push(...told.errors);
}

async function post(path: string, json: unknown): Promise<Loose> {
  const response = await fetch(url + path, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(json),
  });
  return response.json();
}

function report(): void {
  const all = [...tookMs.values()].flat();
  for (const [kind, list] of [...tookMs, ['all reads', all] as const]) {
    const sorted = [...list].sort((a, b) => a - b);
    const at = (share: number): string => `${(sorted[Math.floor(share * (sorted.length - 1))] ?? 0).toFixed(1)} ms`;
    console.log(`${kind}: ${list.length} reads, median ${at(0.5)}, 99 % ${at(0.99)}, longest ${at(1)}`);
  }
  console.log(
    `${uploaded} rides sent by ${senders} senders; ${errors.length} errors; peak memory of the server ${Math.round(peakMb)} MB`,
  );
  for (const error of errors.slice(0, 10)) console.error(error);
  const sorted = all.sort((a, b) => a - b);
  if (errors.length > 0 || sorted.length === 0 || sorted[Math.floor(0.99 * (sorted.length - 1))] >= mostMs)
    process.exitCode = 1;
}
