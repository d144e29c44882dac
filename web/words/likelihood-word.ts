/** A probability in a word. */
export function likelihoodWord(probability: number): string {
  if (probability >= 0.9) return 'almost certainly';
  if (probability >= 0.7) return 'probably';
  if (probability >= 0.5) return 'more likely than not';
  return probability > 0.3 ? 'possibly' : 'probably not';
}
