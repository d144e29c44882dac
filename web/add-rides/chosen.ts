import type { Bike } from '../api/answers.ts';

/** What was chosen to be added. */
export interface Chosen {
  readonly rides: readonly File[];
  /** Files of adjustments. */
  readonly adjustments: readonly File[];
  /** The bike that a bike file among them describes, and the name of that file. */
  readonly described: { readonly file: string; readonly bike: Bike } | null;
}

/** What is to be worked through, and for which bike. */
export interface Work extends Pick<Chosen, 'rides' | 'adjustments'> {
  readonly bikeId: string;
  readonly bikeName: string;
  /** The bike has just been made for these files. */
  readonly made: boolean;
}
