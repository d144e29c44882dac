/** The words with a capital letter, for the start of a line. */
export const upperFirst = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
