import { group } from 'd3-array';
import type { ReadFile } from '../api/answers.ts';
import { ApiError } from '../api/api-error.ts';

/** What a refusal says of each file, file by file as they were sent; empty where it says nothing of files. */
export function refusedFiles(error: Error): ReadFile[] {
  if (!(error instanceof ApiError)) return [];
  return [...group(error.details, ({ path }) => path)].map(([name, said]) => ({
    name,
    understood: [],
    notUnderstood: said.map(({ message }) => message),
    remarks: [],
  }));
}
