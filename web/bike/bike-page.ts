import type { BikeDetail, RideSummary } from '../api/answers.ts';

/** What the sections of a bike's page draw from. */
export interface BikePage {
  readonly bike: BikeDetail;
  /** The newest first; not all of very many. */
  readonly rides: readonly RideSummary[];
  /** How many rides there are in all. */
  readonly allRides: number;
  /** What the reader picked in the sections; survives redrawing. */
  readonly picks: Map<string, string>;
  /** Fetches everything again and redraws; for after a change. */
  readonly refresh: () => Promise<void>;
  /** Opens the adjustment log's form, set to a parameter. */
  readonly log: (parameter: string) => void;
}
