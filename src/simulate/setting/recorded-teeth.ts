import type { Bike } from '../../drivetrain/bike.ts';
import type { SeededRandom } from '../../numeric/seeded-random.ts';
import { SimulationOptionError } from './option-error.ts';
import type { SimulationOptions } from './simulation-options.ts';

/** Teeth of rings and cogs as the device was told them; as many as the bike has. */
export interface RecordedTeeth {
  readonly chainrings: readonly number[];
  readonly cassette: readonly number[];
}

/**
 * The teeth that the gear records of a bike will carry: its own, those given, or wrong ones drawn. Draws as often whichever it is,
 * so that the choice changes nothing else.
 *
 * @throws SimulationOptionError where given teeth are more or fewer than the bike has.
 */
export function recordedTeeth(
  wanted: SimulationOptions['recordedTeeth'],
  bike: Bike,
  random: SeededRandom,
): RecordedTeeth {
  const wrong = {
    chainrings: misconfigured(bike.chainrings, random),
    cassette: misconfigured(bike.cassette, random),
  };
  const teeth = typeof wanted === 'object' ? wanted : wanted ? wrong : bike;
  if (teeth.cassette.length !== bike.cassette.length || teeth.chainrings.length !== bike.chainrings.length)
    throw new SimulationOptionError('recordedTeeth', teeth, 'as many cogs and rings as the bike has');
  return teeth;
}

/** Teeth as a careless owner might enter them: a few cogs one or two teeth off, still rising. */
function misconfigured(teeth: readonly number[], random: SeededRandom): number[] {
  const wrong = teeth.map((t) => (random.chance(0.4) ? t + random.pick([-2, -1, 1, 2]) : t));
  for (let i = 1; i < wrong.length; i++) wrong[i] = Math.max(wrong[i], wrong[i - 1] + 1);
  return wrong;
}
