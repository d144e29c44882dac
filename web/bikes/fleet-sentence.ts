import { counted } from '../../src/numeric/counted.ts';
import type { BikeSummary } from '../api/answers.ts';

/** How the bikes stand, in one sentence. */
export function fleetSentence(bikes: readonly BikeSummary[]): string {
  const waiting = bikes.filter(({ state }) => state.underWay).length;
  const more = waiting > 0 && waiting < bikes.length ? `; ${waiting} still being worked through` : '';
  return `${howTheyStand(bikes)}${more}`;
}

function howTheyStand(bikes: readonly BikeSummary[]): string {
  const count = (word: BikeSummary['state']['word']): number => bikes.filter((bike) => bike.state.word === word).length;
  const service = count('service');
  const all = bikes.length;
  if (service > 0)
    return all === 1
      ? 'Your bike needs service'
      : service === all
        ? `All ${all} bikes need service`
        : `${service} of ${counted(all, 'bike')} ${service === 1 ? 'needs' : 'need'} service`;
  if (count('watch') > 0) return `No bike needs service; keep an eye on ${count('watch')}`;
  if (count('fine') === all) return all === 1 ? 'Your bike shifts well' : `All ${all} bikes shift well`;
  if (bikes.every(({ state }) => state.underWay)) return 'The rides are still being worked through';
  if (count('fine') === 0) return 'Too little ridden yet to say';
  return 'No bike needs service';
}
