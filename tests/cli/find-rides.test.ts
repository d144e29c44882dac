import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { gzipSync } from 'node:zlib';
import { afterAll, describe, expect, it } from 'vitest';
import { findRides } from '../../src/cli/find-rides.ts';
import { readRides } from '../../src/cli/read-rides.ts';
import { readTextFile } from '../../src/cli/read-text-file.ts';

const folder = mkdtempSync(join(tmpdir(), 'cogwright-find-'));
const put = (path: string, content: string | Uint8Array): string => {
  mkdirSync(join(folder, path, '..'), { recursive: true });
  writeFileSync(join(folder, path), content);
  return join(folder, path);
};
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('findRides', () => {
  it('takes from a folder what looks like a ride by its ending or its content, in the order of names', () => {
    put('bike/b.fit', '');
    put('bike/a/z.TCX', '');
    put('bike/a/ride.csv', 'time_s,speed_mps,rear_teeth\n0,1,11\n');
    put('bike/unnamed', Uint8Array.of(14, 16, 0, 0, 0, 0, 0, 0, 0x2e, 0x46, 0x49, 0x54, 0, 0));
    put('bike/track.xml', '<?xml version="1.0"?>\n<gpx version="1.1">');
    put('bike/quoted.csv', '\uFEFF"time";"cadence_rpm"\n');
    put('bike/bike.json', '{"name":"x"}');
    put('bike/adjustments.csv', 'at,parameter,amount,unit,note\n');
    put('bike/ride.truth.json', '{"speed_mps": 3}');
    put('bike/notes.txt', 'shift cadence');
    put('bike/.hidden.fit', '');
    put('bike/.git/x.fit', '');
    const { files, failed } = findRides([join(folder, 'bike')]);
    expect(files.map((file) => relative(join(folder, 'bike'), file))).toEqual([
      'a/ride.csv',
      'a/z.TCX',
      'b.fit',
      'quoted.csv',
      'track.xml',
      'unnamed',
    ]);
    expect(failed).toEqual([]);
  });

  it('takes every file that is named like a ride, so that none that cannot be read is passed over', () => {
    const empty = put('named-so/empty.csv', '');
    const names = put('named-so/names.csv', 'timestamp,speed,cadence\n');
    const german = put('named-so/others.CSV', 'Zeit;Tempo\n');
    const dead = join(folder, 'named-so', 'dead.fit');
    symlinkSync(join(folder, 'nowhere.fit'), dead);
    symlinkSync(join(folder, 'nowhere.txt'), join(folder, 'named-so', 'dead.txt'));
    put('named-so/adjustments.csv', '\uFEFF"At";"Parameter";"Amount"\n');
    put('named-so/work.csv', Buffer.from('\uFEFFparameter\tat\tnote\n', 'utf16le'));
    const bike = put('named-so/bike.csv', '{"name":"x"}');
    const { files, failed } = findRides([join(folder, 'named-so')], [bike]);
    expect(files).toEqual([empty, names, german]);
    expect(failed).toEqual([
      { file: dead, code: 'not-found', message: `${dead}: is a link that leads to no file. Check where it leads.` },
    ]);
    expect(readRides(files, { tell: () => {}, end: () => {} }).failed.map(({ code }) => code)).toEqual([
      'empty',
      'unknown-format',
      'unknown-format',
    ]);
  });

  it('takes packed files, so that they are named among those that could not be read', () => {
    const gzip = put('packed/ride.fit.gz', Uint8Array.of(0x1f, 0x8b, 8, 0));
    const zip = put('packed/rides.ZIP', Uint8Array.of(0x50, 0x4b, 3, 4));
    put('packed/table.xlsx', Uint8Array.of(0x50, 0x4b, 3, 4));
    put('packed/notes.gz', 'not packed');
    const { files, failed } = findRides([join(folder, 'packed')]);
    expect([files, failed]).toEqual([[gzip, zip], []]);
    expect(readRides(files, { tell: () => {}, end: () => {} }).failed.map(({ code }) => code)).toEqual([
      'packed',
      'packed',
    ]);
  });

  it('takes a ride packed with gzip as the same as unpacked, which counts once', () => {
    const rows = Array.from({ length: 30 }, (_, s) => `${s},5,80`);
    const csv = ['time_s,speed_mps,cadence_rpm', ...rows].join('\n');
    put('gzip/ride.csv', csv);
    const packed = put('gzip/ride.csv.gz', gzipSync(csv));
    put('gzip/other.gz', gzipSync(`${csv}\n31,5,80`));
    const { files } = findRides([join(folder, 'gzip')]);
    const { logs, failed } = readRides(files, { tell: () => {}, end: () => {} });
    expect(logs.map(({ timeS, format }) => [timeS.length, format])).toEqual([
      [31, 'csv'],
      [30, 'csv'],
    ]);
    expect(failed).toMatchObject([{ file: packed, code: 'duplicate' }]);
  });

  it('always tries a file that is named itself', () => {
    const notes = put('named/notes.txt', 'anything');
    expect(findRides([notes]).files).toEqual([notes]);
  });

  it('takes the same file once, by whatever way it is reached', () => {
    const ride = put('twice/a.fit', '');
    symlinkSync(ride, join(folder, 'twice', 'b.fit'));
    expect(findRides([ride, join(folder, 'twice'), ride]).files).toEqual([ride]);
  });

  it('follows no link to a folder, so that a circle ends', () => {
    put('circle/a.fit', '');
    symlinkSync(join(folder, 'circle'), join(folder, 'circle', 'again'));
    expect(findRides([join(folder, 'circle')]).files).toHaveLength(1);
  });

  it('reports what is missing and what holds no ride', () => {
    mkdirSync(join(folder, 'none'));
    const { files, failed } = findRides([join(folder, 'nowhere'), join(folder, 'none')]);
    expect(files).toEqual([]);
    expect(failed.map((entry) => entry.code)).toEqual(['not-found', 'no-rides']);
  });
});

describe('readTextFile', () => {
  it('reads UTF-8 and UTF-16 with a byte-order mark', () => {
    expect(readTextFile(put('u8.txt', 'Hütte'))).toBe('Hütte');
    expect(readTextFile(put('u16.txt', Buffer.from('\uFEFFHütte', 'utf16le')))).toBe('Hütte');
  });

  it('refuses what is no text, a folder and a missing file in words', () => {
    expect(() => readTextFile(put('bytes', Uint8Array.of(0xff, 0x00, 0xc0)))).toThrow('is not a text in UTF-8');
    expect(() => readTextFile(folder)).toThrow('is a folder, not a file');
    expect(() => readTextFile(join(folder, 'nothing'))).toThrow('there is no such file');
  });
});
