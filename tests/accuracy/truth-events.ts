import type { DiagnosisRide } from '../../src/diagnosis/diagnosis.ts';
import { cogsToCross } from '../../src/shifts/commands/cogs-to-cross.ts';
import { openExpectation } from '../../src/shifts/outcomes/open-expectation.ts';
import type { Outcome, RideEvents } from '../../src/shifts/ride-events.ts';
import type { SimulatedRide } from '../../src/simulate/simulate-rides.ts';

const certain = (outcome: Outcome) => ({
  clean: outcome === 'clean' ? 1 : 0,
  late: outcome === 'late' ? 1 : 0,
  missed: outcome === 'missed' ? 1 : 0,
  overshot: outcome === 'overshot' ? 1 : 0,
});

/** Mean crank torque about a moment of the log, Nm; NaN without power. */
function torqueAt({ log }: SimulatedRide, timeS: number): number {
  let sum = 0;
  let count = 0;
  for (let i = 0; i < log.timeS.length; i++) {
    if (log.timeS[i] < timeS - 1 || log.timeS[i] > timeS + 3) continue;
    const cadence = log.cadenceRpm[i];
    if (!(cadence > 30) || !Number.isFinite(log.powerW[i])) continue;
    sum += log.powerW[i] / ((cadence * 2 * Math.PI) / 60);
    count++;
  }
  return count > 0 ? sum / count : Number.NaN;
}

/** Crank turns made until a time, from the cadence of every second. */
function crankTurns(cadenceRpm: readonly number[]): (timeS: number) => number {
  const turns = [0];
  for (let s = 1; s < cadenceRpm.length; s++) turns.push(turns[s - 1] + cadenceRpm[s] / 60);
  return (timeS) => {
    const at = Math.max(0, Math.min(turns.length - 1, timeS));
    const s = Math.floor(at);
    return turns[s] + (at - s) * ((turns[s + 1] ?? turns[s]) - turns[s]);
  };
}

/** The truth of a simulated ride in the shape the diagnosis takes: a perfect detector. */
export function truthEvents(ride: SimulatedRide, cassette: readonly number[]): DiagnosisRide {
  const { truth } = ride;
  const cog = (teeth: number): number => cassette.indexOf(teeth);
  const pedallingSByCog = new Float64Array(cassette.length);
  truth.perSecond.cogTeeth.forEach((teeth, second) => {
    if (teeth !== null && truth.perSecond.cadenceRpm[second] > 30) pedallingSByCog[cog(teeth)]++;
  });
  const asked = truth.shifts.map((shift) => ({
    timeS: shift.atS,
    lastTimeS: shift.lastCommandS,
    fromCog: cog(shift.fromTeeth),
    toCog: cog(shift.toTeeth),
  }));
  const revsAt = crankTurns(truth.perSecond.cadenceRpm);
  const events: RideEvents = {
    shifts: truth.shifts.map((shift, i) => ({
      timeS: shift.atS,
      lastTimeS: shift.lastCommandS,
      fromCog: asked[i].fromCog,
      toCog: asked[i].toCog,
      cogsToCross: cogsToCross(asked, i, revsAt),
      direction: shift.direction,
      outcome: shift.outcome,
      unjudgedBecause: shift.outcome === 'unjudged' ? 'no-pedalling' : null,
      crankRevs: shift.crankRevs,
      confidence: 1,
      probability: certain(shift.outcome),
      expected: openExpectation,
      torqueNm: torqueAt(ride, shift.atS),
      cadenceRpm: 80,
      weak: false,
    })),
    ghostShifts: truth.ghostShifts.map((ghost) => ({
      timeS: ghost.atS,
      fromCog: cog(ghost.fromTeeth),
      toCog: cog(ghost.toTeeth),
      heldS: ghost.heldS,
      towardsCommand: ghost.towardsCommand,
      confidence: 1,
      torqueNm: Number.NaN,
    })),
    chainDrops: truth.chainDrops.map((drop) => ({
      timeS: drop.atS,
      side: drop.side,
      afterShiftTo: drop.afterShiftTo === null ? null : cog(drop.afterShiftTo),
      confidence: 1,
    })),
    skips: truth.skips.map((skip) => ({ timeS: skip.atS, cog: cog(skip.teeth), confidence: 1, torqueNm: Number.NaN })),
    pedallingSByCog,
  };
  return { startMs: Date.parse(truth.start), durationS: truth.durationS, evidence: 'full', events };
}
