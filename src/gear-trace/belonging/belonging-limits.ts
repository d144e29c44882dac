/** How a ride's ladder of ratios is set against a bike's gears. */
export interface LadderLimits {
  /** Rungs that a ride must show before its ladder tells anything. */
  readonly rungs: number;
  /** How near a rung must lie to a gear's development, as a share of it. */
  readonly near: number;
  /** Rollouts tried either way of the one that is known, as a share of it. */
  readonly rollout: number;
  /** Share of the steady seconds that must lie in a gear of the bike. */
  readonly steady: number;
}

const ladder = { rungs: 5, near: 0.01 } as const;

/**
 * When a ride counts as one of a bike, by what hangs on the answer. The measures are `shareOfTeeth` and `shareOnGears`;
 * limits of ours. In the test rides, rides of one bike reach 0.98 of steady time on its gears, those of other bikes 0.44 at most.
 */
export const belongingLimits = {
  /**
   * Rides given together without a bike: one is called another bike's only where that is clear, so teeth are compared where both rode
   * alone (`cogsNamedAlike`). Rides of one bike differ in rollout by tyre pressure, load and calibration.
   */
  together: { ...ladder, teeth: 0.8, rollout: 0.02, steady: 0.6 },
  /**
   * A ride that looks for its bike: it is put on one only where that is clear, at the rollout that is known of it, since on a wrong
   * one it would make the verdict false. A bike with `alike` less of its steady time is as good as the best: sensors differ by more.
   */
  placed: { ...ladder, teeth: 0.8, rollout: 0, steady: 0.95, alike: 0.02 },
  /**
   * A ride that its rider put on a bike: left out only where its records cannot be the bike's. `teeth`: share of the sizes it names that are
   * the bike's; `slips`: of so large a share that are not, a recorder's slips are no explanation; a size or position counts if named `named` times.
   */
  given: { teeth: 0.5, slips: 0.25, named: 2 },
} as const;
