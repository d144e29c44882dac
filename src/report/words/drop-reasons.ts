import { counted } from '../../numeric/counted.ts';
import { listed } from '../../numeric/listed.ts';
import type { DropSignReport } from '../ride-report-schema.ts';

/** What was measured of a lost chain, by sign. */
type Seen = ReadonlyMap<DropSignReport['sign'], DropSignReport>;

interface SignWords {
  readonly sign: DropSignReport['sign'];
  /** True where the sign is told though it weighs nothing: the search had asked for it. */
  readonly asked?: true;
  /** The sign in words. */
  readonly say: (size: string | null, seen: Seen) => string;
}

const speaksFor: readonly SignWords[] = [
  { sign: 'legs-faster', say: (size, seen) => `the legs ran ${size} faster than before${lasting(seen)}` },
  // how much faster is what `past-gear` tells
  { sign: 'legs-set-off-faster', say: (_, seen) => `setting off, the legs ran away${lasting(seen)}` },
  {
    sign: 'legs-past-usual',
    say: (size, seen) => `the legs ran ${size} past the cadence that this rider hardly ever exceeds${lasting(seen)}`,
  },
  {
    sign: 'past-gear',
    say: (size) => (size === null ? 'the legs turned while the wheel stood' : `the legs outran the gear by ${size}`),
  },
  { sign: 'power-gone', say: (size) => `power fell to ${size}` },
  {
    sign: 'end-cog-asked',
    asked: true,
    say: (size) => `the end cog had been asked for ${size === '0 s' ? 'just' : size} before`,
  },
  { sign: 'end-cog-held', say: () => 'the derailleur stood on an end cog' },
  {
    sign: 'halts-on-cog',
    asked: true,
    say: (_, seen) =>
      `the bike halted so soon after ${seen.get('halts-on-cog')?.value} of ${sizeOf(seen.get('shifts-onto-cog'))} onto that cog`,
  },
  {
    sign: 'legs-stopped-after',
    asked: true,
    say: (size) => `the legs stopped ${size === '0 s' ? 'at once' : `${size} after that`}`,
  },
  {
    sign: 'turned-in-vain',
    say: (size) => `they had turned on for ${size} faster than the gear asked for or the one before allows`,
  },
  {
    sign: 'halt-lasts',
    asked: true,
    say: (size, seen) =>
      `${later(seen)}the bike stood ${size === null ? 'to the end of the recording' : `for ${size}`}`,
  },
  {
    sign: 'asked-off-standing',
    say: (size) => `${size} after the last turn of the legs a smaller cog was asked for`,
  },
];

const speaksAgainst: readonly SignWords[] = [
  { sign: 'halts-so-often', say: () => 'so few such halts may be chance' },
  {
    sign: 'halt-lasts',
    say: (size) => (size === null ? 'the recording ends in that halt' : `the bike stood for no more than ${size}`),
  },
  { sign: 'power-there', say: (size) => `there was still a power of ${size}` },
  { sign: 'no-halt', say: (size) => `no halt followed within ${size}` },
  { sign: 'creeping', say: () => 'the bike had hardly set off or was creeping, where sensors err' },
  { sign: 'single-reading', say: () => 'it is a single reading' },
  { sign: 'cog-reached', say: (size) => `the chain drove on the cog that was asked for (${size})` },
  { sign: 'braking', say: (size) => `the bike was braked hard (${size})` },
  { sign: 'cadence-leaps', say: () => 'the cadence of this ride leaps time and again' },
];

/** Why a chain is held to have come off, and what speaks against it, in a sentence each; none where an older engine kept no signs. */
export function dropReasons(signs: readonly DropSignReport[] | undefined): string[] {
  const seen: Seen = new Map(signs?.map((one) => [one.sign, one]));
  const told = (words: readonly SignWords[], counts: (logOdds: number) => boolean): string[] =>
    words.flatMap(({ sign, asked, say }) => {
      const one = seen.get(sign);
      return one && (counts(one.logOdds) || (asked && one.logOdds === 0)) ? [say(sizeOf(one), seen)] : [];
    });
  const reasons = told(speaksFor, (logOdds) => logOdds > 0);
  const doubts = told(speaksAgainst, (logOdds) => logOdds < 0);
  return [
    ...(reasons.length > 0 ? [`Why: ${listed(reasons)}.`] : []),
    ...(doubts.length > 0 ? [`Against it: ${listed(doubts)}.`] : []),
  ];
}

function sizeOf(one: DropSignReport | undefined): string | null {
  const { value = null, unit = null } = one ?? {};
  if (value === null || unit === null) return null;
  if (unit === 'records') return counted(value, 'record');
  if (unit === 'shifts') return counted(value, 'shift');
  return `${unit === 'm/s' || unit === 'm/s²' ? value.toFixed(1) : Math.round(value)} ${unit}`;
}

/** For how long the legs ran so fast. */
function lasting(seen: Seen): string {
  const one = seen.get('legs-fast-for');
  return one?.value ? ` for ${sizeOf(one)}` : '';
}

/** How long until the halt. */
function later(seen: Seen): string {
  const one = seen.get('halt-after');
  return one?.value ? `${sizeOf(one)} later ` : '';
}
