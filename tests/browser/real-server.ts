import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { pino } from 'pino';
import { startServer } from '../../server/start-server.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));

export interface RealServer {
  readonly address: string;
  close(): Promise<void>;
}

/** The real server with the built page on an empty data folder of its own. */
export async function startRealServer(): Promise<RealServer> {
  const data = mkdtempSync(join(tmpdir(), 'cogwright-browser-'));
  const server = await startServer({
    port: 0,
    data: join(data, 'data'),
    listen: '127.0.0.1',
    token: null,
    samples: null,
    page: join(root, 'dist/web'),
    log: pino({ level: 'silent' }),
  });
  return {
    address: server.url,
    close: async () => {
      await server.close();
      rmSync(data, { recursive: true, force: true });
    },
  };
}

/** A ride of a sample bike. */
export const sampleRide = (bike: string, ride: number): string => join(root, 'sample-rides', bike, `ride-${ride}.fit`);
