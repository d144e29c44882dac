/** Loads and shows what was loaded, but for an answer that comes after one which was asked for later: what is shown never grows older. */
export function inOrder<Answer>(load: () => Promise<Answer>, show: (answer: Answer) => void): () => Promise<void> {
  let asked = 0;
  let shown = 0;
  return async () => {
    const turn = ++asked;
    const answer = await load();
    if (turn < shown) return;
    shown = turn;
    show(answer);
  };
}
