import { rollup } from 'd3-array';
import { type Stratum, stratifiedFewer } from '../../numeric/stratified-fewer.ts';
import type { RidingEvidence } from '../evidence/build-evidence.ts';
import type { Shows } from './where-it-showed.ts';

/** From here on it is sure enough that the first ride went better. An assumption of ours. */
const SURELY_BETTER = 0.99;

/**
 * Whether far fewer of the first ride's shifts went wrong than of the later ones, each cog and direction compared with itself alone: a fault
 * that is there from the first ride on would show in it. By the shifts where the cause shows, or by all where the first ride has none of them.
 */
export function absentAtFirst({ ridesInOrder: rides }: RidingEvidence, shows: Shows): boolean {
  const judged = rides
    .map(({ events }) => events.shifts.filter(({ outcome }) => outcome !== 'unjudged'))
    .filter((shifts) => shifts.length > 0);
  const where = judged.map((shifts) => shifts.filter(({ toCog, direction }) => shows(toCog, direction)));
  const [first = [], ...later] = where.length > 0 && where[0].length > 0 ? where : judged;
  const tagged = [
    ...first.map((shift) => ({ shift, after: true })),
    ...later.flat().map((shift) => ({ shift, after: false })),
  ];
  const strata = rollup(
    tagged,
    (group): Stratum => {
      const count = (side: boolean) => {
        const own = group.filter(({ after }) => after === side);
        return { bad: own.filter(({ shift }) => shift.outcome !== 'clean').length, of: own.length };
      };
      return { before: count(false), after: count(true) };
    },
    ({ shift: { toCog, direction } }) => `${toCog} ${direction}`,
  );
  return stratifiedFewer([...strata.values()]) > SURELY_BETTER;
}
