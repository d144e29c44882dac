let last = 0;

/** An id no other element of the page has, for labels and descriptions. */
export function freshId(stem: string): string {
  last += 1;
  return `${stem}-${last}`;
}
