/** Code of the warning that a ride's speed was computed, not ridden. */
export const virtualSpeed = 'virtual-speed';
