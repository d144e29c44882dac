import type { Judgement } from '../store/judgement-store.ts';
import { keyMoment } from './event-key.ts';

/** How far an event may move when a ride is analysed again and still be the one that was judged, ms. */
const SAME_EVENT_MS = 2000;

/** A lost chain or a skip that a rider tells of this near to another one is the same: nobody remembers the second, ms. */
export const SAME_TOLD_MS: Readonly<Record<string, number>> = { drop: 10_000, skip: 3000 };

/**
 * Which event each judgement speaks of. An engine that changed may date an event a little otherwise: a judgement whose
 * own event is gone goes to the nearest one of its kind within two seconds that nobody else judged; else it rests. What a rider told of
 * goes to an event that is found near it now, else it stands under its own key.
 *
 * @returns judgements by the key of the event as it is now
 */
export function matchJudgements(keys: readonly string[], judgements: readonly Judgement[]): Map<string, Judgement> {
  const matched = new Map<string, Judgement>();
  const known = new Set(keys);
  for (const judgement of judgements) if (known.has(judgement.eventKey)) matched.set(judgement.eventKey, judgement);
  for (const judgement of judgements) {
    if (known.has(judgement.eventKey)) continue;
    const { kind, ms } = keyMoment(judgement.eventKey);
    const told = judgement.verdict === 'told';
    const withinMs = told ? SAME_TOLD_MS[kind] : SAME_EVENT_MS;
    const near = keys
      .map((key) => ({ key, ...keyMoment(key) }))
      .filter((event) => event.kind === kind && !matched.has(event.key) && Math.abs(event.ms - ms) <= withinMs)
      .sort((a, b) => Math.abs(a.ms - ms) - Math.abs(b.ms - ms))[0];
    if (near) matched.set(near.key, judgement);
    else if (told) matched.set(judgement.eventKey, judgement);
  }
  return matched;
}
