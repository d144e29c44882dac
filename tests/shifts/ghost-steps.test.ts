import { describe, expect, it } from 'vitest';
import { traceGears } from '../../src/gear-trace/trace-gears.ts';
import { likelyGhosts } from '../../src/shifts/ghosts/ghost-rate.ts';
import { ghostSteps } from '../../src/shifts/ghosts/ghost-steps.ts';
import { madeBike } from '../gear-trace/made-ride.ts';
import { at } from './warmed-up.ts';

const HOP_S = 5;
const CADENCE_RPM = 80;
const POWER_W = 180;
const FROM_COG = 4;
/** What is left of the power where the rider eases off. */
const EASED = 0.45;

/** What is found of a hop of five seconds onto a neighbouring cog that the trace does not follow, with the legs at `pace` times their cadence; the ratio stays where speed and cadence both step by `wheel`. `off`: so many deviations the sensors are off all the while; `coasts`: the record, counted from the hop, that the trace takes for freewheeling. */
function found(toCog: number, pace: number, { powerW = POWER_W, wheel = 1, off = 0, coasts = -99 } = {}) {
  const ride = at(FROM_COG)
    .pedal(15, { powerW: POWER_W })
    .move(toCog)
    .pedal(HOP_S, { cadenceRpm: CADENCE_RPM * pace, powerW })
    .move(FROM_COG)
    .pedal(14, { powerW });
  const made = ride.log();
  const hopFrom = made.timeS.length - 14 - HOP_S;
  const turned = (column: Float64Array) =>
    column.map((value, i) => (i >= hopFrom && i < hopFrom + HOP_S ? value * wheel : value));
  const log = { ...made, cadenceRpm: turned(made.cadenceRpm), speedMps: turned(made.speedMps) };
  // the speed strays in long runs, so that the trace takes each second for a small part of evidence
  const speedMps = log.speedMps.map((speed, i) => speed * (1 + 0.02 * Math.sin(i / 6)));
  const trace = traceGears({ ...log, speedMps }, madeBike);
  const cog = trace.cog.map((traced, i) => (i > log.timeS.length - 30 ? FROM_COG : traced));
  const logDevelopment = trace.logDevelopment.map((traced, i) =>
    i > log.timeS.length - 30 ? traced + off * trace.deviation[i] : traced,
  );
  const driving = trace.driving.map((traced, i) => (i === hopFrom + coasts ? 0.1 : traced));
  return likelyGhosts(ghostSteps({ ...log, speedMps }, { ...trace, cog, logDevelopment, driving }, 0));
}

/** The cadence on a cog at the speed that the bike had on the first one. */
const paceOn = (cog: number): number => madeBike.cassette[cog] / madeBike.cassette[FROM_COG];

describe('ghostSteps', () => {
  it('finds a hop to either side by the step of the cadence at a speed that stays', () => {
    for (const toCog of [3, 5]) {
      const [ghost] = found(toCog, paceOn(toCog));
      expect([ghost?.fromCog, ghost?.toCog], `${toCog}`).toEqual([FROM_COG, toCog]);
      expect(Math.abs(ghost.heldS - HOP_S)).toBeLessThanOrEqual(1);
    }
  });

  it('finds one from the record that looks like freewheeling between two cogs, and not from one right after freewheeling', () => {
    const [driving, between, after] = [-99, 0, -1].map((coasts) => found(5, paceOn(5), { coasts })[0].timeS);
    expect(between).toBe(driving);
    expect(after).toBe(driving + 1);
  });

  it('takes off what the sensors were off just before', () => {
    for (const off of [-2.2, 0, 2.2]) expect(found(5, paceOn(5), { off }).length, `${off}`).toBe(1);
  });

  it('takes legs that slow down as the rider eases off for no smaller cog, but for a larger one all the same', () => {
    expect(found(3, paceOn(3), { powerW: EASED * POWER_W })).toEqual([]);
    expect(found(5, paceOn(5), { powerW: EASED * POWER_W }).length).toBe(1);
  });

  it('finds none where the speed steps too: a chain that moves changes the pace of the legs, not that of the wheel', () => {
    expect(found(5, paceOn(5), { wheel: paceOn(5) ** 0.45 })).toEqual([]);
  });
});
