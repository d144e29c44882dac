import { spawnSync } from 'node:child_process';
import {
  chmodSync,
  copyFileSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { defaultDataFolder } from '../../server/data-folder/default-data-folder.ts';
import { storageFault } from '../../server/data-folder/storage-fault.ts';
import { allMigrations } from '../../server/store/migrations/all-migrations.ts';
import { openDatabase } from '../../server/store/open-database.ts';
import { WorkQueue } from '../../server/work/work-queue.ts';
import { CheckedApi } from './checked-api.ts';
import { hutBike, tinyRide } from './made-rides.ts';
import { temporaryFolder, testServer } from './test-server.ts';

let folder: ReturnType<typeof temporaryFolder>;
let data: string;
beforeEach(() => {
  folder = temporaryFolder();
  data = join(folder.path, 'data');
});
afterEach(() => folder.remove());

/** Puts a disk of so small a size where the data folder is; false where nothing can be mounted. */
function mountDisk(size: string): boolean {
  mkdirSync(data);
  return spawnSync('mount', ['-t', 'tmpfs', '-o', `size=${size}`, 'none', data]).status === 0;
}
const unmountDisk = (): void => void spawnSync('umount', ['-l', data]);

/** Has a server keep one ride in the folder, and gives the id of its bike. */
async function fillWithARide(): Promise<string> {
  const server = await testServer({ data });
  const api = new CheckedApi(server.url);
  const bikeId = await api.addHutBike();
  await api.send(`/api/uploads?bike=${bikeId}`, [tinyRide(1)]);
  await api.settled();
  await server.close();
  return bikeId;
}

describe('the data folder', () => {
  it("is in the user's own data directory", () => {
    expect(defaultDataFolder({ XDG_DATA_HOME: '/data/of/ida' }, 'linux', '/home/ida')).toBe('/data/of/ida/cogwright');
    expect(defaultDataFolder({ XDG_DATA_HOME: 'not/absolute' }, 'linux', '/home/ida')).toBe(
      '/home/ida/.local/share/cogwright',
    );
    expect(defaultDataFolder({}, 'darwin', '/Users/ida')).toBe('/Users/ida/Library/Application Support/cogwright');
  });

  it('is closed to others', async () => {
    const server = await testServer({ data });
    const mode = spawnSync('stat', ['-c', '%a', data]).stdout.toString().trim();
    expect(mode).toBe('700');
    await server.close();
  });

  it('serves one server at a time, and the next as soon as that is gone', async () => {
    const first = await testServer({ data });
    await expect(testServer({ data })).rejects.toMatchObject({
      code: 'folder-in-use',
      message: expect.stringMatching(new RegExp(`another cogwright server.*process ${process.pid}`)),
    });
    expect((await new CheckedApi(first.url).get('/api/health')).status).toBe(200);
    await first.close();
    const second = await testServer({ data });
    await second.close();
  });

  it('is cleared of halves, and of files that no ride lays claim to', async () => {
    await fillWithARide();
    const orphan = join(data, 'raw', 'ab', `ab${'0'.repeat(62)}`);
    mkdirSync(join(data, 'raw', 'ab'), { recursive: true });
    writeFileSync(orphan, 'half');
    writeFileSync(join(data, 'incoming', 'half.part'), 'half');
    const second = await testServer({ data });
    expect(existsSync(orphan)).toBe(false);
    expect(readdirSync(join(data, 'incoming'))).toEqual([]);
    expect(second.logged).toContainEqual(expect.objectContaining({ halves: 1, orphans: 1 }));
    expect((await new CheckedApi(second.url).get('/api/rides')).body.rides).toHaveLength(1);
    await second.close();
  });

  it('with a database from elsewhere loses no ride file that it does not know', async () => {
    const bikeId = await fillWithARide();
    const database = join(data, 'cogwright.sqlite');
    copyFileSync(database, join(folder.path, 'copy.sqlite'));
    const second = await testServer({ data });
    const later = tinyRide(2);
    await new CheckedApi(second.url).send(`/api/uploads?bike=${bikeId}`, [later]);
    await new CheckedApi(second.url).settled();
    await second.close();

    copyFileSync(join(folder.path, 'copy.sqlite'), database);
    const third = await testServer({ data });
    const [name] = readdirSync(join(data, 'unclaimed'));
    expect(readFileSync(join(data, 'unclaimed', name)).equals(Buffer.from(later.bytes))).toBe(true);
    expect(third.logged).toContainEqual(
      expect.objectContaining({ level: 40, files: 1, folder: join(data, 'unclaimed') }),
    );
    expect((await new CheckedApi(third.url).get('/api/rides')).body.rides).toMatchObject([{ file: 'tiny-1.csv' }]);
    await third.close();

    rmSync(database);
    const fourth = await testServer({ data });
    expect(readdirSync(join(data, 'unclaimed'))).toHaveLength(2);
    await fourth.close();
  });

  it('that cannot be made is refused', async () => {
    writeFileSync(join(folder.path, 'file'), '');
    await expect(testServer({ data: join(folder.path, 'file', 'data') })).rejects.toMatchObject({
      code: 'folder-not-writable',
    });
    await expect(testServer({ data: '/proc/cogwright' })).rejects.toMatchObject({ code: 'folder-not-writable' });
  });

  it('that is read-only is refused, and nothing in it is touched', async ({ skip }) => {
    const first = await testServer({ data });
    await first.close();
    const before = contents();
    const made = spawnSync('mount', ['--bind', data, data]);
    const mounted = made.status === 0 && spawnSync('mount', ['-o', 'remount,ro,bind', data]).status === 0;
    if (!mounted) chmodSync(data, 0o500);
    try {
      if (!mounted && process.getuid?.() === 0) skip('root may write everywhere and nothing can be mounted here');
      await expect(testServer({ data })).rejects.toMatchObject({ code: 'folder-not-writable' });
      expect(contents()).toEqual(before);
    } finally {
      if (made.status === 0) spawnSync('umount', [data]);
      else chmodSync(data, 0o700);
    }
  });

  const contents = () =>
    readdirSync(data, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map((entry) => [entry.name, readFileSync(join(entry.parentPath, entry.name)).toString('base64')]);
});

describe('a full disk', () => {
  it('is told by whatever reports it', () => {
    for (const code of ['ENOSPC', 'EDQUOT', 'SQLITE_FULL']) expect(storageFault({ code })).toBe('disk-full');
    for (const code of ['EROFS', 'SQLITE_READONLY_DIRECTORY', 'SQLITE_CANTOPEN'])
      expect(storageFault({ code })).toBe('read-only');
    for (const code of ['SQLITE_CONSTRAINT_UNIQUE', 'ENOENT', undefined]) expect(storageFault({ code })).toBeNull();
    expect(storageFault(null)).toBeNull();
  });

  it('refuses uploads clearly, damages nothing, and takes them again when there is room', async ({ skip }) => {
    if (!mountDisk('4m')) skip('nothing can be mounted here');
    try {
      const server = await testServer({ data });
      const api = new CheckedApi(server.url);
      const bikeId = await api.addHutBike();
      expect((await api.send(`/api/uploads?bike=${bikeId}`, [tinyRide(1)])).status).toBe(202);
      await api.settled();
      const ballast = join(data, 'ballast');
      fillUp(ballast);
      const refused = await api.send(`/api/uploads?bike=${bikeId}`, [tinyRide(2)]);
      expect(refused).toMatchObject({
        status: 507,
        body: { error: { code: 'disk-full' } },
      });
      const adjustment = {
        at: '2026-04-12T18:30:00Z',
        parameter: 'chain',
        amount: null,
        unit: 'done',
        note: 'x'.repeat(2000),
      };
      let taken = 0;
      for (let i = 0; i < 40; i++) {
        const { status, body } = await api.post(`/api/bikes/${bikeId}/adjustments`, adjustment);
        if (status < 300) taken++;
        else expect({ status, code: body.error.code }).toEqual({ status: 507, code: 'disk-full' });
      }
      expect(taken).toBeLessThan(40);
      const kept = (await api.get(`/api/bikes/${bikeId}`)).body.adjustmentsLog.length;
      expect(kept).toBe(taken);
      expect((await api.get('/api/rides')).body.rides).toMatchObject([{ file: 'tiny-1.csv', status: 'done' }]);
      writeFileSync(ballast, '');
      expect((await api.send(`/api/uploads?bike=${bikeId}`, [tinyRide(2)])).status).toBe(202);
      expect((await api.get(`/api/bikes/${bikeId}`)).body.adjustmentsLog).toHaveLength(kept);
      expect(server.services.sql.database.pragma('integrity_check', { simple: true })).toBe('ok');
      await server.close();
    } finally {
      unmountDisk();
    }
  });

  it('that fills up amid a file is told at once, with what was kept before', async ({ skip }) => {
    if (!mountDisk('4m')) skip('nothing can be mounted here');
    try {
      const server = await testServer({ data });
      const api = new CheckedApi(server.url);
      const large = { name: 'large.fit', bytes: new Uint8Array(5e6) };
      const { status, body } = await api.send('/api/uploads', [tinyRide(1), large, tinyRide(2)]);
      expect({ status, code: body.error.code }).toEqual({ status: 507, code: 'disk-full' });
      // the large file may fill the disk before the one ahead of it is in the store: what is said must then be so
      const { rides } = (await api.get('/api/rides')).body;
      expect(rides.length).toBeLessThanOrEqual(1);
      if (rides.length === 1) {
        expect(rides).toMatchObject([{ file: 'tiny-1.csv' }]);
        expect(body.error.message).toMatch(/disk is full.* 1 file of these was kept before/);
      } else expect(body.error.message).toMatch(/disk is full.* None of the files was kept/);
      expect(body.error.details).toContainEqual(expect.objectContaining({ path: 'large.fit' }));
      for (const path of ['/api/drivetrain-guess', '/api/import'])
        expect(await api.send(path, [large])).toMatchObject({ status: 507, body: { error: { code: 'disk-full' } } });
      expect(readdirSync(join(data, 'incoming'))).toEqual([]);
      await api.settled();
      await server.close();
    } finally {
      unmountDisk();
    }
  });

  it('refuses a start clearly', async ({ skip }) => {
    if (!mountDisk('1m')) skip('nothing can be mounted here');
    try {
      fillUp(join(data, 'ballast'));
      await expect(testServer({ data })).rejects.toMatchObject({ code: 'disk-full' });
    } finally {
      unmountDisk();
    }
  });

  it('that is told only after the server listens leaves none that listens', async () => {
    const free = await testServer();
    const port = Number(new URL(free.url).port);
    await free.close();
    const start = vi.spyOn(WorkQueue.prototype, 'start').mockImplementation(() => {
      throw Object.assign(new Error('full'), { code: 'SQLITE_FULL' });
    });
    await expect(testServer({ data, port })).rejects.toMatchObject({ code: 'disk-full' });
    start.mockRestore();
    await expect(fetch(`http://127.0.0.1:${port}/`)).rejects.toThrow();
    const again = await testServer({ data, port });
    await again.close();
  });

  /** Writes until there is no room left. */
  function fillUp(file: string): void {
    for (const size of [65_536, 4096, 512])
      for (;;)
        try {
          writeFileSync(file, Buffer.alloc(size), { flag: 'a' });
        } catch {
          break;
        }
  }
});

describe('the database', () => {
  const file = (): string => join(data, 'cogwright.sqlite');
  const backup = (): string => join(data, 'backup');
  beforeEach(() => {
    mkdirSync(backup(), { recursive: true });
  });
  const firstOnly = Object.fromEntries(Object.entries(allMigrations).slice(0, 1));

  it('of the first version is copied and brought up to date with all that is in it', async () => {
    const old = await openDatabase(file(), { backup: backup(), migrations: firstOnly });
    old.database
      .prepare("INSERT INTO bike (id, spec, source, created_at) VALUES ('0123456789abcdef', ?, 'given', 1)")
      .run(JSON.stringify(hutBike));
    expect(old.database.pragma('user_version', { simple: true })).toBe(1);
    expect(old.database.prepare("SELECT name FROM sqlite_master WHERE name = 'judgement'").all()).toEqual([]);
    old.database.close();
    const server = await testServer({ data });
    const { bikes } = (await new CheckedApi(server.url).get('/api/bikes')).body;
    expect(bikes).toMatchObject([{ id: '0123456789abcdef', bike: hutBike }]);
    expect(server.services.sql.database.pragma('user_version', { simple: true })).toBe(
      Object.keys(allMigrations).length,
    );
    expect(server.services.sql.database.prepare('SELECT count(*) AS n FROM judgement').get()).toEqual({ n: 0 });
    await server.close();
    const [copy] = readdirSync(backup());
    const copied = new Database(join(backup(), copy), { readonly: true });
    expect(copied.prepare('SELECT id FROM bike').all()).toEqual([{ id: '0123456789abcdef' }]);
    expect(copied.pragma('user_version', { simple: true })).toBe(1);
    copied.close();
  });

  it('is copied whole or not at all, whatever an earlier try left behind', async () => {
    const old = await openDatabase(file(), { backup: backup(), migrations: firstOnly });
    old.database.close();
    const copy = `before-version-${Object.keys(allMigrations).length}.sqlite`;
    writeFileSync(join(backup(), `${copy}.half`), 'a half');
    const mended = await openDatabase(file(), { backup: backup() });
    mended.database.close();
    expect(readdirSync(backup())).toEqual([copy]);
    expect(new Database(join(backup(), copy)).pragma('integrity_check', { simple: true })).toBe('ok');
  });

  it('can be read by this user alone, whoever may look into the folder', async () => {
    chmodSync(data, 0o755);
    const server = await testServer({ data });
    const names = readdirSync(data).filter((name) => name.startsWith('cogwright.sqlite'));
    expect(names).toContain('cogwright.sqlite-wal');
    for (const name of names) expect(statSync(join(data, name)).mode & 0o077, name).toBe(0);
    await server.close();
  });

  it('is as it was after a migration that breaks off half way', async () => {
    const old = await openDatabase(file(), { backup: backup(), migrations: firstOnly });
    old.database.close();
    const broken = {
      ...firstOnly,
      '0002-broken': {
        up: async (kysely: Parameters<(typeof allMigrations)['0001-first-tables']['up']>[0]) => {
          await kysely.schema.createTable('half').addColumn('id', 'text').execute();
          throw new Error('the power went');
        },
      },
    };
    await expect(openDatabase(file(), { backup: backup(), migrations: broken })).rejects.toThrow('the power went');
    const after = new Database(file());
    expect(after.pragma('user_version', { simple: true })).toBe(1);
    expect(after.prepare("SELECT name FROM sqlite_master WHERE name = 'half'").all()).toEqual([]);
    after.close();
    const mended = await openDatabase(file(), { backup: backup() });
    mended.database.close();
  });

  it.each([
    ['of a newer version', 'database-newer', () => newer()],
    ['of another program', 'database-strange', () => another(1)],
    ['of another program that counts no versions', 'database-strange', () => another(0)],
    ['that is none', 'database-strange', () => writeFileSync(file(), 'x'.repeat(5000))],
  ])('%s is refused, and not a byte of it changed', async (_what, code, make) => {
    make();
    const before = readFileSync(file());
    await expect(testServer({ data })).rejects.toMatchObject({
      code,
      message: expect.stringContaining('nothing was changed'),
    });
    expect(readFileSync(file()).equals(before)).toBe(true);
  });

  function newer(): void {
    const database = new Database(file());
    database.pragma('user_version = 999');
    database.exec('CREATE TABLE future (id TEXT)');
    database.close();
  }
  function another(version: number): void {
    const database = new Database(file());
    database.pragma(`user_version = ${version}`);
    database.exec('CREATE TABLE recipe (id TEXT)');
    database.close();
  }
});
