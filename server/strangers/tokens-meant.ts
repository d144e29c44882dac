/**
 * The tokens that a text in the field for one may mean: itself, itself without the blanks that a clipboard adds, and the one at the end
 * of the whole address that was pasted.
 */
export function tokensMeant(text: string): readonly string[] {
  const trimmed = text.trim();
  const carried = /[?&]token=([^&#\s]+)/.exec(trimmed)?.[1];
  return [text, trimmed, ...(carried === undefined ? [] : [carried, decoded(carried)])];
}

function decoded(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch {
    return part;
  }
}
