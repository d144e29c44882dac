import type { PromptHalts, RideEvents } from '../../shifts/ride-events.ts';
import { evidenceWeights } from '../assumptions.ts';

/** Whether a moment belongs to a chain that is told as lost. */
export const inDropsShadow = ({ chainDrops }: Pick<RideEvents, 'chainDrops'>, timeS: number): boolean =>
  chainDrops.some((drop) => Math.abs(drop.timeS - timeS) <= evidenceWeights.dropShadowS);

/** A ride's shifts by whether a halt followed at once, without those of chains that are told as lost; null where none could be seen. */
export function untoldHalts(events: RideEvents): PromptHalts | null {
  const { promptHalts } = events;
  if (!promptHalts) return null;
  return { ...promptHalts, ontoEnd: promptHalts.ontoEnd.filter(({ timeS }) => !inDropsShadow(events, timeS)) };
}
