import type { z } from 'zod';
import { closestWord } from './closest-word.ts';

/** One thing wrong in a file that a schema checks, in words: which key, what stands there, what is allowed. */
export interface SchemaIssueWords {
  /** Key as a path, for example `chainrings[0]`; empty for the whole file. */
  readonly key: string;
  readonly found: string;
  readonly allowed: string;
}

/**
 * Puts a schema's issue into words that name the key, what was found and what is allowed; for a key that the schema
 * does not know, the nearest one that it does.
 *
 * @param input the value that was checked, so that what was found can be shown
 * @param knownKeys keys allowed at the top of the file
 */
export function schemaIssueWords(
  issue: z.core.$ZodIssue,
  input: unknown,
  knownKeys: readonly string[],
): SchemaIssueWords {
  if (issue.code === 'unrecognized_keys') {
    const nearest = issue.keys.map((key) => closestWord(key, knownKeys));
    const hint = nearest.some((key) => key !== null)
      ? `${nearest
          .map((key, i) => key && `"${issue.keys[i]}" is perhaps "${key}"`)
          .filter(Boolean)
          .join(', ')}; `
      : '';
    return {
      key: '',
      found: `holds the unknown key${issue.keys.length > 1 ? 's' : ''} ${issue.keys.map((key) => `"${key}"`).join(', ')}`,
      allowed: knownKeys.length === 0 ? 'no key is taken here' : `${hint}known are ${knownKeys.join(', ')}`,
    };
  }
  const value = valueAt(input, issue.path);
  const found = value === undefined ? 'is missing' : `is ${shown(value)}`;
  return { key: keyPath(issue.path), found, allowed: allowedWords(issue) };
}

/** The same as one clause: `chainrings[0] is 14.5: must be a whole number`. */
export function schemaIssueClause(issue: z.core.$ZodIssue, input: unknown, knownKeys: readonly string[]): string {
  const words = schemaIssueWords(issue, input, knownKeys);
  if (issue.code === 'unrecognized_keys') return `${words.found} (${words.allowed})`;
  return `${words.key || 'the whole file'} ${words.found}: ${words.allowed}`;
}

function allowedWords(issue: z.core.$ZodIssue): string {
  switch (issue.code) {
    case 'invalid_type':
      return `must be ${typeWords[issue.expected] ?? `of type ${issue.expected}`}`;
    case 'too_small':
      return `must ${sizeWords(issue.origin, 'at least', Number(issue.minimum))}`;
    case 'too_big':
      return `must ${sizeWords(issue.origin, 'at most', Number(issue.maximum))}`;
    case 'invalid_value':
      return `must be ${issue.values.length > 1 ? 'one of ' : ''}${issue.values.join(', ')}`;
    default:
      return issue.message;
  }
}

const typeWords: Readonly<Record<string, string>> = {
  int: 'a whole number',
  number: 'a number',
  string: 'a text in quotes',
  array: 'a list in square brackets',
  object: 'an object in curly brackets',
  boolean: 'true or false',
};

function sizeWords(origin: string, bound: string, limit: number): string {
  if (origin === 'array') return `hold ${bound} ${limit} ${limit === 1 ? 'entry' : 'entries'}`;
  if (origin === 'string') return `have ${bound} ${limit} ${limit === 1 ? 'character' : 'characters'}`;
  return `be ${bound} ${limit}`;
}

function keyPath(path: readonly PropertyKey[]): string {
  return path.map((part, i) => (typeof part === 'number' ? `[${part}]` : `${i ? '.' : ''}${String(part)}`)).join('');
}

function valueAt(input: unknown, path: readonly PropertyKey[]): unknown {
  let value = input;
  for (const part of path) value = (value as Record<PropertyKey, unknown> | null | undefined)?.[part];
  return value;
}

function shown(value: unknown): string {
  if (value === '') return 'empty';
  const text = typeof value === 'number' ? String(value) : (JSON.stringify(value) ?? String(value));
  return text.length > 60 ? `${text.slice(0, 57)}...` : text;
}
