import { FileError } from '../errors/file-error.ts';
import { parseJson } from '../errors/parse-json.ts';
import { schemaIssueClause } from '../errors/schema-issue-words.ts';
import { type Bike, bikeSchema } from './bike.ts';

/**
 * Reads a bike file.
 *
 * @param file its name, for messages only
 * @throws FileError `not-json` or `bad-bike`; the message names every key that is wrong, what stands there and what is
 *   allowed, and for a misspelt key the one that was probably meant
 * @example parseBike('bike.json', '{"name":"Hut bike 3","chainrings":[32],"cassette":[11,13,15,18,21,24,28,32,37]}').actuation
 *   // 'cable'
 */
export function parseBike(file: string, text: string): Bike {
  const input = parseJson(file, text);
  const result = bikeSchema.safeParse(input);
  if (result.success) return result.data;
  const clauses = result.error.issues.map((issue) => schemaIssueClause(issue, input, Object.keys(bikeSchema.shape)));
  throw new FileError(file, 'bad-bike', clauses.join('; '), 'Mend the bike file and try again.');
}
