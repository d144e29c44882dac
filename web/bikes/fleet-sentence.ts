import { counted } from '../../src/numeric/counted.ts';
import type { BikeSummary } from '../api/answers.ts';
import { isSetAside } from '../words/set-aside-words.ts';
import { groupOf, type RowGroup } from './row-group.ts';

/** How the bikes stand, in one sentence. */
export function fleetSentence(bikes: readonly BikeSummary[]): string {
  const waiting = bikes.filter(({ state }) => state.underWay).length;
  const more = waiting > 0 && waiting < bikes.length ? `; ${waiting} still being worked through` : '';
  const aside = bikes.filter(isSetAside).length;
  return `${howTheyStand(bikes)}${asideWords(aside, bikes.length)}${more}`;
}

function asideWords(aside: number, all: number): string {
  if (aside === 0) return '';
  return `; ${all === 1 ? 'it is' : aside} set aside for the workshop`;
}

const inGroup = (bikes: readonly BikeSummary[], group: RowGroup): number =>
  bikes.filter((bike) => groupOf(bike) === group).length;

function howTheyStand(bikes: readonly BikeSummary[]): string {
  const all = bikes.length;
  const look = inGroup(bikes, 'look first');
  const service = inGroup(bikes, 'service');
  if (look === 0) return service > 0 ? needService(service, all) : needNoHands(bikes);
  const which = all === 1 ? 'your bike' : look === all ? `all ${all} bikes` : `${look} of ${counted(all, 'bike')}`;
  return `Look ${which} over before the next ride${service > 0 ? `; ${service} more ${needs(service)} service` : ''}`;
}

const needs = (bikes: number): string => (bikes === 1 ? 'needs' : 'need');

function needService(service: number, all: number): string {
  if (all === 1) return 'Your bike needs service';
  return service === all
    ? `All ${all} bikes need service`
    : `${service} of ${counted(all, 'bike')} ${needs(service)} service`;
}

/** Where none is to be looked over and none needs service. */
function needNoHands(bikes: readonly BikeSummary[]): string {
  const all = bikes.length;
  const watch = inGroup(bikes, 'watch');
  const fine = inGroup(bikes, 'fine');
  if (watch > 0) return `No bike needs service; keep an eye on ${watch}`;
  if (fine === all) return all === 1 ? 'Your bike shifts well' : `All ${all} bikes shift well`;
  if (bikes.every(({ state }) => state.underWay)) return 'The rides are still being worked through';
  return fine === 0 ? 'Too little ridden yet to say' : 'No bike needs service';
}
