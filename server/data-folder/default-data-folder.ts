import { homedir } from 'node:os';
import { isAbsolute, join } from 'node:path';

/**
 * The data folder where none is named: `cogwright` in the user's own data directory. Elsewhere than on the two systems
 * with a directory of their own it follows the XDG base directory specification: `$XDG_DATA_HOME`, which must be an absolute
 * path, else `~/.local/share`.
 */
export function defaultDataFolder(
  environment: NodeJS.ProcessEnv = process.env,
  platform: NodeJS.Platform = process.platform,
  home: string = homedir(),
): string {
  if (platform === 'win32') return join(environment.LOCALAPPDATA || join(home, 'AppData', 'Local'), 'cogwright');
  if (platform === 'darwin') return join(home, 'Library', 'Application Support', 'cogwright');
  const named = environment.XDG_DATA_HOME;
  return join(named && isAbsolute(named) ? named : join(home, '.local', 'share'), 'cogwright');
}
