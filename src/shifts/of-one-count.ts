import type { RideTrace } from '../gear-trace/gear-trace.ts';

type Shared = Pick<RideTrace, 'ofOneCount'>;
type BetweenCogs = { readonly fromCog: number; readonly toCog: number };

/** Whether a commanded shift goes onto or from a name that the records give to two cogs: nobody knows to which of them it was sent. */
export const namesTwoCogs = ({ ofOneCount }: Shared, { fromCog, toCog }: BetweenCogs): boolean =>
  ofOneCount.some(({ named }) => named === fromCog || named === toCog);

/** Whether the chain moved between two cogs of one name: the rider may well have asked for it. */
export const betweenCogsOfOneName = ({ ofOneCount }: Shared, { fromCog, toCog }: BetweenCogs): boolean =>
  ofOneCount.some(
    ({ named, unnamed }) => (fromCog === named && toCog === unnamed) || (fromCog === unnamed && toCog === named),
  );
