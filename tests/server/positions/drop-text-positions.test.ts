import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dropCsvPositions } from '../../../server/positions/drop-csv-positions.ts';
import { dropPositions } from '../../../server/positions/drop-positions.ts';
import { EquatorLine } from '../../../server/positions/position-trace.ts';
import { greatCircleM } from '../../../src/ride-log/path-length.ts';
import { readRideLog } from '../../../src/ride-log/read-ride-log.ts';

const tellsPlace = (bytes: Uint8Array): boolean => /[>"](46\.5|9\.8)|home/i.test(new TextDecoder().decode(bytes));

const gpx = (point: (i: number) => string): Uint8Array =>
  new TextEncoder().encode(
    `<?xml version="1.0"?><gpx version="1.1" creator="x" xmlns="urn:gpx" xmlns:e="urn:e">
<metadata><name>Home to hut</name><bounds minlat="46.5" minlon="9.8" maxlat="46.6" maxlon="9.9"/></metadata>
<wpt lat="46.512" lon="9.812"><name>Home</name></wpt><rte><rtept lat="46.513" lon="9.813"/></rte>
<trk><name>From home</name><type>cycling</type><trkseg>${Array.from({ length: 90 }, (_, i) => point(i)).join('\n')}</trkseg></trk></gpx>`,
  );
const at = (i: number): string => new Date(Date.UTC(2026, 5, 1, 8) + i * 1000).toISOString();
const place = (i: number): string => `lat="${46.5 + i * 4e-5}" lon="${9.8 + i * 3e-5}"`;

describe('positions of a GPX file', () => {
  const text = (bytes: Uint8Array): string => new TextDecoder().decode(bytes);

  it('are gone from the words that say what was ridden, and from times', () => {
    const track = gpx(
      (i) => `<trkpt ${place(i)}><time>${at(i)}</time><extensions><e:cad>80</e:cad></extensions></trkpt>`,
    );
    const hidden = text(track).replace(
      '<type>cycling</type>',
      '<type>46.51, 9.81</type><time>2026-06-01T46.51,9.81</time>',
    );
    const kept = text(dropPositions('ride.gpx', new TextEncoder().encode(hidden)).bytes);
    expect(kept).not.toMatch(/46\.51|9\.81/);
    expect(kept).toContain(at(0));
  });

  it('are gone with names and way points; the steps stay where speed must come from them', () => {
    const bytes = gpx(
      (i) => `<trkpt ${place(i)}><ele>900</ele><time>${at(i)}</time><extensions><e:cad>80</e:cad></extensions></trkpt>`,
    );
    const placeless = dropPositions('ride.gpx', bytes);
    expect(placeless).toMatchObject({ positions: 'dropped', same: true });
    expect(tellsPlace(placeless.bytes)).toBe(false);
    expect(text(placeless.bytes).includes('<type>cycling</type>')).toBe(true);
    expect(/lat="0" lon="0\.00\d+"/.test(text(placeless.bytes))).toBe(true);
    expect(placeless.log.speedSource).toBe('positions');
  });

  it('leave nothing at all where speed was recorded', () => {
    const bytes = gpx(
      (i) =>
        `<trkpt ${place(i)}><time>${at(i)}</time><extensions><e:speed>5.5</e:speed><e:cad>80</e:cad></extensions></trkpt>`,
    );
    const placeless = dropPositions('ride.gpx', bytes);
    expect(placeless.same).toBe(true);
    expect(/ lon="0\.\d*[1-9]/.test(text(placeless.bytes))).toBe(false);
    expect(tellsPlace(placeless.bytes)).toBe(false);
  });

  it('are gone from a file that is cut off, which stays cut off', () => {
    const bytes = gpx((i) => `<trkpt ${place(i)}><time>${at(i)}</time></trkpt>`).slice(0, 3000);
    const placeless = dropPositions('ride.gpx', bytes);
    expect(tellsPlace(placeless.bytes)).toBe(false);
    expect(placeless.log.timeS).toHaveLength(readRideLog('ride.gpx', bytes).timeS.length);
    expect(placeless.warnings.length).toBeGreaterThan(0);
  });
});

describe('positions under names of a writer’s own', () => {
  const text = (bytes: Uint8Array): string => new TextDecoder().decode(bytes);
  const own =
    '<x:start_lat>46.51234</x:start_lat><x:startLon>9.81234</x:startLon><lng>9.80001</lng><y>46.50001</y>' +
    '<x:latE7>465000100</x:latE7><x:at><x:deg>46.5</x:deg></x:at><w>465000.100</w>';

  it('are gone from a GPX file, where what is read stays', () => {
    const bytes = gpx(
      (i) =>
        `<trkpt ${place(i)}><time>${at(i)}</time><y>46.5</y><extensions>${own}<e:tpx><e:speed>5.5</e:speed><e:cad>80</e:cad><power>210</power></e:tpx></extensions></trkpt>`,
    );
    const placeless = dropPositions('ride.gpx', bytes);
    expect(placeless).toMatchObject({ positions: 'dropped', same: true });
    expect(text(placeless.bytes)).not.toMatch(/46\.?5|9\.8/);
    expect(text(placeless.bytes).match(/<power>210<\/power>/g)).toHaveLength(90);
    expect([placeless.log.cadenceRpm[3], placeless.log.powerW[3]]).toEqual([80, 210]);
  });

  it('are gone from the points, laps and activities of a TCX file, where what is read stays', () => {
    const points = Array.from(
      { length: 90 },
      (_, i) =>
        `<Trackpoint><Time>${at(i)}</Time><DistanceMeters>${i * 5}</DistanceMeters><Cadence>80</Cadence><Extensions>${own}<n:TPX><n:Speed>5.5</n:Speed><n:Watts>210</n:Watts></n:TPX></Extensions></Trackpoint>`,
    );
    const extensions = `<Extensions>${own}</Extensions>`;
    const bytes = new TextEncoder().encode(
      `<TrainingCenterDatabase xmlns="urn:t"><Activities><Activity Sport="Biking"><Id>${at(0)}</Id><Lap StartTime="${at(0)}"><Track>${points.join('')}</Track>${extensions}</Lap>${extensions}</Activity></Activities></TrainingCenterDatabase>`,
    );
    const placeless = dropPositions('ride.tcx', bytes);
    expect(placeless.same).toBe(true);
    expect(text(placeless.bytes)).not.toMatch(/46\.?5|9\.8/);
    expect(text(placeless.bytes).match(/<n:Watts>210<\/n:Watts>/g)).toHaveLength(90);
    expect([placeless.log.cadenceRpm[3], placeless.log.powerW[3]]).toEqual([80, 210]);
  });
});

describe('positions of a TCX file', () => {
  it('are gone, with notes and names', () => {
    const points = Array.from(
      { length: 90 },
      (_, i) =>
        `<Trackpoint><Time>${at(i)}</Time><Position><LatitudeDegrees>${46.5 + i * 4e-5}</LatitudeDegrees><LongitudeDegrees>${9.8 + i * 3e-5}</LongitudeDegrees></Position><DistanceMeters>${i * 5}</DistanceMeters><Cadence>80</Cadence></Trackpoint>`,
    );
    const bytes = new TextEncoder().encode(
      `<TrainingCenterDatabase xmlns="urn:t"><Activities><Activity Sport="Biking"><Id>${at(0)}</Id><Notes>home &amp; back</Notes><Lap StartTime="${at(0)}"><Track>${points.join('')}</Track></Lap></Activity></Activities></TrainingCenterDatabase>`,
    );
    const placeless = dropPositions('ride.tcx', bytes);
    expect(placeless).toMatchObject({ positions: 'dropped', same: true });
    expect(tellsPlace(placeless.bytes)).toBe(false);
    const text = new TextDecoder().decode(placeless.bytes);
    expect(text.match(/<Trackpoint>/g)).toHaveLength(90);
    expect(text.includes('Position')).toBe(false);
  });
});

describe('positions of a CSV file', () => {
  const csv = (text: string): Uint8Array => new TextEncoder().encode(text);

  it('go with every column that has no meaning here', () => {
    const bytes = csv('time_s,lat,speed_mps,lon,note\n0,46.5,5,9.8,"home, sweet"\n1,46.6,5,9.9,x,\n');
    const { bytes: placeless } = dropCsvPositions('ride.csv', bytes);
    expect(new TextDecoder().decode(placeless)).toBe('time_s,lat,speed_mps,lon,note\n0,,5,,\n1,,5,,\n');
  });

  it('go with a row of too many cells, which the reader leaves out', () => {
    const rows = Array.from({ length: 40 }, (_, i) => (i === 7 ? '7,46.7,5,9.8,1\n' : `${i},5,46.5\n`)).join('');
    const bytes = csv(`time_s,speed_mps,lat\n${rows}`);
    const placeless = dropPositions('ride.csv', bytes);
    expect(placeless).toMatchObject({ positions: 'dropped', same: true, log: { timeS: { length: 39 } } });
    expect(new TextDecoder().decode(placeless.bytes)).not.toMatch(/46\.|9\.8/);
  });

  it('leave a file of known columns as it is, byte for byte', () => {
    const bytes = csv('\uFEFFtime_s;speed_mps\r\n0;5,5\r\n1;5,6\r\n');
    expect(dropCsvPositions('ride.csv', bytes).bytes).toBe(bytes);
  });
});

describe('the line along the equator', () => {
  it('keeps every step and stays on the earth', () => {
    const degrees = (most: number) => fc.double({ min: -most, max: most, noNaN: true });
    fc.assert(
      fc.property(fc.array(fc.tuple(degrees(90), degrees(180)), { minLength: 2, maxLength: 30 }), (points) => {
        const line = new EquatorLine();
        const stands = points.map(([lat, lon]) => line.next(lat, lon) as number);
        points.slice(1).forEach(([lat, lon], i) => {
          const step = greatCircleM(points[i][0], points[i][1], lat, lon);
          expect(Math.abs(stands[i + 1])).toBeLessThanOrEqual(180.000001);
          expect(greatCircleM(0, stands[i], 0, stands[i + 1])).toBeCloseTo(step, 0);
        });
      }),
      { seed: 12 },
    );
  });
});
