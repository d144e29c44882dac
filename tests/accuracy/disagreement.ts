import type { Bike } from '../../src/drivetrain/bike.ts';
import { traceGears } from '../../src/gear-trace/trace-gears.ts';
import { simulateRides } from '../../src/simulate/simulate-rides.ts';
import type { PlannedRide } from './ride-plan.ts';

/** One moment at which program and simulator disagree. */
export interface Disagreement {
  readonly kind: string;
  readonly atS: number;
  readonly truly: string;
  readonly reported: string;
  /** NaN where nothing was reported. */
  readonly confidence: number;
}

/** Notes down a disagreement. */
export type Say = (kind: string, atS: number, truly: string, reported: string, confidence: number) => void;

const BEFORE_S = 6;
const AFTER_S = 14;

/** The log around a disagreement as lines of text: second, speed, cadence, power, commanded, true and traced cog. */
export function excerpt({ options }: PlannedRide, { kind, atS, truly, reported, confidence }: Disagreement): string {
  const [{ log, truth }] = simulateRides(options);
  const trace = traceGears(log, options.bike);
  const { cassette } = options.bike;
  const sure = Number.isNaN(confidence) ? '' : ` (confidence ${confidence.toFixed(2)})`;
  const about = `${options.cause} ${(options.severity as number)?.toFixed(2) ?? ''}, ${options.speedSource}, lag ${truth.recorder.recorderLagS} + ${truth.recorder.satelliteLagS} s, ${options.gearTimes ?? 'whole-seconds'}`;
  const lines = [
    `${kind} at ${atS.toFixed(1)} s: truly ${truly}; reported ${reported}${sure}`,
    `  ${about}, seed ${options.seed}, rings ${options.bike.chainrings.join('/')}`,
    '       t  speed  cad power   commanded   true  traced  ratio says',
  ];
  for (let i = 0; i < log.timeS.length; i++) {
    const t = log.timeS[i];
    if (t < atS - BEFORE_S || t > atS + AFTER_S) continue;
    const latest = trace.commands.latest[i];
    const commanded = latest < 0 ? '?' : String(cassette[trace.commands.cog[latest]]);
    const s = Math.round(t);
    const driving = truth.perSecond.driving[s] ? '' : '-';
    const cells = [
      t.toFixed(0).padStart(8),
      log.speedMps[i].toFixed(2).padStart(7),
      String(log.cadenceRpm[i]).padStart(5),
      String(log.powerW[i]).padStart(6),
      commanded.padStart(12),
      `${truth.perSecond.cogTeeth[s] ?? 'off'}${driving}`.padStart(7),
      String(trace.cog[i] < 0 ? '?' : cassette[trace.cog[i]]).padStart(8),
      ratioCog(options.bike, trace.logDevelopment[i], trace.model?.logRollout, trace.ring[i]).padStart(12),
    ];
    lines.push(cells.join(''));
  }
  return lines.join('\n');
}

/** The cog that the ratio alone would name, with a fraction towards its neighbour, at the traced ring. */
function ratioCog(bike: Bike, logDevelopment: number, logRollout: number | undefined, ring: number): string {
  if (logRollout === undefined || ring < 0 || Number.isNaN(logDevelopment)) return '';
  return ((bike.chainrings[ring] * Math.exp(logRollout)) / Math.exp(logDevelopment)).toFixed(1);
}
