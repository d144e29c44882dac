/** Share of these sizes that are the bike's; 1 where none is named. */
export const shareOwn = (named: ArrayLike<number>, own: readonly number[]): number => {
  const sizes = Array.from(named).filter((teeth) => teeth > 0);
  return sizes.length === 0 ? 1 : sizes.filter((teeth) => own.includes(teeth)).length / sizes.length;
};

/** Share of sizes that both name, of all that the one with fewer names; 1 where one names none. */
export function shareOfTeeth(a: readonly number[], b: readonly number[]): number {
  const fewer = Math.min(a.length, b.length);
  return fewer === 0 ? 1 : a.filter((teeth) => b.includes(teeth)).length / fewer;
}
