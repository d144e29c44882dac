import type { RideColumns } from '../../web/api/answers.ts';

/** Columns of a ride at a steady 6 m/s and 90 rpm, a record a second: 32 / 18 x 2.25 m. On the 21 throughout, but for what is given. */
export function madeColumns(durationS: number, given: Partial<RideColumns> = {}): RideColumns {
  const seconds = Array.from({ length: durationS }, (_, s) => s);
  const same = <Value>(value: Value): Value[] => seconds.map(() => value);
  return {
    startMs: 0,
    chainrings: [32],
    cassette: [16, 18, 21],
    timeS: seconds,
    speedMps: same(6),
    cadenceRpm: same(90),
    powerW: same(null),
    commandedTeeth: same(21),
    actualTeeth: same(21),
    ring: same(32),
    driving: same(1),
    cogProbability: same(1),
    lostDrive: [],
    ...given,
  };
}

/** The same, with the chain on no cog for a spell. */
export function columnsWithLostDrive(durationS: number, fromS: number, toS: number): RideColumns {
  const { timeS } = madeColumns(durationS);
  const actualTeeth = timeS.map((s) => (s < fromS || s >= toS ? 21 : null));
  return madeColumns(durationS, { actualTeeth, lostDrive: [{ fromS, toS }] });
}
