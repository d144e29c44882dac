import { fileURLToPath } from 'node:url';

/** Root folder of the project, with a slash at its end. */
export const root = fileURLToPath(new URL('../../', import.meta.url));
