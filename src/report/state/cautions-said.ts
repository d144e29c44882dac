import type { CautionKind } from '../../diagnosis/next-step/caution.ts';
import type { Danger } from './state-dangers.ts';

/** The kinds of caution of the next step that a bike's dangers say already, in words of their own: of a bent hanger, or that an end cog is kept off. */
export function cautionsSaid(dangers: readonly Danger[]): CautionKind[] {
  const hangers = dangers.flatMap(({ hanger }) => hanger ?? []);
  // with what to do about it, which may be for a look at that hanger only
  const hangerSaid =
    hangers.includes('with-what-to-do') ||
    (hangers.length > 0 && dangers.some(({ keepsOff }) => keepsOff === 'until-hanger'));
  const keptOff = dangers.some(({ keepsOff }) => keepsOff !== undefined);
  return [...(hangerSaid ? (['bent-hanger'] as const) : []), ...(keptOff ? (['keep-off'] as const) : [])];
}
