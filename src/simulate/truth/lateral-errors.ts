import type { BikeCondition } from '../mechanics/bike-condition.ts';
import { hangerErrorMm } from '../mechanics/hanger.ts';

/** Sideways error of the guide pulley under each cog, mm, inboard positive, with a cable that drags nothing. */
export function lateralErrors(condition: BikeCondition): number[] {
  const { pitchMm, cogs, offsetMm, slackMm, highStopMm, lowStopMm } = condition;
  return Array.from({ length: cogs }, (_, cog) => {
    const asked = cog * pitchMm + offsetMm - (cog === 0 ? slackMm : 0);
    const cage = Math.max(highStopMm, Math.min((cogs - 1) * pitchMm + lowStopMm, asked));
    return cage + hangerErrorMm(condition, cage) - cog * pitchMm - condition.cogErrorMm[cog];
  });
}
