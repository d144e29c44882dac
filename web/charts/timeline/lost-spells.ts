import type { LostSpell } from '../../../src/report/charts/lost-spells.ts';
import type { RideTrack } from './ride-track.ts';
import type { TimelineEvent } from './timeline-event.ts';

/** A drop is told this much before or after its spell at most, s: the spell begins with the legs that already spun. */
const NEAR_S = 1;

/** The spells without drive that the rider leaves standing: all but those whose every lost chain was rejected. */
export function lostSpells(
  { lost }: Pick<RideTrack, 'lost'>,
  events: readonly Pick<TimelineEvent, 'kind' | 'timeS' | 'rejected'>[],
): readonly LostSpell[] {
  const drops = events.filter(({ kind }) => kind === 'drop');
  return lost.filter(({ fromS, toS }) => {
    const its = drops.filter(({ timeS }) => timeS > fromS - NEAR_S && timeS < toS + NEAR_S);
    return its.length === 0 || its.some(({ rejected }) => !rejected);
  });
}

/** Whether drive was lost at a second of the ride. */
export const isLost = (lost: readonly LostSpell[], timeS: number): boolean =>
  lost.some(({ fromS, toS }) => timeS >= fromS && timeS < toS);
