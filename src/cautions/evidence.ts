import { meaning } from '../examination';
import type { ExaminationRecord, RecordedFinding, SetUp } from '../record';
import { DIGITS, SIGNS } from '../vocabulary';
import type { Digit, Level, Qualifier, Side, SignCode, SiteCode } from '../vocabulary';

/** What one hand shows, as red flags look at it: the findings of one side, and what was said before the examination. */
export interface Evidence {
  readonly side: Side;
  readonly findings: readonly RecordedFinding[];
  readonly setUp: SetUp | null;
}

export const evidenceOf = (record: ExaminationRecord, side: Side): Evidence =>
  ({ side, findings: record.findings.filter(({ finding }) => finding.side === side), setUp: record.setUp });

/** What to look for. Everything given must hold; only findings that speak for trouble count, so a good grade elsewhere never takes away. */
export interface Pattern {
  readonly sign: SignCode | readonly SignCode[];
  /** Sites, or a test of the site; any site when left out. */
  readonly at?: readonly SiteCode[] | ((site: SiteCode) => boolean);
  readonly level?: readonly Level[];
  readonly qualifier?: Qualifier;
}

const listed = <T>(one: T | readonly T[]): readonly T[] => (Array.isArray(one) ? one as readonly T[] : [one as T]);

function matches({ finding }: RecordedFinding, { sign, at, level, qualifier }: Pattern): boolean {
  if (meaning(finding) !== 'abnormal') return false;
  if (!listed(sign).includes(finding.sign)) return false;
  // A healed wound or an old amputation is no emergency.
  if (SIGNS[finding.sign].category === 'wound' && finding.qualifiers?.includes('old')) return false;
  const ends = [finding.site, ...(finding.upTo ? [finding.upTo] : [])];
  if (at && !ends.some((site) => (typeof at === 'function' ? at(site) : at.includes(site)))) return false;
  if (level && !(finding.result.kind === 'level' && level.includes(finding.result.level))) return false;
  return !qualifier || (finding.qualifiers?.includes(qualifier) ?? false);
}

/** The findings that fit the pattern. */
export const seen = (evidence: Evidence, pattern: Pattern): readonly RecordedFinding[] => evidence.findings.filter((finding) => matches(finding, pattern));

/** The findings of all patterns, if at least `least` different patterns are there; nothing otherwise. */
export function atLeast(least: number, evidence: Evidence, patterns: readonly Pattern[]): readonly RecordedFinding[] {
  const found = patterns.map((pattern) => seen(evidence, pattern)).filter((list) => list.length > 0);
  return found.length >= least ? [...new Set(found.flat())] : [];
}

const HOURS: Partial<Record<string, number>> = { s: 1 / 3600, min: 1 / 60, h: 1, d: 24 };
/** Hours since onset or injury, if it was said. */
export const hoursSinceOnset = ({ setUp }: Evidence): number | undefined => {
  const factor = setUp?.onset && HOURS[setUp.onset.unit];
  return setUp?.onset && factor !== undefined ? setUp.onset.value * factor : undefined;
};

/** A mechanism older than this is history: a design choice, not a published limit. */
const RECENT_HOURS = 30 * 24;

/** True when the set-up is about this hand, recent, and its mechanism reads like the pattern. Which hand is not known: both are warned about. */
export const mechanismIs = (evidence: Evidence, pattern: RegExp): boolean => {
  const { setUp, side } = evidence;
  if (setUp?.mechanism === undefined || !pattern.test(setUp.mechanism)) return false;
  return (setUp.injuredSide === undefined || setUp.injuredSide === 'both' || setUp.injuredSide === side) && (hoursSinceOnset(evidence) ?? 0) <= RECENT_HOURS;
};

/** The digit a site belongs to, if it belongs to one. */
export const digitOf = (site: SiteCode): Digit | undefined => DIGITS.find((digit) => site === digit || site.startsWith(`${digit}.`) || site === `${digit}r` || site === `${digit}u`);
export const onDigit = (digit: Digit) => (site: SiteCode): boolean => digitOf(site) === digit;
