import type { ScaleLinear } from 'd3-scale';
import type { LostSpell } from '../../../src/report/charts/lost-spells.ts';
import type { Layout } from './layout.ts';
import type { Palette } from './palette.ts';
import type { RideTrack } from './ride-track.ts';
import type { Surface } from './surface.ts';
import type { TimelineEvent } from './timeline-event.ts';

/** Everything that is on the timeline at one moment. */
export interface Scene {
  readonly track: RideTrack;
  readonly events: readonly TimelineEvent[];
  /** Where drive was lost, but for what the rider rejected. */
  readonly lost: readonly LostSpell[];
  readonly layout: Layout;
  readonly palette: Palette;
  /** First and last second in view. */
  readonly fromS: number;
  readonly toS: number;
  /** Second under the reading line; null: none. */
  readonly readingS: number | null;
  readonly openEvent: string | null;
}

/** What each band is given to draw with. */
export interface Frame extends Scene {
  readonly surface: Surface;
  readonly x: ScaleLinear<number, number>;
  /** Samples in view, one more on either side. */
  readonly first: number;
  readonly last: number;
  readonly dense: boolean;
}
