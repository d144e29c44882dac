/**
 * Number of single-letter edits (insert, delete, replace; Levenshtein 1966) between two words. Own code: no library in use gives it,
 * and a dozen lines are worth none of their own.
 */
export function editDistance(a: string, b: string): number {
  let previous = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const replaced = previous[j - 1] + (a[i - 1] === b[j - 1] ? 0 : 1);
      row.push(Math.min(previous[j] + 1, row[j - 1] + 1, replaced));
    }
    previous = row;
  }
  return previous[b.length];
}

/**
 * The allowed word that a misspelt one was most likely meant to be; null where none is within a third of its letters
 * (at least one edit, capitals not counted).
 *
 * @example closestWord('casette', ['chainrings', 'cassette']) // 'cassette'
 */
export function closestWord(word: string, allowed: readonly string[]): string | null {
  const limit = Math.max(1, Math.floor(word.length / 3));
  let best: string | null = null;
  let bestDistance = limit + 1;
  for (const candidate of allowed) {
    const distance = editDistance(word.slice(0, 80).toLowerCase(), candidate.toLowerCase());
    if (distance < bestDistance) [best, bestDistance] = [candidate, distance];
  }
  return best;
}
