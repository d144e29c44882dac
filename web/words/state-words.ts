import type { BikeSummary, StateWord } from '../api/answers.ts';

interface StateWords {
  readonly label: string;
  /** Stands in class names and the mark's drawing. */
  readonly key: 'service' | 'watch' | 'fine' | 'unknown';
}

/** How a bike's state is called on the page. */
export const stateWords: Record<StateWord, StateWords> = {
  service: { label: 'Needs service', key: 'service' },
  watch: { label: 'Keep an eye on it', key: 'watch' },
  fine: { label: 'Shifts well', key: 'fine' },
  'too little data': { label: 'Too little data', key: 'unknown' },
};

/** What is written for a bike's state; while its first rides are being worked through there is none to write. */
export const stateLabel = ({ word, underWay }: Pick<BikeSummary['state'], 'word' | 'underWay'>): string =>
  underWay ? 'No verdict yet' : stateWords[word].label;
