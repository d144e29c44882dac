import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { seededRandom } from '../../src/numeric/seeded-random.ts';
import { scriptOptions } from '../script-options.ts';
import { hutBike } from '../server/made-rides.ts';
import { CrashLoad } from './crash-load.ts';
import { type InspectedData, inspectData } from './inspect-data.ts';
import { Ledger } from './ledger.ts';
import { startChild } from './server-child.ts';

const usage = `npm run crash [-- --kills 200 --seed 1]: kills the built server with SIGKILL at random moments under uploads,
adjustments, judgements and re-analysis, now and then while it starts, and holds what is on the disk against what was
acknowledged. Ends with 1 at the first loss, and leaves the data folder for a look.`;
const values = scriptOptions(usage, {
  kills: { type: 'string', default: '200' },
  seed: { type: 'string', default: '1' },
});
const kills = Number(values.kills);
const random = seededRandom(Number(values.seed), 'crash');
const data = mkdtempSync(join(tmpdir(), 'cogwright-crash-'));
const ledger = new Ledger();
const started = performance.now();
const acknowledged = (): string => [...ledger.acknowledged].map(([kind, count]) => `${count} ${kind}s`).join(', ');
let [halves, midStart] = [0, 0];

const load = new CrashLoad(ledger, random, await makeBikes());
for (let kill = 1; kill <= kills; kill++) {
  const server = startChild(data);
  if (random.chance(0.15)) {
    midStart++;
    await new Promise((resolve) => setTimeout(resolve, random.between(50, 1500)));
    await server.kill();
  } else {
    const url = await server.url;
    for (const bike of load.bikes) load.learn(bike, await logOf(url, bike));
    const loading = load.run(url);
    // Now and then long enough for whole analyses, so that there is something to judge.
    await new Promise((resolve) => setTimeout(resolve, random.between(5, kill % 8 === 1 ? 10_000 : 2500)));
    await server.kill();
    await loading;
  }
  halves += readdirSync(join(data, 'incoming')).length;
  const found = inspectData(data);
  judge(found, `kill ${kill}`);
  if (kill % 20 === 0) console.log(`${kill} kills, ${acknowledged()}`);
}
await settle();
const end = inspectData(data);
judge(end, 'the end');
const unfinished = [...end.statuses].filter(([status]) => status !== 'done');
if (unfinished.length > 0) fail('the end', [`rides that are not done: ${JSON.stringify(unfinished)}`]);
if (readdirSync(join(data, 'incoming')).length > 0) fail('the end', ['halves are left']);
rmSync(data, { recursive: true });
console.log(
  `${kills} kills (${midStart} of them before the server listened) in ${Math.round((performance.now() - started) / 1000)} s: ` +
    `acknowledged and all there: ${acknowledged()}; ${ledger.unanswered} without an answer, none half; ` +
    `${halves} files on their way in thrown away; ${end.rides} rides, all analysed; database sound after each kill.`,
);

function judge(found: InspectedData, when: string): void {
  const wrong = [
    ...found.wrong,
    ...ledger.check('ride', found.ride),
    ...ledger.check('adjustment', found.adjustment),
    ...ledger.check('judgement', found.judgement),
    ...ledger.check('bike', found.bike),
  ];
  if (wrong.length > 0) fail(when, wrong);
}

function fail(when: string, wrong: readonly string[]): never {
  console.error(`After ${when}, in ${data}:\n${wrong.slice(0, 20).join('\n')}`);
  process.exit(1);
}

async function makeBikes(): Promise<string[]> {
  const server = startChild(data);
  const url = await server.url;
  const ids: string[] = [];
  for (let i = 0; i < 3; i++) {
    const response = await fetch(`${url}/api/bikes`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(hutBike),
    });
    const { id } = (await response.json()) as { id: string };
    ids.push(id);
    await ledger.write(`bike ${id}`, hutBike.cassette.join('-'), async () => {});
  }
  await server.kill();
  return ids;
}

async function logOf(url: string, bike: string): Promise<{ id: string; note: string }[]> {
  const response = await fetch(`${url}/api/bikes/${bike}`);
  return ((await response.json()) as { adjustmentsLog: { id: string; note: string }[] }).adjustmentsLog;
}

/** Lets the server end all that is left to do, then kills it once more. */
async function settle(): Promise<void> {
  const server = startChild(data);
  const url = await server.url;
  for (;;) {
    const { bikes } = (await (await fetch(`${url}/api/bikes`)).json()) as { bikes: { pending: number }[] };
    if (bikes.every(({ pending }) => pending === 0)) break;
    await new Promise((resolve) => setTimeout(resolve, 200));
  }
  await server.kill();
}
