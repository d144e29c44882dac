import { simulateRides } from '../../src/simulate/simulate-rides.ts';
import { measure } from './measure.ts';

for (const formats of [[], ['fit']] as const)
  measure(`simulate one hour, ${formats.length ? 'with FIT bytes' : 'log and truth only'}`, () =>
    simulateRides({ cause: 'no-fault', seed: 1, terrain: 'mixed', formats }),
  );
measure(
  'simulate ten hours of riding full of stops',
  () => simulateRides({ cause: 'no-fault', seed: 1, terrain: 'town', rides: 10, formats: [] }),
  1,
);
