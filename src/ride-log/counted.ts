/** `counted(1, 'record')` is '1 record', `counted(2, 'record')` is '2 records'. */
export const counted = (count: number, noun: string): string =>
  `${count.toLocaleString('en')} ${noun}${count === 1 ? '' : 's'}`;
