import type { Judgement } from '../store/judgement-store.ts';

/** How far an event may move when a ride is analysed again and still be the one that was judged, ms. */
const SAME_EVENT_MS = 2000;

const parts = (key: string): { kind: string; ms: number } => {
  const dash = key.indexOf('-');
  return { kind: key.slice(0, dash), ms: Number(key.slice(dash + 1)) };
};

/**
 * Which event each judgement speaks of. An engine that changed may date an event a little otherwise: a judgement whose
 * own event is gone goes to the nearest one of its kind within two seconds that nobody else judged; else it rests.
 *
 * @returns judgements by the key of the event as it is now
 */
export function matchJudgements(keys: readonly string[], judgements: readonly Judgement[]): Map<string, Judgement> {
  const matched = new Map<string, Judgement>();
  const known = new Set(keys);
  for (const judgement of judgements) if (known.has(judgement.eventKey)) matched.set(judgement.eventKey, judgement);
  for (const judgement of judgements) {
    if (known.has(judgement.eventKey)) continue;
    const { kind, ms } = parts(judgement.eventKey);
    const near = keys
      .map((key) => ({ key, ...parts(key) }))
      .filter((event) => event.kind === kind && !matched.has(event.key) && Math.abs(event.ms - ms) <= SAME_EVENT_MS)
      .sort((a, b) => Math.abs(a.ms - ms) - Math.abs(b.ms - ms))[0];
    if (near) matched.set(near.key, judgement);
  }
  return matched;
}
