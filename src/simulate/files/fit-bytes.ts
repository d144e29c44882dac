import { FitBaseType, FitEncoder, type FitEncoderField } from 'fit-file-parser/encoder';
import type { RideLog } from '../../ride-log/ride-log.ts';

const message = { fileId: 0, session: 18, lap: 19, record: 20, event: 21, deviceInfo: 23, activity: 34 } as const;
/** Device types by the network they are counted in (source 1: the sensors' network, 5: within the recorder). */
const device = { speedSensor: [123, 1], satelliteReceiver: [0, 5], shifting: [34, 1] } as const;
const event = { timer: 0, session: 8, lap: 9, activity: 26, frontGear: 42, rearGear: 43 } as const;
const eventType = { start: 0, stop: 1, marker: 3, stopAll: 4 } as const;
const cycling = 2;
/** Manufacturer number that the profile keeps for development. */
const development = 255;
const epochMs = 631_065_600_000;

const field = (number: number, baseType: FitBaseType, size: number, value: number): FitEncoderField => ({
  number,
  baseType,
  size,
  value,
});
const enumField = (number: number, value: number) => field(number, FitBaseType.Enum, 1, value);
const byteField = (number: number, value: number) => field(number, FitBaseType.Uint8, 1, value);
const shortField = (number: number, value: number) => field(number, FitBaseType.Uint16, 2, value);
const longField = (number: number, value: number) => field(number, FitBaseType.Uint32, 4, value);

/** Gear word as devices pack it: rear position, rear teeth, front position, front teeth from the low byte up; 0 and 255 unknown. */
export function gearWord(rearPosition: number, rearTeeth: number, frontPosition: number, frontTeeth: number): number {
  const front = frontPosition || 255;
  return (rearPosition | (rearTeeth << 8) | (front << 16) | (frontTeeth << 24)) >>> 0;
}

/** A ride as a FIT activity file. Gear records stand among the ride records at their time, as events 43 (and 42 for the ring). */
export function fitBytes(log: RideLog): Uint8Array {
  const encoder = new FitEncoder();
  const start = Math.round((log.startMs - epochMs) / 1000);
  const { gearRecords: gears } = log;
  const columns = { cadence: hasValue(log.cadenceRpm), power: hasValue(log.powerW) };
  const lastS = Math.floor(log.timeS.at(-1) ?? 0);
  encoder.writeMessage(message.fileId, [
    enumField(0, 4),
    shortField(1, development),
    shortField(2, 1),
    longField(4, start),
  ]);
  const writeEvent = (timeS: number, of: number, type: number, data: number): void => {
    encoder.writeMessage(
      message.event,
      [longField(253, start + Math.floor(timeS)), longField(3, data), enumField(0, of), enumField(1, type)],
      1,
    );
  };
  const devices = [
    device[log.speedSource === 'satellite' ? 'satelliteReceiver' : 'speedSensor'],
  ] as (readonly number[])[];
  if (gears.timeS.length > 0) devices.push(device.shifting);
  devices.forEach(([type, source], i) => {
    encoder.writeMessage(
      message.deviceInfo,
      [longField(253, start), byteField(0, i + 1), byteField(1, type), enumField(25, source)],
      6,
    );
  });
  writeEvent(0, event.timer, eventType.start, 0);
  let gear = 0;
  let ring = -1;
  const writeGearsUntil = (timeS: number): void => {
    for (; gear < gears.timeS.length && Math.floor(gears.timeS[gear]) <= timeS; gear++) {
      const word = gearWord(
        gears.rearPosition[gear],
        gears.rearTeeth[gear],
        gears.frontPosition[gear],
        gears.frontTeeth[gear],
      );
      const frontChanged = gears.frontPosition[gear] !== ring && gears.frontPosition[gear] !== 0;
      ring = gears.frontPosition[gear];
      if (frontChanged) writeEvent(gears.timeS[gear], event.frontGear, eventType.marker, word);
      writeEvent(gears.timeS[gear], event.rearGear, eventType.marker, word);
    }
  };
  for (let i = 0; i < log.timeS.length; i++) {
    writeGearsUntil(log.timeS[i]);
    encoder.writeMessage(message.record, recordFields(log, i, start, columns), 2);
  }
  writeGearsUntil(Number.POSITIVE_INFINITY);
  writeEvent(lastS, event.timer, eventType.stopAll, 0);
  const distance = Math.round(100 * (log.distanceM.at(-1) ?? 0));
  const summary = [
    longField(253, start + lastS),
    longField(2, start),
    longField(7, lastS * 1000),
    longField(8, log.timeS.length * 1000),
    longField(9, distance),
    enumField(1, eventType.stop),
  ];
  encoder.writeMessage(message.lap, [...summary, enumField(0, event.lap)], 3);
  encoder.writeMessage(
    message.session,
    [...summary, enumField(0, event.session), enumField(5, cycling), enumField(6, 0)],
    4,
  );
  encoder.writeMessage(
    message.activity,
    [
      longField(253, start + lastS),
      longField(0, log.timeS.length * 1000),
      shortField(1, 1),
      enumField(2, 0),
      enumField(3, event.activity),
      enumField(4, eventType.stop),
    ],
    5,
  );
  return encoder.close();
}

/** Missing values are written as the invalid value of their type; a column with no value at all is left out. */
function recordFields(
  log: RideLog,
  i: number,
  start: number,
  columns: { cadence: boolean; power: boolean },
): FitEncoderField[] {
  const orInvalid = (value: number, invalid: number): number =>
    Number.isNaN(value) ? invalid : Math.min(invalid - 1, Math.max(0, Math.round(value)));
  const fields = [
    longField(253, start + Math.floor(log.timeS[i])),
    longField(5, orInvalid(100 * log.distanceM[i], 0xffffffff)),
    shortField(6, orInvalid(1000 * log.speedMps[i], 0xffff)),
  ];
  if (columns.cadence) fields.push(byteField(4, orInvalid(log.cadenceRpm[i], 0xff)));
  if (columns.power) fields.push(shortField(7, orInvalid(log.powerW[i], 0xffff)));
  return fields;
}

const hasValue = (column: Float64Array): boolean => column.some((value) => !Number.isNaN(value));
