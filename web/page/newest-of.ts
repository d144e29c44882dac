/**
 * Loads as `load` does, but gives for an answer that comes after one which was asked for later that later one again: what is shown never
 * grows older, whichever way it was loaded.
 */
export function newestOf<Answer>(load: () => Promise<Answer>): () => Promise<Answer> {
  let asked = 0;
  let newest: { readonly turn: number; readonly answer: Answer } | null = null;
  return async () => {
    const turn = ++asked;
    const answer = await load();
    if (newest === null || turn > newest.turn) newest = { turn, answer };
    return newest.answer;
  };
}
