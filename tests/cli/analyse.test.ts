import {
  copyFileSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Command } from 'commander';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { reportSchema } from '../../src/report/report-schema.ts';
import { simulationFiles } from '../../src/simulate/simulation-files.ts';
import { runCogwright } from './run-cogwright.ts';

const folder = mkdtempSync(join(tmpdir(), 'cogwright-cli-'));
const at = (...path: string[]): string => join(folder, ...path);
const bike = at('hut', 'bike.json');

beforeAll(() => {
  mkdirSync(at('hut', 'second'), { recursive: true });
  for (const file of simulationFiles({ cause: 'no-fault', seed: 5, rides: 2, durationS: 900 })) {
    const inner = file.path.startsWith('ride-2') ? 'second' : '';
    writeFileSync(at('hut', inner, file.path), file.bytes);
  }
  writeFileSync(at('hut', 'notes.txt'), 'Serviced by the hut keeper.');
  writeFileSync(at('broken.fit'), 'not a ride');
  mkdirSync(at('empty'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('analyse', () => {
  it('says of a ride that it is dated in the time to come, of no other', async () => {
    const rows = Array.from({ length: 50 }, (_, s) => `2150-04-02T08:00:${10 + s}Z,5,80`);
    writeFileSync(at('to-come.csv'), ['time,speed_mps,cadence_rpm', ...rows].join('\n'));
    const { stdout } = await runCogwright('analyse', at('to-come.csv'), at('hut', 'ride-1.fit'), '-b', bike, '--json');
    const codes = JSON.parse(stdout).rides.map(({ warnings }: { warnings: { code: string }[] }) =>
      warnings.filter(({ code }) => code === 'ride-to-come'),
    );
    expect(codes.map((found: unknown[]) => found.length)).toEqual([0, 1]);
    rmSync(at('to-come.csv'));
  });

  it('says of bike files beside the rides of a folder that they were left alone, or that there are several', async () => {
    const said = async (...args: string[]) => (await runCogwright('analyse', ...args, '--json')).stderr;
    expect(await said(at('hut'))).toContain(`Give it with --bike ${bike}; without it the bike is guessed`);
    expect(await said(at('hut'), '--bike', bike)).not.toContain('bike file');
    expect(await said(at('hut', 'ride-1.fit'))).not.toContain('bike file');
    const other = at('hut', 'second', 'bike.json');
    copyFileSync(bike, other);
    for (const given of [[], ['--bike', bike]])
      expect(await said(at('hut'), ...given)).toContain(`2 bike files lie beside these rides (${bike} and ${other})`);
    rmSync(other);
  });

  it('prints JSON and nothing else with --json, from a folder walked in order', async () => {
    const { code, stdout, stderr } = await runCogwright('analyse', at('hut'), '--bike', bike, '--json');
    expect(code).toBe(0);
    const report = reportSchema.parse(JSON.parse(stdout));
    expect(report.rides.map((ride) => ride.file)).toEqual([at('hut', 'ride-1.fit'), at('hut', 'second', 'ride-2.fit')]);
    expect(report.failed).toEqual([]);
    expect([report.bikeSource, report.bikeCertainty]).toEqual(['given', null]);
    expect(stderr).toBe('');
  });

  it('prints the readable report without --json, without escape codes into a pipe', async () => {
    const { code, stdout } = await runCogwright('analyse', at('hut', 'ride-1.fit'), '-b', bike);
    expect(code).toBe(0);
    expect(stdout).toMatch(/^Shifting report: /);
    for (const heading of ['Verdict', 'Next step', 'Cautions', 'What the logs cannot tell'])
      expect(stdout).toContain(`\n${heading}\n`);
    expect(stdout).not.toContain('\u001B');
  });

  it('explains every stage of every ride on standard error with --verbose', async () => {
    const { code, stdout, stderr } = await runCogwright('analyse', at('hut'), '-b', bike, '--json', '--verbose');
    expect(code).toBe(0);
    const { rides } = JSON.parse(stdout);
    expect(rides.length).toBe(2);
    for (const { file, counts, rolloutMm } of rides) {
      const told = stderr.slice(stderr.indexOf(file)).split('\n').slice(0, 5).join('\n');
      expect(told).toMatch(/read: \d{3} records of FIT, speed from wheel/);
      // the report's own figure is rounded already: rounded once more it may be off by one
      expect(Math.abs(Number(/rollout (\d+) mm/.exec(told)?.[1]) - rolloutMm)).toBeLessThan(0.6);
      expect(told).toContain(`shifts: ${counts.shifts}, of them judged ${counts.shifts - counts.unjudged}:`);
      expect(told).toContain(`${counts.clean} clean, ${counts.late} late, ${counts.missed} missed`);
      expect(told).toContain(`${counts.ghostShifts} ghost shifts, ${counts.chainDrops} chain drops`);
    }
  });

  it('guesses the drivetrain without --bike, and says so and how likely it is right', async () => {
    const { stdout } = await runCogwright('analyse', at('hut', 'ride-1.fit'), '--json');
    const { bikeSource, bikeCertainty } = JSON.parse(stdout);
    expect(bikeSource).toBe('guessed');
    expect(bikeCertainty).toBeGreaterThan(0.3);
    expect(bikeCertainty).toBeLessThan(1);
    const text = await runCogwright('analyse', at('hut', 'ride-1.fit'));
    expect(text.stdout.replace(/\s+/g, ' ')).toContain(
      `guessed from the rides, right with a likelihood of ${Math.round(100 * bikeCertainty)} %.`,
    );
  });

  it('writes one HTML page and tells so on standard error', async () => {
    const page = at('report.html');
    const { code, stdout, stderr } = await runCogwright('analyse', at('hut'), '-b', bike, '--html', page);
    expect(code).toBe(0);
    expect(readFileSync(page, 'utf8')).toMatch(/^<!doctype html>/);
    expect(stderr).toContain(page);
    expect(stdout).toContain('Verdict');
  });

  it('replaces with its page nothing but a page of its own', async () => {
    const ride = at('own.fit');
    const link = at('link.html');
    copyFileSync(at('hut', 'ride-1.fit'), ride);
    symlinkSync(ride, link);
    writeFileSync(at('letter.html'), '<!doctype html><title>A letter</title>');
    writeFileSync(at('adjusted.csv'), 'at,parameter,amount,unit,note\n');
    const files = { ride, bike, adjustments: at('adjusted.csv'), letter: at('letter.html') };
    const before = Object.values(files).map((file) => readFileSync(file));
    const html = (page: string) => runCogwright('analyse', ride, '-b', bike, '-a', files.adjustments, '--html', page);
    for (const page of [files.ride, link, files.bike, files.adjustments]) {
      const { code, stdout, stderr } = await html(page);
      expect([code, stdout]).toEqual([2, '']);
      expect(stderr).toContain(`--html ${page}: is one of the files to be read. Name another.`);
    }
    const other = await html(files.letter);
    expect(other.code).toBe(2);
    expect(other.stderr).toContain(
      `--html ${files.letter}: is there already and is no report of cogwright. Name another, or move it away.`,
    );
    expect(Object.values(files).map((file) => readFileSync(file))).toEqual(before);

    const page = at('again.html');
    writeFileSync(page, '');
    for (const _ of ['over an empty file', 'over a page']) expect((await html(page)).code).toBe(0);
    expect(readFileSync(page, 'utf8')).toMatch(/^<!doctype html>/);
  });

  it('lists what could not be read and goes on; --strict ends with 1', async () => {
    const rides = [at('hut', 'ride-1.fit'), at('broken.fit'), at('missing.fit'), at('empty')];
    const plain = await runCogwright('analyse', ...rides, '-b', bike, '--json');
    expect(plain.code).toBe(0);
    const { rides: read, failed } = JSON.parse(plain.stdout);
    expect(read).toHaveLength(1);
    expect(failed.map((entry: { file: string }) => entry.file)).toEqual([
      at('missing.fit'),
      at('empty'),
      at('broken.fit'),
    ]);
    for (const { file, code, message } of failed) {
      expect(plain.stderr).toContain(message);
      expect(message).toContain(file);
      expect(code).toMatch(/^[a-z-]+$/);
    }
    expect((await runCogwright('analyse', ...rides, '-b', bike, '--json', '--strict')).code).toBe(1);
  });

  it('ends with 1 when no ride could be read, with the reasons', async () => {
    const text = await runCogwright('analyse', at('broken.fit'), '-b', bike);
    expect(text.code).toBe(1);
    expect(text.stdout).toBe('');
    expect(text.stderr).toContain('no ride could be read');
    const json = await runCogwright('analyse', at('broken.fit'), '--json');
    expect(json.code).toBe(1);
    expect(JSON.parse(json.stdout)).toMatchObject({ version: 1, rides: [], failed: [{ file: at('broken.fit') }] });
  });

  it('counts a copy of a ride once and says so, which --strict does not mind', async () => {
    const copy = at('copy.fit');
    copyFileSync(at('hut', 'ride-1.fit'), copy);
    const once = await runCogwright('analyse', at('hut', 'ride-1.fit'), copy, '-b', bike, '--json', '--strict');
    expect(once.code).toBe(0);
    const { rides, failed } = JSON.parse(once.stdout);
    expect([rides.length, failed.length, failed[0].code]).toEqual([1, 1, 'duplicate']);
    expect(once.stderr).toMatch(/is the same ride as .*It was counted once/);
  });

  it('leaves out a cut copy as it does a copy', async () => {
    const rows = (from: number, to: number): string =>
      Array.from({ length: to - from }, (_, i) => {
        const at = new Date(Date.UTC(2026, 4, 1, 8, 0, from + i)).toISOString();
        return `${at},${5 + ((from + i) % 7) / 10},${80 + ((from + i) % 5)}\n`;
      }).join('');
    const [long, cut] = [at('long.csv'), at('cut.csv')];
    writeFileSync(long, `time,speed_mps,cadence_rpm\n${rows(0, 400)}`);
    writeFileSync(cut, `time,speed_mps,cadence_rpm\n${rows(100, 250)}`);
    const { code, stdout } = await runCogwright('analyse', cut, long, '-b', bike, '--json', '--strict');
    expect(code).toBe(0);
    const { rides, failed } = JSON.parse(stdout);
    expect(rides.map(({ file }: { file: string }) => file)).toEqual([long]);
    expect(failed).toEqual([
      {
        file: cut,
        code: 'duplicate',
        message: `${cut}: holds nothing but the ride ${long} or a part of it. It was counted once.`,
      },
    ]);
  });

  it('counts a file reached twice once', async () => {
    const { stdout } = await runCogwright('analyse', at('hut', 'ride-1.fit'), at('hut'), '-b', bike, '--json');
    expect(JSON.parse(stdout).rides).toHaveLength(2);
  });

  it.each([
    [[], 'missing required argument'],
    [['RIDE', '--jsn'], 'Did you mean --json?'],
    [['RIDE', '--json', '--html', 'x.html'], "'--html <file>' cannot be used with option '--json'"],
    [['RIDE', '--bike', 'FOLDER/none.json'], 'none.json: there is no such file'],
    [['RIDE', '--bike', 'FOLDER/broken.fit'], 'is not valid JSON'],
    [['RIDE', '--bike', 'FOLDER/misspelt.json'], '"casette" is perhaps "cassette"'],
    [['RIDE', '--adjustments', 'FOLDER/bad.csv'], 'bad.csv: line 2, column amount: found "two", must be a number'],
    [
      ['RIDE', '--bike', 'BIKE', '--adjustments', 'FOLDER/steps.csv'],
      /steps\.csv: index-offset of 2026-04-12.*: a bike with cable actuation has no index-offset.* try again\./,
    ],
    [['RIDE', '--bike', 'BIKE', '-b', 'BIKE'], "option '-b, --bike <file>' is given more than once: name one"],
    [['RIDE', '--html', 'FOLDER/no/such/page.html'], 'there is no folder'],
    [['RIDE', '--html', 'FOLDER'], 'is a folder'],
  ])('%j is wrong usage', async (args, words) => {
    writeFileSync(at('misspelt.json'), '{"name":"x","chainrings":[32],"casette":[11,13,15,17,19]}');
    writeFileSync(at('bad.csv'), 'at,parameter,amount,unit\n2026-04-12T18:30:00Z,cable-tension,two,clicks\n');
    writeFileSync(at('steps.csv'), 'at,parameter,amount,unit\n2026-04-12T18:30:00Z,index-offset,3,steps\n');
    const given = args.map((arg) =>
      arg.replace('RIDE', at('hut', 'ride-1.fit')).replace('BIKE', bike).replace('FOLDER', folder),
    );
    const { code, stdout, stderr } = await runCogwright('analyse', ...given);
    expect(code).toBe(2);
    expect(stdout).toBe('');
    if (typeof words === 'string') expect(stderr).toContain(words);
    else expect(stderr).toMatch(words);
  });

  it('takes an amount of 0 for a look, and only warns of an adjustment still to come', async () => {
    writeFileSync(
      at('odd.csv'),
      'at,parameter,amount,unit\n2026-04-12T18:30:00Z,cable-tension,0,clicks\n2199-04-12T18:30:00Z,cable-tension,1,clicks\n',
    );
    const { code, stdout, stderr } = await runCogwright(
      ...['analyse', at('hut', 'ride-1.fit'), '-b', bike, '-a', at('odd.csv'), '--json'],
    );
    expect(code).toBe(0);
    expect(stderr.match(/odd\.csv/g)).toHaveLength(1);
    expect(stderr).toMatch(/still to come/);
    expect(JSON.parse(stdout)).toMatchObject({
      adjustments: [{ amount: 1 }],
      looks: [{ at: '2026-04-12T18:30:00Z', parameter: 'cable-tension', unit: 'clicks' }],
    });
  });
});

describe('the program', () => {
  it.each([[['--help']], [['help', 'analyse']], [['analyse', '--help']], [['--version']]])(
    '%j ends with 0',
    async (args) => {
      const { code, stdout, stderr } = await runCogwright(...args);
      expect(code).toBe(0);
      expect(stdout.length).toBeGreaterThan(4);
      expect(stderr).toBe('');
    },
  );

  it.each([[[]], [['analyze']], [['--nonsense']]])('%j ends with 2 and a hint on standard error', async (args) => {
    const { code, stdout, stderr } = await runCogwright(...args);
    expect(code).toBe(2);
    expect(stdout).toBe('');
    expect(stderr).toMatch(/Did you mean analyse|--help|Usage/);
  });
});

describe('a fault of the program itself', () => {
  it('ends with a code of its own, not with the one that speaks of the rides', async () => {
    const broken = vi.spyOn(Command.prototype, 'parseAsync').mockRejectedValueOnce(new TypeError('no such thing'));
    const { code, stdout, stderr } = await runCogwright('analyse', at('hut'));
    broken.mockRestore();
    expect(code).toBe(70);
    expect(stdout).toBe('');
    expect(stderr).toContain('no such thing');
  });
});

describe('simulate', () => {
  it('writes rides with their truth, bike and adjustments, the same for the same seed', async () => {
    const args = ['simulate', '--fault', 'hanger-bent', '--seed', '7', '--minutes', '10', '--out'];
    const first = await runCogwright(...args, at('sim', 'a'));
    expect(first.code).toBe(0);
    expect(first.stdout.trim().split('\n')).toContain(at('sim', 'a', 'bike.json'));
    await runCogwright(...args, at('sim', 'b'));
    for (const path of first.stdout.trim().split('\n'))
      expect(readFileSync(path.replace('/a/', '/b/'))).toEqual(readFileSync(path));
  });

  const short = ['simulate', '--fault', 'no-fault', '--seed', '1', '--minutes', '5', '--out'];

  it.each(['ride-1.fit', 'bike.json', 'adjustments.csv'])('replaces no %s that it did not write', async (name) => {
    const out = at(`mine-${name}`);
    mkdirSync(out);
    writeFileSync(join(out, name), 'mine');
    const { code, stdout, stderr } = await runCogwright(...short, out);
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr).toContain(`--out ${out}: ${join(out, name)} is there already and was not written by simulate.`);
    expect(readdirSync(out)).toEqual([name]);
    expect(readFileSync(join(out, name), 'utf8')).toBe('mine');
  });

  it('replaces rides with their truth beside them, and says which of another simulation are left', async () => {
    const out = at('twice');
    expect((await runCogwright(...short, out, '--rides', '2')).stderr).not.toContain('still holds');
    const bytes = readFileSync(join(out, 'ride-1.fit'));
    const { code, stderr } = await runCogwright(...short, out, '--seed', '2');
    expect(code).toBe(0);
    expect(stderr).toContain(`${out} still holds ride-2 of another simulation`);
    expect(readFileSync(join(out, 'ride-1.fit'))).not.toEqual(bytes);
    rmSync(join(out, 'ride-2.truth.json'));
    expect((await runCogwright(...short, out, '--rides', '2')).stderr).toContain('ride-2.fit is there already');
  });

  it('ends where the system has no place for the folder', async () => {
    const { code, stderr } = await runCogwright(...short, '/proc/cogwright-none');
    expect(code).toBe(2);
    expect(stderr).toContain('--out /proc/cogwright-none: ');
    expect(stderr).toContain('could not be written');
  });

  it.each([
    [['--seed', '1', '--out', 'x'], '--fault'],
    [['--fault', 'gremlins', '--seed', '1', '--out', 'x'], '--fault gremlins: allowed: no-fault, '],
    [['--fault', 'no-fault', '--seed', '1', '--out', 'x', '--rides', '0'], '--rides 0: allowed: 1 to 100.'],
    [
      ['--fault', 'no-fault', '--seed', '1', '--out', 'x', '--minutes', '99999999'],
      '--minutes 99999999: allowed: 1 to 1440 minutes.',
    ],
    [['--fault', 'no-fault', '--seed', 'one', '--out', 'x'], 'It must be a whole number'],
  ])('%j is wrong usage', async (args, words) => {
    const { code, stderr } = await runCogwright('simulate', ...args);
    expect(code).toBe(2);
    expect(stderr).toContain(words);
  });
});
