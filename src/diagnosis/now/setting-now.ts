/**
 * What became of the setting in question.
 *
 * - `same`: the fault is there as it was named, untouched or not turned far enough
 * - `cured`: the last adjustment cured it
 * - `overdone`: an adjustment went past the mark, to another fault
 * - `another`: the fault is most likely gone, and the rides since the last adjustment name another by themselves
 * - `unsettled`: what was ridden since the last adjustment does not tell which of these
 * - `untested`: nothing was seen since the last adjustment
 */
export const settingsNow = ['same', 'cured', 'overdone', 'another', 'unsettled', 'untested'] as const;
/** One of `settingsNow`. */
export type SettingNow = (typeof settingsNow)[number];
