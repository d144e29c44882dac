import type { Bike } from './bike.ts';

/** Whether two bikes differ in their name at most: then what a ride shows on one holds for the other. */
export const sameDrivetrain = (a: Bike, b: Bike): boolean => withoutName(a) === withoutName(b);

const withoutName = ({ name: _, ...drivetrain }: Bike): string => JSON.stringify(Object.entries(drivetrain).sort());
