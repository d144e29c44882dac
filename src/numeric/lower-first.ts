/** The words with a small letter, for the middle of a line. Not for words that begin with a name. */
export const lowerFirst = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);
