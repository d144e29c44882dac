import { type MechanicalTrack, TRACK_HZ } from '../mechanics/mechanical-track.ts';

const QUIET_BEFORE_S = 5;
const HELD_OVER_S = 1;
/** A chain that hardly ran since the command still answers it: such a move belongs to that shift. */
const ANSWERS_FOR_TURNS = 5;

/** A move of the chain with no command in the 5 s before, and how long it stayed. `towardsCommand`: towards the commanded cog, which it had missed. */
interface UnaskedMove {
  readonly timeS: number;
  readonly fromCog: number;
  readonly toCog: number;
  readonly heldS: number;
  readonly towardsCommand: boolean;
}

/**
 * Moves of the chain with no command in the 5 s before. Ghosts are those held over 1 s and over five crank turns after the command, when
 * the chain no longer answers it: away from the commanded cog, or towards it where it was missed. Belated are moves towards it
 * within the five turns: late shifts of slow legs. A return after a ghost is neither.
 */
export function unaskedMoves(track: MechanicalTrack): { ghosts: UnaskedMove[]; belated: UnaskedMove[] } {
  const { cogChanges, commands } = track;
  const ghosts: UnaskedMove[] = [];
  const belated: UnaskedMove[] = [];
  let command = -1;
  let reached = true;
  for (let i = 1; i < cogChanges.length; i++) {
    const { timeS, cog } = cogChanges[i];
    const from = cogChanges[i - 1].cog;
    while (command + 1 < commands.length && commands[command + 1].timeS <= timeS) {
      command++;
      reached = from === commands[command].toCog;
    }
    const wanted = command < 0 ? track.startCog : commands[command].toCog;
    if (cog < 0 || from < 0) continue;
    const quiet = command < 0 || timeS - commands[command].timeS > QUIET_BEFORE_S;
    const answers = command >= 0 && cogChanges[i].crankTurns - commands[command].crankTurns < ANSWERS_FOR_TURNS;
    const heldS = (cogChanges[i + 1]?.timeS ?? (track.samples - 1) / TRACK_HZ) - timeS;
    const away = Math.abs(cog - wanted) > Math.abs(from - wanted);
    const move = { timeS, fromCog: from, toCog: cog, heldS, towardsCommand: !away };
    if (quiet && !answers && (away || !reached) && heldS > HELD_OVER_S) ghosts.push(move);
    if (quiet && answers && !away && !reached) belated.push(move);
    if (cog === wanted) reached = true;
  }
  return { ghosts, belated };
}
