import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { pino } from 'pino';
import { startServer } from '../../server/start-server.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));

export interface RealServer {
  readonly address: string;
  /** Resolves when the samples are loaded and everything has been worked through. */
  settled(): Promise<void>;
  close(): Promise<void>;
}

/** The real server with the built page on a data folder of its own, empty but for the samples if asked for. */
export async function startRealServer({ samples = false } = {}): Promise<RealServer> {
  const data = mkdtempSync(join(tmpdir(), 'cogwright-browser-'));
  const server = await startServer({
    version: '0.0.1',
    port: 0,
    data: join(data, 'data'),
    listen: '127.0.0.1',
    token: null,
    samples: samples ? join(root, 'sample-rides') : null,
    page: join(root, 'dist/web'),
    log: pino({ level: 'silent' }),
  });
  return {
    address: server.url,
    settled: async () => {
      await server.samplesLoaded;
      const pending = async (): Promise<number> => {
        const { bikes } = (await (await fetch(`${server.url}/api/bikes`)).json()) as { bikes: { pending: number }[] };
        return bikes.reduce((sum, bike) => sum + bike.pending, 0);
      };
      while ((await pending()) > 0) await new Promise((resolve) => setTimeout(resolve, 300));
    },
    close: async () => {
      await server.close();
      rmSync(data, { recursive: true, force: true });
    },
  };
}

/** A sample bike whose log holds an adjustment: a ride from before it, and the last one after it. */
export interface SampleStory {
  readonly before: string;
  readonly after: string;
  /** For the form's field, taken as local time. */
  readonly when: string;
  readonly clicks: string;
}

/** The sample bikes that were adjusted, in the order of their folders. */
export function sampleStories(): SampleStory[] {
  const samples = join(root, 'sample-rides');
  return readdirSync(samples)
    .filter((folder) => existsSync(join(samples, folder, 'adjustments.csv')))
    .sort()
    .flatMap((folder) => {
      const [, row] = readFileSync(join(samples, folder, 'adjustments.csv'), 'utf8').split('\n');
      const [at, parameter, clicks] = (row ?? '').split(',');
      if (parameter !== 'cable-tension') return [];
      const rides = readdirSync(join(samples, folder))
        .filter((file) => file.endsWith('.fit'))
        .sort();
      const ride = (file: string): string => join(samples, folder, file);
      return [{ before: ride(rides[0]), after: ride(rides[rides.length - 1]), when: at.slice(0, 16), clicks }];
    });
}
