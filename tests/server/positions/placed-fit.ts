import { FitEncoder } from '../../ride-log/fit-encoder.ts';
import { START } from '../../ride-log/fit-ride.ts';

const SEMICIRCLE = 180 / 2 ** 31;
/** A made-up place: 46.5 N 9.8 E, moving. */
export const latOf = (i: number): number => Math.round((46.5 + i * 4e-5) / SEMICIRCLE);
export const lonOf = (i: number): number => Math.round((9.8 + i * 3e-5) / SEMICIRCLE);

export interface FitOptions {
  readonly speed?: boolean;
  readonly bigEndian?: boolean;
  readonly compressed?: boolean;
  readonly developer?: boolean;
  readonly count?: number;
}

/** A ride with positions wherever FIT has room for them: records, session, an unknown message, developer fields, texts. */
export function placedFit({
  speed = true,
  bigEndian = false,
  compressed = false,
  developer = false,
  count = 90,
}: FitOptions = {}) {
  const encoder = new FitEncoder({ bigEndian });
  encoder
    .define(5, 0, [
      [0, 'enum'],
      [8, 'string'],
    ])
    .record(5, [4, ascii('Home to hut')]);
  const fields = [
    [0, 'sint32'],
    [1, 'sint32'],
    [4, 'uint8'],
    ...(speed ? ([[6, 'uint16']] as const) : []),
    [253, 'uint32'],
  ] as const;
  encoder.define(
    0,
    20,
    fields,
    developer
      ? [
          [0, 8, 0],
          [1, 1, 0],
        ]
      : [],
  );
  for (let i = 0; i < count; i++) {
    const values = [latOf(i), lonOf(i), 80, ...(speed ? [5000 + (i % 5) * 100] : [])];
    const extra = developer ? [...double(46.5), 7] : [];
    if (compressed && i % 30 !== 0) encoder.compressed(0, (START + i) & 31, values);
    else encoder.record(0, [...values, START + i], extra);
  }
  encoder.define(1, 18, [
    [3, 'sint32'],
    [4, 'sint32'],
    [5, 'enum'],
    [29, 'sint32'],
    [253, 'uint32'],
  ]);
  encoder.record(1, [latOf(0), lonOf(0), 2, latOf(9), START + count]);
  encoder.define(2, 0xff00, [
    [0, 'uint32'],
    [1, 'string'],
    [253, 'uint32'],
  ]);
  encoder.record(2, [latOf(0), ascii('Home'), START + count]);
  return encoder;
}

const ascii = (text: string): number[] => [...Buffer.from(text)];
const double = (value: number): number[] => {
  const bytes = Buffer.alloc(8);
  bytes.writeDoubleLE(value);
  return [...bytes];
};
