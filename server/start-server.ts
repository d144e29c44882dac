import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { availableParallelism, networkInterfaces } from 'node:os';
import type { Logger } from 'pino';
import { makeApp } from './app.ts';
import { type DataFolder, openDataFolder, refusal } from './data-folder/data-folder.ts';
import { recover } from './data-folder/recover.ts';
import { EventStreams } from './http/event-streams.ts';
import { UploadGate } from './intake/upload-gate.ts';
import { RawStore } from './raw/raw-store.ts';
import { loadSamples } from './samples/load-samples.ts';
import type { Services, UploadLimits } from './services.ts';
import { listBikes } from './store/bike-store.ts';
import { openDatabase } from './store/open-database.ts';
import type { Sql } from './store/sql.ts';
import { ListenError } from './strangers/listen-error.ts';
import { urlsElsewhere } from './strangers/urls-elsewhere.ts';
import { ChangeHub } from './work/change-hub.ts';
import { WorkQueue } from './work/work-queue.ts';
import { WorkerPool } from './work/worker-pool.ts';

/** As the page and the messages count them. */
const MEGABYTE = 1_000_000;

/** The two kinds of threads: those that someone waits for, and those for analysis. */
export interface Threads {
  readonly intake: WorkerPool;
  readonly analysis: WorkerPool;
}

/** What a server is started with. */
export interface StartOptions {
  /** Version of the whole program. */
  readonly version: string;
  readonly port: number;
  readonly data: string;
  readonly listen: string;
  readonly token: string | null;
  /** Folder of sample bikes, loaded on the first start; null for none. */
  readonly samples: string | null;
  readonly page: string;
  readonly log: Logger;
  readonly limits?: Partial<UploadLimits>;
  /** Threads to work with, which then outlive the server; by default it has its own. */
  readonly threads?: Threads;
}

/** A server that runs. */
export interface RunningServer {
  readonly url: string;
  /** Where other machines find it, if it listens on every address of this one. */
  readonly urlsElsewhere: readonly string[];
  readonly services: Services;
  /** Samples are loaded when this ends. */
  readonly samplesLoaded: Promise<void>;
  close(): Promise<void>;
}

const usualLimits: UploadLimits = {
  files: 200,
  fileBytes: 64 * MEGABYTE,
  archiveBytes: 4000 * MEGABYTE,
  atOnce: 8,
  silentMs: 30_000,
};

/**
 * Starts a server on its data folder.
 *
 * @throws DataFolderError, ListenError: nothing was changed
 */
export async function startServer(options: StartOptions): Promise<RunningServer> {
  const folder = openDataFolder(options.data);
  let sql: Sql | undefined;
  try {
    sql = await openDatabase(folder.database, { backup: folder.backup });
    const raw = new RawStore(folder.raw);
    const recovered = recover(folder, sql, raw);
    if (recovered.halves + recovered.orphans > 0)
      options.log.info(recovered, 'halves of an earlier run were thrown away');
    if (recovered.unclaimed > 0)
      options.log.warn(
        { files: recovered.unclaimed, folder: folder.unclaimed },
        'the database does not know some ride files; they were set aside and can be added as rides again',
      );
    for (const { id, readable } of listBikes(sql))
      if (!readable)
        options.log.error({ bikeId: id }, 'what is stored of this bike is no bike; its drivetrain is not known');
    return await run(options, folder, sql, raw);
  } catch (error) {
    sql?.database.close();
    folder.release();
    throw refusal(folder.path, error);
  }
}

async function run(options: StartOptions, folder: DataFolder, sql: Sql, raw: RawStore): Promise<RunningServer> {
  const { log } = options;
  const lanes = Math.max(1, availableParallelism() - 1);
  const hub = new ChangeHub();
  const { intake, analysis } = options.threads ?? ownThreads(lanes);
  const queue = new WorkQueue({ sql, raw, database: folder.database, pool: analysis, hub, log }, lanes);
  const uploadLimits = { ...usualLimits, ...options.limits };
  const services: Services = {
    version: options.version,
    folder,
    sql,
    raw,
    hub,
    queue,
    intake,
    streams: new EventStreams(),
    limits: uploadLimits,
    gate: new UploadGate(uploadLimits.atOnce),
    log,
  };
  const server = createServer(
    { requestTimeout: 15 * 60_000, headersTimeout: 20_000, keepAliveTimeout: 10_000, maxHeaderSize: 16 * 1024 },
    makeApp(services, options),
  );
  server.maxConnections = 1000;
  await listen(server, options);
  try {
    queue.start();
  } catch (error) {
    server.close();
    throw error;
  }
  const samplesLoaded = options.samples === null ? Promise.resolve() : samplesInto(services, options.samples);
  let closing: Promise<void> | undefined;
  return {
    url: urlOf(server, options.listen),
    urlsElsewhere: urlsElsewhere(options.listen, (server.address() as AddressInfo).port, networkInterfaces()),
    services,
    samplesLoaded,
    close: () => {
      closing ??= shutDown(server, services, options.threads ? [] : [intake, analysis], samplesLoaded);
      return closing;
    },
  };
}

/** Analysis stands back for answering and for reading uploads, which someone waits for. */
function ownThreads(lanes: number): Threads {
  const limits = { longestMs: 300_000, memoryMb: 1024 };
  return { intake: new WorkerPool(1, limits, 0), analysis: new WorkerPool(lanes, limits, 10) };
}

async function samplesInto(services: Services, samples: string): Promise<void> {
  try {
    const { bikes, rides } = await loadSamples(services, samples);
    if (bikes > 0) services.log.info({ bikes, rides }, 'sample bikes were loaded');
  } catch (error) {
    services.log.error({ err: error }, 'the sample bikes could not be loaded');
  }
}

function listen(server: Server, { port, listen: address }: StartOptions): Promise<void> {
  return new Promise((resolve, reject) => {
    server.once('error', (error) => reject(new ListenError(address, port, (error as { code?: string }).code ?? '')));
    server.listen({ port, host: address }, resolve);
  });
}

function urlOf(server: Server, address: string): string {
  const { port } = server.address() as AddressInfo;
  const name = address === '0.0.0.0' ? '127.0.0.1' : address === '::' ? '::1' : address;
  return `http://${name.includes(':') ? `[${name}]` : name}:${port}`;
}

/** Lets requests under way end for a moment, stops all work, and lets go of the data folder. */
async function shutDown(
  server: Server,
  { streams, queue, sql, folder, log }: Services,
  threads: readonly WorkerPool[],
  samplesLoaded: Promise<void>,
): Promise<void> {
  // Takes up nothing more from here on: what was begun now would only be broken off.
  const worked = queue.close();
  const closed = new Promise<void>((resolve) => server.close(() => resolve()));
  streams.endAll();
  server.closeIdleConnections();
  const lastCall = setTimeout(() => server.closeAllConnections(), 2000);
  await closed;
  clearTimeout(lastCall);
  await Promise.all(threads.map((pool) => pool.close()));
  await Promise.all([worked, samplesLoaded]);
  sql.database.close();
  folder.release();
  log.info('stopped');
}
