import { expect, it } from 'vitest';
import { z } from 'zod';
import { schemaIssueClause } from '../../src/errors/schema-issue-words.ts';

const clause = (schema: z.ZodType, input: unknown, keys: readonly string[]): string => {
  const [issue] = schema.safeParse(input).error?.issues ?? [];
  return schemaIssueClause(issue, input, keys);
};

it('says which keys are known, or that none is', () => {
  expect(clause(z.strictObject({ order: z.string() }), { order: 'x', oder: 1 }, ['order'])).toBe(
    'holds the unknown key "oder" ("oder" is perhaps "order"; known are order)',
  );
  expect(clause(z.strictObject({}), { order: 'x' }, [])).toBe('holds the unknown key "order" (no key is taken here)');
});
