import { hoursLater, hutBike, madeRides } from '../server/made-rides.ts';

/**
 * The senders, in a process of their own so that making and sending rides does not slow the clock that times the
 * readers: `send-rides.ts URL SENDERS PAUSE_MS`. Each sends new rides to a bike of its own, one after the other, with a
 * pause drawn evenly from 0 to twice PAUSE_MS between them. Prints `ready`, begins when a line comes in, ends at the
 * next, and prints how many were sent and what went wrong.
 */
const [url, senders, pauseMs] = process.argv.slice(2);
const rides = madeRides(3, { seed: 9, minutes: 15 });
const errors: string[] = [];
let sent = 0;
let over = false;

const bikes = await Promise.all(Array.from({ length: Number(senders) }, (_, i) => addBike(`Load bike ${i + 1}`)));
const line = (): Promise<unknown> => new Promise((resolve) => process.stdin.once('data', resolve));
console.log('ready');
await line();
const sending = bikes.map(send);
await line();
over = true;
await Promise.all(sending);
console.log(JSON.stringify({ sent, errors: errors.slice(0, 10) }));
process.exit();

async function addBike(name: string): Promise<string> {
  const response = await fetch(`${url}/api/bikes`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ ...hutBike, name }),
  });
  return ((await response.json()) as { id: string }).id;
}

async function send(bikeId: string): Promise<void> {
  while (!over) {
    await new Promise((resolve) => setTimeout(resolve, Math.random() * 2 * Number(pauseMs)));
    const { name, bytes } = hoursLater(rides[sent % rides.length], ++sent);
    const form = new FormData();
    form.append('f', new Blob([new Uint8Array(bytes)]), name);
    try {
      const response = await fetch(`${url}/api/uploads?bike=${bikeId}`, { method: 'POST', body: form });
      const answer = (await response.json()) as { files?: { status: string }[] };
      if (answer.files?.[0].status !== 'queued') errors.push(`upload: ${response.status} ${JSON.stringify(answer)}`);
    } catch (error) {
      errors.push(`upload: ${error}`);
    }
  }
}
