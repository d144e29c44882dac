import { describe, expect, it } from 'vitest';
import { type AnalysedRide, analyseRide } from '../../src/analyse.ts';
import { traceGears } from '../../src/gear-trace/trace-gears.ts';
import { likelyGhosts } from '../../src/shifts/ghosts/ghost-rate.ts';
import { ghostShifts } from '../../src/shifts/ghosts/ghost-shifts.ts';
import { ghostSteps } from '../../src/shifts/ghosts/ghost-steps.ts';
import { type MadeRide, madeBike } from '../gear-trace/made-ride.ts';
import { at, warmedUp } from './warmed-up.ts';

const analysed = (ride: MadeRide): AnalysedRide => analyseRide(ride.log(), ride.bike);

describe('ghost shifts', () => {
  it('are moves of the chain that nobody asked for, with how long they held', () => {
    for (const step of [-1, 1]) {
      const ride = at(4).pedal(15);
      const movedAt = ride.nowS;
      ride
        .move(4 + step)
        .pedal(20)
        .move(4)
        .pedal(20);
      const { ghostShifts, shifts } = analysed(ride).events;
      expect(ghostShifts.length).toBe(1);
      const [ghost] = ghostShifts;
      expect([ghost.fromCog, ghost.toCog]).toEqual([4, 4 + step]);
      expect(Math.abs(ghost.timeS - movedAt)).toBeLessThan(2);
      expect(Math.abs(ghost.heldS - 20)).toBeLessThan(3);
      expect(ghost.confidence).toBeGreaterThan(0.9);
      expect(ghost.torqueNm).toBeGreaterThan(0);
      expect(shifts.every(({ outcome }) => outcome === 'clean')).toBe(true);
    }
  });

  it('are also missed shifts that come by themselves long after the command', () => {
    const ride = at(4).pedal(15).command(5).pedal(10);
    const movedAt = ride.nowS;
    ride.move(5).pedal(25);
    const { ghostShifts, shifts } = analysed(ride).events;
    expect(shifts.at(-1)?.outcome).toBe('missed');
    expect(ghostShifts).toMatchObject([{ fromCog: 4, toCog: 5, towardsCommand: true }]);
    expect(Math.abs(ghostShifts[0].timeS - movedAt)).toBeLessThan(2);
    expect(Math.abs(ghostShifts[0].heldS - 25)).toBeLessThan(3);
    expect(ghostShifts[0].confidence).toBeGreaterThan(0.9);
  });

  it('are that also where the rider eased off as the chain went at last: nothing else explains it there', () => {
    const ride = at(4).pedal(15).command(3).pedal(10);
    const from = ride.nowS;
    const log = ride.move(3).pedal(25).log();
    const powerW = log.powerW.map((watts, i) => (i >= from && i < from + 8 ? 0.4 * watts : watts));
    const { ghostShifts } = analyseRide({ ...log, powerW }, madeBike).events;
    expect(ghostShifts).toMatchObject([{ fromCog: 4, toCog: 3, towardsCommand: true }]);
  });

  describe('of which the trace', () => {
    const ride = at(4).pedal(15);
    const movedAt = ride.nowS;
    const log = ride.move(5).pedal(12).move(4).pedal(20).log();
    const trace = traceGears(log, madeBike);
    const during = (i: number, fromS: number, toS: number): boolean => i >= movedAt + fromS && i < movedAt + toS;

    it('changes late begin with the first record that speaks for the new cog, some seconds back at the most', () => {
      const shownLateBy = (seconds: number): number => {
        const cog = trace.cog.map((traced, i) => (during(i, 0, seconds) ? 4 : during(i, seconds, 11) ? 5 : traced));
        const [{ ghost }] = ghostShifts(log, { ...trace, cog }, 0);
        return ghost.timeS - movedAt;
      };
      expect([0, 3, 4].map(shownLateBy)).toEqual([0, 0, 0]);
      expect(shownLateBy(7)).toBe(3);
    });

    it('rests between the cogs are none: the legs hesitate, or a sensor averages', () => {
      const { logDevelopment } = traceGears(log, madeBike).model ?? { logDevelopment: new Float64Array() };
      const restingAt = (share: number): Float64Array =>
        trace.logDevelopment.map((y, i) =>
          during(i, 0, 11) ? logDevelopment[4] + share * (logDevelopment[5] - logDevelopment[4]) : y,
        );
      expect(ghostShifts(log, { ...trace, logDevelopment: restingAt(0.95) }, 0).length).toBe(1);
      expect(ghostShifts(log, { ...trace, logDevelopment: restingAt(0.7) }, 0)).toEqual([]);
    });

    it('shows no driving are none', () => {
      const driving = trace.driving.map((chance, i) => (during(i, -4, 14) ? 0.4 : chance));
      expect(ghostShifts(log, trace, 0).length).toBe(1);
      expect(ghostShifts(log, { ...trace, driving }, 0)).toEqual([]);
    });
  });

  it('are none where slow legs bring a shift after more than 5 s, within five turns', () => {
    const { ghostShifts, shifts } = analysed(
      at(4).pedal(20, { cadenceRpm: 36 }).command(5).pedal(7, { cadenceRpm: 36 }).move(5).pedal(25, { cadenceRpm: 36 }),
    ).events;
    expect(shifts.at(-1)?.outcome).toBe('late');
    expect(ghostShifts).toEqual([]);
  });

  it('are none over more cogs than a chain crosses by itself', () => {
    const wide = (step: number) =>
      analysed(
        at(4)
          .pedal(15)
          .move(4 + step)
          .pedal(20)
          .move(4)
          .pedal(20),
      ).events.ghostShifts;
    expect(wide(2).length).toBe(1);
    expect(wide(3)).toEqual([]);
  });

  it('are none where ring and cog change together to the gear that it was, and the sensors look late', () => {
    // 38 by 15 and 48 by 19 are one ratio within half a percent: whether the cog changed a moment before its record, nothing shows
    const bike = { ...madeBike, chainrings: [38, 48], cassette: [11, 13, 15, 17, 19, 22, 25, 30] };
    const ride = at(2, warmedUp(bike)).command(2, 0).move(2, 0).pedal(30);
    const askedS = ride.nowS;
    ride.command(4, 1).move(4, 1).pedal(20);
    const log = ride.log();
    const trace = traceGears(log, bike);
    expect([trace.cog.at(-5), trace.ring.at(-5)]).toEqual([4, 1]);
    // with so long a lag every move seems to come before its record
    const found = ghostShifts(log, trace, 6);
    expect(found.length).toBeGreaterThan(0);
    expect(found.filter(({ ghost }) => Math.abs(ghost.timeS - askedS) < 10)).toEqual([]);
  });

  it('are none from where the gear asked for is not known until a record names it', () => {
    const ride = at(4).pedal(15);
    const lostAtS = ride.nowS - 12;
    ride.move(5).pedal(20);
    const log = ride.log();
    const records = log.gearRecords;
    const added = (column: Uint8Array): Uint8Array => Uint8Array.from([...column, 0]);
    const lost = {
      ...records,
      timeS: Float64Array.from([...records.timeS, lostAtS]),
      rearTeeth: added(records.rearTeeth),
      frontTeeth: added(records.frontTeeth),
      rearPosition: added(records.rearPosition),
      frontPosition: added(records.frontPosition),
      rearLost: Uint8Array.from([...records.rearTeeth.map(() => 0), 1]),
    };
    const found = (gearRecords: typeof records) => analyseRide({ ...log, gearRecords }, ride.bike).events.ghostShifts;
    expect(found(records).length).toBe(1);
    expect(found(lost)).toEqual([]);
  });

  it('are found by the step of the cadence where the trace does not follow', () => {
    // the speed strays in long runs, so that the trace takes each second for a small part of evidence
    const strayed = (ride: MadeRide) => {
      const log = ride.log();
      return { ...log, speedMps: log.speedMps.map((speed, i) => speed * (1 + 0.02 * Math.sin(i / 6))) };
    };
    const found = (ride: MadeRide) => {
      const log = strayed(ride);
      const trace = traceGears(log, madeBike);
      const still = { ...trace, cog: trace.cog.map((cog, i) => (i > log.timeS.length - 30 ? 4 : cog)) };
      return ghostSteps(log, still, 0);
    };
    const hop = (seconds: number) =>
      at(4)
        .pedal(15)
        .move(5)
        .pedal(seconds, { cadenceRpm: (80 * 23) / 20 })
        .move(4)
        .pedal(14);
    const [ghost] = likelyGhosts(found(hop(5)));
    expect([ghost?.fromCog, ghost?.toCog]).toEqual([4, 5]);
    expect(Math.abs(ghost.heldS - 5)).toBeLessThanOrEqual(1);
    expect(likelyGhosts(found(hop(1)))).toEqual([]);
    expect(likelyGhosts(found(at(4).pedal(34)))).toEqual([]);
    // a speed that sags while the legs keep their pace is the sensor's own
    const sagging = at(4).pedal(34);
    const log = sagging.log();
    const speedMps = log.speedMps.map((speed, i) =>
      i > log.timeS.length - 16 && i < log.timeS.length - 10 ? speed * 0.87 : speed,
    );
    const trace = traceGears({ ...log, speedMps }, madeBike);
    expect(
      likelyGhosts(
        ghostSteps(
          { ...log, speedMps },
          { ...trace, cog: trace.cog.map((cog, i) => (i > speedMps.length - 30 ? 4 : cog)) },
          0,
        ),
      ),
    ).toEqual([]);
  });

  it('are weighed at the rate that the ride’s other sure ones show', () => {
    const candidate = (timeS: number, logOdds: number) => ({
      ghost: { timeS, fromCog: 4, toCog: 5, heldS: 3, torqueNm: Number.NaN },
      logOdds,
      leastLogOdds: 3,
    });
    const doubtful = candidate(900, 2);
    expect(likelyGhosts([doubtful])).toEqual([]);
    const sure = [100, 300, 500].map((timeS) => candidate(timeS, 9));
    const found = likelyGhosts([doubtful, ...sure]);
    expect(found.map(({ timeS }) => timeS)).toEqual([100, 300, 500, 900]);
    // three others: four times the rate, so the log of four on top
    expect(found[3].confidence).toBeCloseTo(1 / (1 + Math.exp(-(2 + Math.log(4)))), 3);
    // chains that come at last onto a cog they had missed say nothing of one that leaves its cog
    const atLast = ({ ghost, ...odds }: ReturnType<typeof candidate>) => ({
      ...odds,
      ghost: { ...ghost, towardsCommand: true },
    });
    expect(likelyGhosts([doubtful, ...sure.map(atLast)]).map(({ timeS }) => timeS)).toEqual([100, 300, 500]);
    expect(likelyGhosts([atLast(doubtful), ...sure]).map(({ timeS }) => timeS)).toEqual([100, 300, 500, 900]);
    expect(likelyGhosts([doubtful, ...sure].map(atLast)).map(({ timeS }) => timeS)).toEqual([100, 300, 500, 900]);
    // two findings of one event are one, the surer of them
    expect(likelyGhosts([candidate(100, 9), candidate(101.5, 4)]).map(({ timeS }) => timeS)).toEqual([100]);
  });

  it('are none where a record names the move some seconds later: it was written down late', () => {
    const ride = at(4).pedal(15);
    ride.move(5).pedal(2).command(5).pedal(15).move(4).pedal(2).command(3).pedal(1).move(3).pedal(20);
    expect(analysed(ride).events.ghostShifts).toEqual([]);
  });

  it('are some where the next record asks for the other way, or for that way and back: the rider answers', () => {
    const surprised = () => at(5).pedal(15).move(4).pedal(2);
    const otherWay = surprised().command(6).pedal(1).move(6).pedal(20);
    const thatWayAndBack = surprised().command(4).pedal(3).command(5).pedal(1).move(5).pedal(20);
    for (const ride of [otherWay, thatWayAndBack])
      expect(analysed(ride).events.ghostShifts).toMatchObject([{ fromCog: 5, toCog: 4 }]);
  });

  it('are none where a command came in the 5 s before', () => {
    const within = at(4).pedal(15).shift(5).pedal(2).move(6).pedal(20);
    expect(analysed(within).events.ghostShifts).toEqual([]);
    const after = at(4).pedal(15).shift(5).pedal(9).move(6).pedal(20);
    expect(analysed(after).events.ghostShifts.map(({ fromCog, toCog }) => [fromCog, toCog])).toEqual([[5, 6]]);
  });

  it('end with the next command', () => {
    const ride = at(4).pedal(15);
    ride.move(5).pedal(12).command(3).pedal(1).move(3).pedal(25);
    const { ghostShifts } = analysed(ride).events;
    expect(ghostShifts.length).toBe(1);
    expect(ghostShifts[0].heldS).toBeLessThan(15);
  });

  it('are not read into freewheeling, soft pedalling or a ratio that runs away as the cranks come to rest', () => {
    const ride = at(4);
    for (const rpm of [70, 60, 45, 35]) ride.pedal(15).coast(6, rpm);
    ride.pedal(15);
    for (const rpm of [66, 50, 41, 33, 20, 0, 0, 0]) ride.coast(1, rpm);
    ride.pedal(30);
    expect(analysed(ride).events.ghostShifts).toEqual([]);
  });

  it('are none where an averaging power meter shows that the rider eased off', () => {
    const ride = at(4).pedal(15);
    const from = ride.nowS;
    const log = ride.move(3).pedal(8).move(4).pedal(20).log();
    // legs that slow down against a wheel that rolls on look just the same
    const found = (left: number): number => {
      const powerW = log.powerW.map((watts, i) => (i >= from && i < from + 8 ? left * watts : watts));
      return analyseRide({ ...log, powerW }, madeBike).events.ghostShifts.length;
    };
    expect([1, 0.8, 0.4].map(found)).toEqual([1, 1, 0]);
  });

  it('are none where the power had gone for two seconds just before, and was back while the cadence was shown', () => {
    const found = (heldS: number, lowS: number): number => {
      const ride = at(4).pedal(15);
      const from = ride.nowS;
      const log = ride.move(3).pedal(heldS).move(4).pedal(20).log();
      const powerW = log.powerW.map((watts, i) => (i >= from - 2 && i < from - 2 + lowS ? 10 : watts));
      return analyseRide({ ...log, powerW }, madeBike).events.ghostShifts.length;
    };
    expect([0, 1, 2].map((lowS) => found(4, lowS))).toEqual([1, 1, 0]);
    // no cadence is shown so late that the rider could press for eight seconds on what they left
    expect(found(8, 2)).toBe(1);
  });

  it('are none in a ride without gear records', () => {
    const log = at(4).pedal(15).move(5).pedal(20).log();
    const none = { ...log, gearRecords: { ...log.gearRecords, timeS: new Float64Array() } };
    expect(ghostShifts(none, traceGears(none, madeBike), 0)).toEqual([]);
  });
});
