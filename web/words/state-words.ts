import type { BikeSummary, StateWord } from '../api/answers.ts';
import { looksFirst } from './looks-first.ts';

/** How a bike stands on the page: its state, or that it is to be looked over first. */
export type Standing = StateWord | 'look first';

interface StandingWords {
  readonly label: string;
  /** The same where many bikes are meant, or none in particular. */
  readonly many: string;
  /** Stands in class names and the mark's drawing. */
  readonly key: 'look' | 'service' | 'watch' | 'fine' | 'unknown';
}

const alike = (label: string, key: StandingWords['key']): StandingWords => ({ label, many: label, key });

/** How each standing is called on the page. */
export const standingWords: Readonly<Record<Standing, StandingWords>> = {
  'look first': { label: 'Look it over first', many: 'Look over first', key: 'look' },
  service: alike('Needs service', 'service'),
  watch: alike('Keep an eye on it', 'watch'),
  fine: alike('Shifts well', 'fine'),
  'too little data': alike('Too little data', 'unknown'),
};

type Shown = Pick<BikeSummary['state'], 'word' | 'underWay' | 'dangers'>;

/** How a bike stands. What can hurt goes before its state. */
export const standingOf = (state: Shown): Standing => (looksFirst(state) ? 'look first' : state.word);

/** The part of a class name that says how a bike stands. */
export const standingKey = (state: Shown): StandingWords['key'] => standingWords[standingOf(state)].key;

/** What is written for how a bike stands; while its first rides are being worked through there is nothing to write. */
export const stateLabel = (state: Shown): string =>
  state.underWay ? 'No verdict yet' : standingWords[standingOf(state)].label;
