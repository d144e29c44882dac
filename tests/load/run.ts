import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { startChild } from '../crash/server-child.ts';
import { scriptOptions } from '../script-options.ts';

const usage = `npm run load [-- --seconds 120 --readers 50 --senders 5 --look 250 --pause 250]: readers look through bikes, rides
and timelines as people at a page do, one request after the other with a short look at each answer (look ms on
average), while senders upload rides (with pause ms between them on average), all on this machine. Prints how long
reads took and how far memory grew; ends with 1 on any error, or where the 99th percentile of reads reaches 100 ms.`;
const values = scriptOptions(usage, {
  seconds: { type: 'string', default: '120' },
  readers: { type: 'string', default: '50' },
  senders: { type: 'string', default: '5' },
  look: { type: 'string', default: '250' },
  pause: { type: 'string', default: '250' },
});
const [seconds, readers, lookMs] = [values.seconds, values.readers, values.look].map(Number);
const MOST_MS = 100;

// biome-ignore lint/suspicious/noExplicitAny: answers are only walked through here
type Loose = any;
const data = mkdtempSync(join(tmpdir(), 'cogwright-load-'));
const server = startChild(data, { samples: fileURLToPath(new URL('../../sample-rides', import.meta.url)) });
const url = await server.url;
const pause = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));

const tookMs = new Map<string, number[]>();
const errors: string[] = [];

const script = fileURLToPath(new URL('./send-rides.ts', import.meta.url));
const sending = spawn(process.execPath, ['--import', 'tsx', script, url, values.senders, values.pause], {
  stdio: ['pipe', 'pipe', 'inherit'],
});
await said(sending);
sending.stdin?.write('begin\n');
const end = performance.now() + seconds * 1000;
await Promise.all(Array.from({ length: readers }, () => read()));
sending.stdin?.write('end\n');
const sent = JSON.parse(await said(sending)) as { sent: number; errors: string[] };
errors.push(...sent.errors);
const peakMb = await server.peakMb();
await server.kill();
rmSync(data, { recursive: true });
report();

async function said(child: ChildProcess): Promise<string> {
  const [chunk] = await once(child.stdout as NodeJS.ReadableStream, 'data');
  return String(chunk);
}

/** Looks around until the time is up: the list, a bike, its sheet, its rides, one ride, its timeline. */
async function read(): Promise<void> {
  while (performance.now() < end) {
    const { bikes } = (await get('bikes', '/api/bikes')) ?? {};
    const one = bikes?.[Math.floor(Math.random() * bikes.length)];
    if (!one) continue;
    await get('bike', `/api/bikes/${one.id}?events=false`);
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
  await pause(Math.random() * 2 * lookMs);
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

function report(): void {
  const all = [...tookMs.values()].flat();
  const at = (sorted: readonly number[], share: number): number => sorted[Math.floor(share * (sorted.length - 1))] ?? 0;
  for (const [kind, list] of [...tookMs, ['all reads', all] as const]) {
    const sorted = [...list].sort((a, b) => a - b);
    const [median, most, longest] = [0.5, 0.99, 1].map((share) => `${at(sorted, share).toFixed(1)} ms`);
    console.log(`${kind}: ${list.length} reads, median ${median}, 99 % ${most}, longest ${longest}`);
  }
  console.log(
    `${sent.sent} rides sent by ${values.senders} senders; ${errors.length} errors; peak memory of the server ${Math.round(peakMb)} MB`,
  );
  for (const error of errors.slice(0, 10)) console.error(error);
  const sorted = all.sort((a, b) => a - b);
  if (errors.length > 0 || sorted.length === 0 || at(sorted, 0.99) >= MOST_MS) process.exitCode = 1;
}
