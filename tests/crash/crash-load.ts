import type { SeededRandom } from '../../src/numeric/seeded-random.ts';
import { hoursLater, hutBike, madeRides, tinyRide } from '../server/made-rides.ts';
import type { Ledger } from './ledger.ts';

// biome-ignore lint/suspicious/noExplicitAny: answers are held against the ledger
type Loose = any;

/** Three drivetrains that bikes are switched between, so that their rides are analysed again. */
const cassettes = [
  hutBike.cassette,
  [11, 13, 15, 17, 19, 21, 24, 28, 32, 37, 46, 52],
  [10, 12, 14, 16, 18, 21, 24, 28, 32, 36, 42, 48],
];
const real = madeRides(6, { minutes: 6 });

/** Keeps writing to a server until it is gone: uploads, adjustments, judgements, drivetrains; several at a time. */
export class CrashLoad {
  #count = 0;
  readonly #adjustments = new Map<string, string[]>();

  constructor(
    readonly ledger: Ledger,
    readonly random: SeededRandom,
    readonly bikes: readonly string[],
  ) {}

  async run(url: string): Promise<void> {
    const gone = { yes: false };
    const over = async (work: () => Promise<boolean>): Promise<void> => {
      while (!gone.yes) if (!(await work())) gone.yes = true;
    };
    await Promise.all([
      over(() => this.#upload(url)),
      over(() => this.#upload(url)),
      ...this.bikes.map((bike) => over(() => this.#adjust(url, bike))),
      over(() => this.#judge(url)),
      over(() => this.#switch(url)),
    ]);
  }

  /** One to four files in one request: made rides now and then, else tiny ones. */
  async #upload(url: string): Promise<boolean> {
    const files = Array.from({ length: 1 + this.random.integer(4) }, () => {
      const variant = ++this.#count + 100_000 * this.random.integer(10_000);
      if (!this.random.chance(0.2)) return tinyRide(variant);
      return hoursLater(this.random.pick(real), variant);
    });
    const form = new FormData();
    for (const { name, bytes } of files) form.append('f', new Blob([new Uint8Array(bytes)]), name);
    const asked = fetch(`${url}/api/uploads?bike=${this.random.pick(this.bikes)}`, { method: 'POST', body: form })
      .then((response) => response.json())
      .then((answer: Loose) => new Map<string, Loose>(answer.files.map((file: Loose) => [file.name, file])));
    const results = await Promise.all(
      files.map(({ name }) =>
        this.ledger.write(`ride ${name}`, 'whole', async () => {
          const file = (await asked).get(name);
          if (file?.status === 'duplicate') throw new Error('content that was there already');
          if (file?.status !== 'queued') throw new Error(`not taken: ${JSON.stringify(file)}`);
        }),
      ),
    );
    return (
      results.every(Boolean) ||
      (await asked.then(
        () => true,
        () => false,
      ))
    );
  }

  /** Adds, corrects or removes an adjustment; its note is its name in the ledger. */
  async #adjust(url: string, bike: string): Promise<boolean> {
    await new Promise((resolve) => setTimeout(resolve, this.random.between(0, 120)));
    const path = `${url}/api/bikes/${bike}/adjustments`;
    const known = this.#adjustments.get(bike) ?? [];
    this.#adjustments.set(bike, known);
    const amount = this.random.integer(9) - 4;
    const body = { at: '2026-04-12T18:30:00Z', parameter: 'cable-tension', amount, unit: 'clicks' };
    const choice = this.random.uniform();
    if (known.length > 0 && choice < 0.3) {
      const [id, note] = this.random.pick(known).split(' ');
      const value = `${bike} ${amount}`;
      return this.ledger.write(`adjustment ${note}`, value, () => send('PUT', `${path}/${id}`, { ...body, note }));
    }
    if (known.length > 30 || (known.length > 0 && choice < 0.45)) {
      const [entry] = known.splice(this.random.integer(known.length), 1);
      const [id, note] = entry.split(' ');
      return this.ledger.write(`adjustment ${note}`, null, () => send('DELETE', `${path}/${id}`));
    }
    const note = `n${++this.#count}-${bike}`;
    return this.ledger.write(`adjustment ${note}`, `${bike} ${amount}`, async () => {
      const { id } = await send('POST', path, { ...body, note });
      known.push(`${id} ${note}`);
    });
  }

  async #judge(url: string): Promise<boolean> {
    try {
      const { rides } = (await send('GET', `${url}/api/rides`)) as Loose;
      const analysed = rides.filter(({ status, counts }: Loose) => status === 'done' && counts?.shifts > 0);
      if (analysed.length === 0) {
        await new Promise((resolve) => setTimeout(resolve, 50));
        return true;
      }
      const ride = this.random.pick(analysed) as Loose;
      const { report } = (await send('GET', `${url}/api/rides/${ride.id}`)) as Loose;
      if (!report?.shifts.length) return true;
      const { eventKey } = this.random.pick(report.shifts) as Loose;
      const verdict = this.random.pick(['confirmed', 'rejected']);
      const key = `judgement ${ride.file}/${eventKey}`;
      // Refused where the ride was analysed again meanwhile: then the server still answers, and nothing was written.
      const judging = `${url}/api/rides/${ride.id}/judgements/${eventKey}`;
      const judged = await this.ledger.write(key, verdict, () => send('PUT', judging, { verdict }));
      return judged || (await alive(url));
    } catch {
      return false;
    }
  }

  /** Another drivetrain every now and then. */
  async #switch(url: string): Promise<boolean> {
    await new Promise((resolve) => setTimeout(resolve, this.random.between(100, 4000)));
    const bike = this.random.pick(this.bikes);
    const cassette = this.random.pick(cassettes);
    return this.ledger.write(`bike ${bike}`, cassette.join('-'), () =>
      send('PUT', `${url}/api/bikes/${bike}`, { ...hutBike, name: bike, cassette }),
    );
  }

  /** After a restart: adjustments whose answer never came may be there under an id that nobody was told. */
  learn(bike: string, log: readonly { id: string; note: string }[]): void {
    this.#adjustments.set(
      bike,
      log.map(({ id, note }) => `${id} ${note}`),
    );
  }
}

const alive = (url: string): Promise<boolean> =>
  send('GET', `${url}/api/health`).then(
    () => true,
    () => false,
  );

async function send(method: string, url: string, json?: unknown): Promise<Loose> {
  const response = await fetch(url, {
    method,
    headers: json === undefined ? {} : { 'content-type': 'application/json' },
    body: json === undefined ? undefined : JSON.stringify(json),
  });
  const text = await response.text();
  if (!response.ok) throw new Error(`${response.status} ${text}`);
  return text === '' ? null : JSON.parse(text);
}
