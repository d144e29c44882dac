import { readFileSync } from 'node:fs';

/** Version in package.json, found above this file whether it runs from the sources or from the build. */
export function programVersion(): string {
  for (const above of ['../../', '../../../'])
    try {
      const content = JSON.parse(readFileSync(new URL(`${above}package.json`, import.meta.url), 'utf8'));
      if (content.name === 'cogwright') return content.version;
    } catch {
      // not in this folder: look one higher
    }
  throw new Error('package.json was not found above the program');
}
