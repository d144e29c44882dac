import { randomLcg, randomNormal } from 'd3-random';
import type { Bike } from '../../../src/drivetrain/bike.ts';
import type { KeyedRideReport, RideColumns } from '../../../web/api/answers.ts';
import { valueColumns } from '../../server/value-columns.ts';

/** How an invented ride goes. `troubleTo...`: share of shifts in that direction that go wrong. */
export interface RideRecipe {
  readonly seed: number;
  readonly file: string;
  readonly start: string;
  readonly durationS: number;
  readonly troubleToLarger: number;
  readonly troubleToSmaller: number;
  readonly ghosts: number;
  readonly evidence?: KeyedRideReport['evidence'];
}

type Shift = KeyedRideReport['shifts'][number];

/** A ride for the page's tests only: plausible in shape, checked against nothing. */
export function madeUpRide(recipe: RideRecipe, bike: Bike): { report: KeyedRideReport; columns: RideColumns } {
  const random = randomLcg(recipe.seed);
  const noise = randomNormal.source(random)(0, 1);
  const { cassette } = bike;
  const ring = bike.chainrings[bike.chainrings.length - 1];
  const rolloutMm = bike.rolloutMm ?? 2290;
  const startMs = Date.parse(recipe.start);
  const at = (s: number): string => new Date(startMs + s * 1000).toISOString();
  const columns: Record<string, (number | null)[]> = Object.fromEntries(valueColumns.map((name) => [name, []]));
  const shifts: Shift[] = [];
  const ghostShifts: KeyedRideReport['ghostShifts'][number][] = [];
  let commanded = Math.floor(cassette.length / 2);
  let actual = commanded;
  let lag = 0;
  let slope = 0;
  let sinceShift = 0;
  let ghostLeft = recipe.ghosts;
  for (let s = 0; s < recipe.durationS; s++) {
    slope += noise() * 0.06 - slope * 0.004;
    const standing = s % 1900 > 1840;
    const cadenceRpm = standing ? 0 : Math.max(40, 82 + noise() * 3 - slope * 4);
    const wanted = Math.round(Math.min(cassette.length - 1, Math.max(0, cassette.length / 2 + slope * 4)));
    sinceShift += 1;
    if (!standing && wanted !== commanded && sinceShift > 9) {
      const toLarger = wanted > commanded;
      const to = commanded + (toLarger ? 1 : -1);
      const trouble = random() < (toLarger ? recipe.troubleToLarger : recipe.troubleToSmaller);
      const outcome = !trouble ? (random() < 0.06 ? 'unjudged' : 'clean') : random() < 0.6 ? 'late' : 'missed';
      const crankRevs = outcome === 'clean' ? 0.4 + random() : outcome === 'late' ? 1.6 + random() * 3 : null;
      shifts.push({
        at: at(s),
        fromTeeth: cassette[commanded],
        toTeeth: cassette[to],
        direction: toLarger ? 'to-larger' : 'to-smaller',
        outcome,
        crankRevs: crankRevs === null ? null : Math.round(crankRevs * 100) / 100,
        turns: {
          cleanUntilS: (1.5 / cadenceRpm) * 60,
          lateUntilS: (5 / cadenceRpm) * 60,
          doneS: crankRevs === null ? null : (crankRevs / cadenceRpm) * 60,
        },
        confidence: Math.round((0.75 + random() * 0.24) * 100) / 100,
        weak: false,
        torqueNm: Math.round(20 + random() * 30),
        eventKey: `shift-${s}`,
        verdict: null,
        found: null,
      } as Shift);
      commanded = to;
      lag = outcome === 'clean' || outcome === 'unjudged' ? 1 : outcome === 'late' ? 3 : 8;
      sinceShift = 0;
    }
    if (actual !== commanded && --lag <= 0) actual = commanded;
    if (ghostLeft > 0 && sinceShift === 25 && actual > 1 && random() < 0.2) {
      ghostLeft -= 1;
      actual -= 1;
      lag = 6;
      ghostShifts.push({
        at: at(s),
        fromTeeth: cassette[actual + 1],
        toTeeth: cassette[actual],
        heldS: 6,
        confidence: 0.86,
        eventKey: `ghost-${s}`,
        verdict: null,
        found: null,
      });
    }
    const development = (rolloutMm * ring) / cassette[actual] / 1000;
    columns.cadenceRpm.push(s % 977 < 4 ? null : Math.round(cadenceRpm));
    columns.speedMps.push(
      Math.round(((cadenceRpm / 60) * development * (1 + noise() * 0.008) + (standing ? 0 : 0)) * 100) / 100,
    );
    columns.powerW.push(standing ? 0 : Math.max(0, Math.round(180 + slope * 60 + noise() * 25)));
    columns.commandedTeeth.push(cassette[commanded]);
    columns.actualTeeth.push(standing ? null : cassette[actual]);
    columns.ring.push(ring);
    columns.driving.push(standing ? 0 : 0.97);
    columns.cogProbability.push(standing ? 0 : 0.95);
  }
  const count = (outcome: Shift['outcome']): number => shifts.filter((shift) => shift.outcome === outcome).length;
  const n = recipe.durationS;
  const evidence = recipe.evidence ?? 'full';
  return {
    report: {
      file: recipe.file,
      format: 'fit',
      start: recipe.start,
      durationS: n - 1,
      pedallingS: columns.cadenceRpm.filter((value) => value !== null && value > 30).length,
      gearSource: evidence === 'none' ? 'none' : 'recorded',
      evidence,
      rolloutMm,
      sensorLagS: 1.2,
      measured: { chainrings: [...bike.chainrings], cassette: [...cassette] },
      counts: {
        shifts: shifts.length,
        clean: count('clean'),
        late: count('late'),
        missed: count('missed'),
        overshot: 0,
        unjudged: count('unjudged'),
        ghostShifts: ghostShifts.length,
        chainDrops: n > 5000 ? 1 : 0,
        skips: n > 5000 ? 1 : 0,
      },
      shifts,
      ghostShifts,
      chainDrops:
        n > 5000
          ? [
              {
                at: at(4000),
                side: 'past-smallest',
                afterShiftTo: cassette[0],
                confidence: 0.91,
                eventKey: 'drop-4000',
                verdict: null,
                found: null,
              },
            ]
          : [],
      skips:
        n > 5000
          ? [{ at: at(3000), teeth: cassette[4], confidence: 0.7, eventKey: 'skip-3000', verdict: null, found: null }]
          : [],
      rejected: { ghostShifts: [], chainDrops: [], skips: [] },
      gears: [],
      warnings: [{ code: 'teeth-differ', message: 'The ride shows a 17-tooth cog where the bike file says 16.' }],
    } as unknown as KeyedRideReport,
    columns: {
      startMs,
      chainrings: [...bike.chainrings],
      cassette: [...cassette],
      timeS: Array.from({ length: n }, (_, s) => s),
      ...columns,
      lostDrive: [],
    } as unknown as RideColumns,
  };
}
