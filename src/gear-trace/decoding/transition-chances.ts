/**
 * Chances of a change within one second. All are assumptions of ours, common sense put in numbers: nobody has measured
 * them in public. The trace hangs on their orders of magnitude only, since a second of steady pedalling outweighs any of them.
 */
export const CHANCE = {
  /** The rider shifts where no gear records tell. */
  unrecorded: 0.04,
  recordedRingFresh: 0.3,
  recordedRing: 2e-3,
  /** The chain leaves the ring that is recorded. */
  ringOwnAccord: 3e-5,
  driveToFree: 0.05,
  freeToDrive: 0.25,
  loseDrive: 3e-6,
  loseDriveAfterCommand: 3e-5,
  regainDrive: 0.04,
  /** Nothing changes cog while the chain stands still. */
  standing: 0.05,
} as const;

/** Chances within one second of where the chain goes against the commanded cog, and of a change of ring that no record tells of. Assumptions of ours. */
export interface Obedience {
  /** The chain follows a fresh command. */
  readonly followFresh: number;
  /** The chain follows a command that is more than some seconds of pedalling old. */
  readonly followOld: number;
  /** The chain leaves the commanded cog, or moves on its own. */
  readonly ownAccord: number;
  /** The rider changes the ring where none is recorded. */
  readonly unrecordedRing: number;
}

/** Weak on purpose: a missed shift must cost the model little. The ring goes four times an hour: two real rides record three. */
export const OPEN_TO_MISSES: Obedience = {
  followFresh: 0.3,
  followOld: 0.015,
  ownAccord: 3e-4,
  unrecordedRing: 1.2e-3,
};
/** For finding the ring where nothing records it: misses are rarer than changes of ring, so a ratio that fits the commanded cog on the other ring tells of that ring. */
export const MOSTLY_OBEYS: Obedience = { followFresh: 0.6, followOld: 0.05, ownAccord: 1e-4, unrecordedRing: 4e-3 };
