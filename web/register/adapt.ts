/** Small words shared by the pages of the register. */

/** The first letter large, for a word that heads a line. */
export function headed(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
