import { SimulationOptionError } from '../setting/option-error.ts';
import { type WorkDone, workUnits } from '../setting/work-done.ts';
import type { BikeCondition } from './bike-condition.ts';

/**
 * Work on the bike, as it acts on the mechanical parameters. `sound` is the same bike as a workshop would return it:
 * parts that are replaced or aligned go back to that. Aligning the hanger takes back the barrel turn that hid the bend.
 */
export function doWork(condition: BikeCondition, sound: BikeCondition, work: WorkDone): void {
  if (!(work.parameter in workUnits))
    throw new SimulationOptionError('work.parameter', work.parameter, Object.keys(workUnits).join(', '));
  const amount = work.amount ?? 0;
  switch (work.parameter) {
    case 'cable-tension':
    case 'index-offset':
      condition.offsetMm += amount * condition.clickMm;
      break;
    case 'low-limit':
      condition.lowStopMm -= amount * condition.stopTurnMm;
      break;
    case 'high-limit':
      condition.highStopMm += amount * condition.stopTurnMm;
      break;
    case 'pulley-gap':
      condition.gapMm += amount * condition.gapTurnMm;
      break;
    case 'hanger':
      condition.hangerBendRad = sound.hangerBendRad;
      condition.recentredMm = 0;
      break;
    case 'cable-and-housing':
      condition.frictionN = sound.frictionN;
      break;
    case 'cassette':
      condition.wear.fill(0.02);
      break;
    case 'chain':
      // A new chain alone does not cure worn cogs: it skips on them as much as the old one.
      break;
    case 'wheel':
      break;
  }
}
