/**
 * A count by itself, as `counted` writes it beside its noun: thousands are parted by commas.
 *
 * @example figure(1571) // '1,571'
 */
export const figure = (count: number): string => count.toLocaleString('en');
