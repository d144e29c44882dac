import type { FaultCause } from '../setting/fault-causes.ts';
import type { BikeCondition } from './bike-condition.ts';

/** The parameter a fault mis-sets: its name, unit and size, as the truth file tells them. */
export interface FaultSize {
  readonly parameter: string;
  readonly unit: string;
  readonly size: number;
}

/** Sizes at severity 0 and 1. Lateral ones are in cog pitches, so that narrow cassettes suffer alike. */
const range = {
  tensionLow: [0.18, 0.35],
  tensionHigh: [0.19, 0.36],
  lowTight: [0.265, 0.39],
  lowLoose: [0.27, 0.57],
  highTight: [0.32, 0.44],
  highLoose: [0.3, 0.46],
  gapSmallMm: [4.5, 8],
  gapLargeMm: [8.7, 14.1],
  hangerRad: [0.03, 0.085],
  frictionN: [7.1, 15.1],
  wear: [0.45, 0.85],
} as const;

const between = (limits: readonly [number, number], severity: number): number =>
  limits[0] + (limits[1] - limits[0]) * severity;

/** Which cogs of a worn cassette are worn: those ridden most, around the middle of the smaller half. */
function wearOfCog(cog: number, cogs: number): number {
  const centre = 0.4 * (cogs - 1);
  return Math.exp(-(((cog - centre) / (0.22 * cogs)) ** 2));
}

/**
 * Mis-sets the condition by a cause. `level` 0 leaves the bike sound, 1 is the full size for the severity (onset lies
 * between). `inward` tells which way a hanger was bent. Returns what was mis-set and by how much.
 */
export function imposeFault(
  condition: BikeCondition,
  cause: FaultCause,
  severity: number,
  level: number,
  inward: boolean,
): FaultSize {
  const pitches = (limits: readonly [number, number]): number => between(limits, severity) * level * condition.pitchMm;
  const plain = (limits: readonly [number, number]): number => between(limits, severity) * level;
  const size = (parameter: string, unit: string, value: number): FaultSize => ({ parameter, unit, size: value });
  switch (cause) {
    case 'no-fault':
      return size('none', 'mm', 0);
    case 'cable-tension-low':
    case 'cable-tension-high': {
      const shift = cause === 'cable-tension-low' ? -pitches(range.tensionLow) : pitches(range.tensionHigh);
      condition.offsetMm += shift;
      return size('offset', 'mm', shift);
    }
    case 'low-limit-tight':
    case 'low-limit-loose': {
      const shift = cause === 'low-limit-tight' ? -pitches(range.lowTight) : pitches(range.lowLoose);
      condition.lowStopMm += shift;
      return size('low-stop', 'mm', shift);
    }
    case 'high-limit-tight':
    case 'high-limit-loose': {
      const shift = cause === 'high-limit-tight' ? pitches(range.highTight) : -pitches(range.highLoose);
      condition.highStopMm += shift;
      // A cable clamped while the stop stood too far out has that much slack on the smallest cog.
      if (shift < 0) condition.slackMm -= shift;
      return size('high-stop', 'mm', shift);
    }
    case 'pulley-gap-small':
    case 'pulley-gap-large': {
      const shift = cause === 'pulley-gap-small' ? -plain(range.gapSmallMm) : plain(range.gapLargeMm);
      condition.gapMm += shift;
      return size('gap', 'mm', shift);
    }
    case 'hanger-bent': {
      const bend = plain(range.hangerRad) * (inward ? 1 : -1);
      condition.hangerBendRad += bend;
      return size('hanger-bend', 'rad', bend);
    }
    case 'cable-friction': {
      const drag = plain(range.frictionN);
      condition.frictionN += drag;
      return size('friction', 'N', drag);
    }
    case 'worn-drivetrain': {
      const worst = plain(range.wear);
      condition.wear.forEach((wear, cog) => {
        condition.wear[cog] = Math.min(1, wear + worst * wearOfCog(cog, condition.cogs));
      });
      return size('wear', 'fraction', worst);
    }
  }
}
