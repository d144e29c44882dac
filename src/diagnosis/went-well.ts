/**
 * How small a share of judged shifts goes wrong where a bike is said to shift well. Assumptions of ours, side by side since they must keep their order. They
 * differ by what is at stake and by how much there is to count: surely below a share means that the upper end of its 95 % interval is, for which
 * about 190 shifts without trouble are needed at 0.02, 73 at 0.05 and 45 at 0.08.
 */

/** Surely below this, a part is better left alone, whatever the timing of shifts hints at: it speaks against a fault that is named, so it takes most. */
export const LEFT_ALONE_BELOW = 0.02;
/** Surely below this, some period or ride went well beside another of the same bike that did not: a single late shift is no fault. */
export const WENT_WELL_BELOW = 0.05;
/** The same where a part of the rides alone can be counted: those before anything was turned, or the shifts with soft legs. */
export const PART_WENT_WELL_BELOW = 0.08;

/** So much went wrong at most, as it was counted, where there was hardly anything left to cure, and where no fault shows. */
export const NEXT_TO_NOTHING = 0.02;
/** The same of what is turned back to: that it shifted well is reason enough to advise it, while a cure is credited to it by less. */
export const WORTH_TURNING_BACK_TO = 0.03;
