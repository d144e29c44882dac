import { type ChildProcess, spawn } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { CheckedApi } from './checked-api.ts';
import { madeRides } from './made-rides.ts';
import { temporaryFolder } from './test-server.ts';

const tsx = pathToFileURL(createRequire(import.meta.url).resolve('tsx')).href;
const sourceOf = (file: string): string => JSON.stringify(new URL(`../../server/${file}`, import.meta.url).href);

let folder: ReturnType<typeof temporaryFolder>;
let child: ChildProcess | undefined;
beforeEach(() => {
  folder = temporaryFolder();
});
afterEach(() => {
  // The whole group, so that nothing is left of a test that failed; it is gone already after one that did not.
  if (child?.pid && child.exitCode === null && child.signalCode === null) process.kill(-child.pid, 'SIGKILL');
  folder.remove();
});

/** Runs a script by `npm start`, in a process group of its own as a terminal does. */
function npmStart(script: string): { child: ChildProcess; said: (words: RegExp) => Promise<RegExpExecArray> } {
  writeFileSync(join(folder.path, 'script.mjs'), script);
  const start = `node --import ${tsx} script.mjs`;
  writeFileSync(join(folder.path, 'package.json'), JSON.stringify({ private: true, scripts: { start } }));
  const started = spawn('npm', ['start', '--silent'], { cwd: folder.path, detached: true, stdio: 'pipe' });
  child = started;
  let [text, closed] = ['', false];
  started.on('close', () => {
    closed = true;
  });
  for (const stream of [started.stdout, started.stderr])
    stream.on('data', (chunk) => {
      text += chunk;
    });
  const said = async (words: RegExp): Promise<RegExpExecArray> => {
    for (;;) {
      const found = words.exec(text);
      if (found) return found;
      if (closed) throw new Error(`it ended before it said ${words}: ${text}`);
      await pause(20);
    }
  };
  return { child: started, said };
}

const tellsItsEnd = `process.on('exit', (code) => console.log('ends with', code));`;
const pause = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));
/** What Ctrl+C does: the signal goes to npm and to what it runs, and npm hands it on once more. */
const pressCtrlC = ({ pid }: ChildProcess): boolean => process.kill(-(pid as number), 'SIGINT');

it('Ctrl+C in the middle of an analysis stops the server in order, and does not count against the ride', async () => {
  const data = join(folder.path, 'data');
  const options = JSON.stringify({ port: 0, data, samples: '/no/samples' });
  const { child, said } = npmStart(
    `import { serve } from ${sourceOf('serve.ts')}; await serve(${options}); ${tellsItsEnd}`,
  );
  const api = new CheckedApi((await said(/http:\/\/\S+/))[0]);
  const bikeId = await api.addHutBike();
  await api.send(`/api/uploads?bike=${bikeId}`, madeRides(1, { minutes: 30 }));
  const database = new Database(join(data, 'cogwright.sqlite'), { readonly: true });
  const ride = database.prepare('SELECT status, attempts FROM ride');
  while ((ride.get() as { attempts: number }).attempts === 0) await pause(5);
  pressCtrlC(child);
  await said(/"msg":"stopped"/);
  await said(/ends with 0/);
  expect(ride.all()).toEqual([{ status: 'queued', attempts: 0 }]);
  database.close();
});

it('a second Ctrl+C ends at once what does not stop', async () => {
  const { child, said } = npmStart(
    `import { stopOnSignal } from ${sourceOf('stop-on-signal.ts')};
     const stopping = stopOnSignal(() => new Promise(() => console.log('closing')));
     setInterval(() => console.log(stopping.aborted ? 'waits' : 'runs'), 100);
     ${tellsItsEnd}`,
  );
  await said(/runs/);
  pressCtrlC(child);
  await said(/closing/);
  await said(/(waits\s+){13}/);
  pressCtrlC(child);
  await said(/ends with 130/);
});

it('stops when npm alone is asked to end', async () => {
  const { child, said } = npmStart(
    `import { stopOnSignal } from ${sourceOf('stop-on-signal.ts')};
     stopOnSignal(async () => console.log('closing'));
     setInterval(() => console.log('runs'), 100);
     ${tellsItsEnd}`,
  );
  await said(/runs/);
  child.kill('SIGTERM');
  await said(/closing\s+ends with 0/);
});
