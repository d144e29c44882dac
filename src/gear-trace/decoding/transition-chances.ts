/**
 * Chances of a change within one second. All are assumptions of ours, common sense put in numbers: nobody has measured
 * them in public. The trace hangs on their orders of magnitude only, since a second of steady pedalling outweighs any of them.
 */
export const CHANCE = {
  /** The chain follows a fresh command. Weak on purpose: a missed shift must cost the model little. */
  followFresh: 0.3,
  /** The chain follows a command that is more than some seconds of pedalling old. */
  followOld: 0.015,
  /** The chain leaves the commanded cog, or moves on its own. */
  ownAccord: 3e-4,
  /** The rider shifts where no gear records tell. */
  unrecorded: 0.04,
  unrecordedRing: 0.004,
  recordedRingFresh: 0.3,
  recordedRing: 2e-3,
  driveToFree: 0.05,
  freeToDrive: 0.25,
  loseDrive: 3e-6,
  loseDriveAfterCommand: 3e-5,
  regainDrive: 0.04,
  /** Nothing changes cog while the chain stands still. */
  standing: 0.05,
} as const;
