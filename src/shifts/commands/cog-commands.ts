import type { RideTrace } from '../../gear-trace/gear-trace.ts';

/** The records that name another cog than the one before, or from which on none is known (-1); those of the front derailleur alone are no commands to the cogs. */
export function cogCommands({ timeS, cog }: RideTrace['commands']): {
  readonly timeS: Float64Array;
  readonly cog: Int8Array;
} {
  const changing = [...cog.keys()].filter((i) => cog[i] !== (i > 0 ? cog[i - 1] : -1));
  return {
    timeS: Float64Array.from(changing, (i) => timeS[i]),
    cog: Int8Array.from(changing, (i) => cog[i]),
  };
}
