import type { Bike } from '../../drivetrain/bike.ts';
import type { SeededRandom } from '../../numeric/seeded-random.ts';

/**
 * The mechanical state of one bike's rear shifting. Lateral positions run from the centre of the smallest cog (0)
 * towards the spokes (positive), mm. All sizes are assumptions of this simulator, made from workshop practice; none is
 * shared with the diagnosis.
 */
export interface BikeCondition {
  readonly pitchMm: number;
  readonly cogs: number;
  /** Barrel or index error, inboard positive, mm at the guide pulley. */
  offsetMm: number;
  /** Bend of the hanger, rad, inboard positive; carries the pulley sideways the more the lower it hangs. */
  hangerBendRad: number;
  /** What someone turned at the barrel to bring the middle cogs back after the hanger was bent, mm. */
  recentredMm: number;
  /** Drag of cable and housing, N at the guide pulley. */
  frictionN: number;
  /** Low stop from the centre of the largest cog, high stop from that of the smallest; inboard positive, mm. */
  lowStopMm: number;
  highStopMm: number;
  /** Guide pulley to the tips of the largest cog, mm. */
  gapMm: number;
  /** Spacing error of each cog, mm. */
  readonly cogErrorMm: Float64Array;
  /** Tooth wear of each cog as the chain meets it, 0 new to 1 worn through. */
  readonly wear: Float64Array;
  /** Lateral slack left in the cable on the smallest cog, or the servo's way beyond it, mm. */
  slackMm: number;
  /** One click or index step, mm at the pulley; one turn of a stop screw, mm; one turn of the B-screw, mm of gap. */
  readonly clickMm: number;
  readonly stopTurnMm: number;
  readonly gapTurnMm: number;
}

/** Distance between neighbouring cogs by their number, mm, where the bike does not say. */
const pitchByCogs: Record<number, number> = {
  5: 5.5,
  6: 5.5,
  7: 5,
  8: 4.8,
  9: 4.35,
  10: 3.95,
  11: 3.75,
  12: 3.6,
  13: 3.45,
};

/** A bike as a good workshop returns it: nothing is perfect, nothing is wrong. */
export function soundCondition(bike: Bike, random: SeededRandom): BikeCondition {
  const cogs = bike.cassette.length;
  const pitchMm = bike.cogPitchMm ?? pitchByCogs[cogs];
  // Within -1 and 1, mostly near 0: a workshop does not let a bike go that is clearly out.
  const nearZero = (): number => random.uniform() + random.uniform() - 1;
  const electronic = bike.actuation === 'electronic';
  return {
    pitchMm,
    cogs,
    offsetMm: 0.07 * pitchMm * nearZero(),
    hangerBendRad: 0.003 * nearZero(),
    recentredMm: 0,
    frictionN: electronic ? 0 : random.between(0.6, 2),
    lowStopMm: random.between(0.1, 0.35),
    highStopMm: -random.between(0.1, 0.4),
    gapMm: random.between(5, 7.5),
    cogErrorMm: Float64Array.from({ length: cogs }, () => 0.04 * random.normal()),
    wear: Float64Array.from({ length: cogs }, () => random.between(0, 0.12)),
    slackMm: random.between(0.1, 0.35),
    clickMm: electronic ? random.between(0.1, 0.16) : random.between(0.17, 0.33),
    stopTurnMm: random.between(0.9, 1.4),
    gapTurnMm: random.between(1, 1.6),
  };
}
