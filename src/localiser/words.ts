import type { ItemKey, Side } from '../vocabulary';
import { SIGNS, SITES } from '../vocabulary';
import type { Fit, RankedLesion } from './localisation';
import type { Hypothesis, Severity } from './hypotheses';
import { partsOf } from './observation/reading';

const SIDE_WORD: Readonly<Record<Side, string>> = { left: 'Left', right: 'Right' };

/** "median nerve at the wrist or carpal tunnel, below …" */
export const placeInWords = ({ structure, level }: Pick<Hypothesis, 'structure' | 'level'>): string => (level ? `${structure} ${/^(at|in|above|below|beyond|before|to|of) /.test(level) ? level : `(${level})`}` : structure);

export function lesionInWords(side: Side, parts: readonly { hypothesis: Hypothesis; severity: Severity | undefined }[]): string {
  const [only] = parts;
  if (!only) return '';
  if (only.hypothesis.kind === 'normal') return `${SIDE_WORD[side]}: no lesion.`;
  if (only.hypothesis.kind === 'unexplained') return `${SIDE_WORD[side]}: the findings follow no lesion of the list.`;
  const loss = (severity: Severity | undefined) => (severity === 'complete' ? ', loss looks complete' : severity === 'partial' ? ', loss looks partial' : severity === 'patchy' ? ', loss looks patchy' : severity === 'mild' ? ', loss looks mild' : '');
  return `${SIDE_WORD[side]}: ${parts.map(({ hypothesis, severity }) => placeInWords(hypothesis) + (['nerve', 'plexus', 'root', 'tendon'].includes(hypothesis.kind) ? loss(severity) : '')).join('; and ')}.`;
}

const percent = (p: number): string => (p > 0.995 ? 'over 99 %' : p < 0.01 ? 'under 1 %' : `${Math.round(p * 100)} %`);

/** The answer for one hand in one or two sentences. */
export function answerInWords(side: Side, fit: Fit, first: RankedLesion | undefined, second: RankedLesion | undefined): string {
  if (fit === 'too little' || !first) return `${SIDE_WORD[side]}: too little is known to name a place.`;
  const unfit = fit === 'poor' ? ' The findings fit no explanation well: check them, or think of something else.' : '';
  const rival = second && second.probability > first.probability / 3 ? ` Not told apart from: ${second.words.replace(/^(Left|Right): /, '')}` : '';
  return `${first.words} Probability ${percent(first.probability)}.${rival}${unfit}`;
}

/** "Left: power of the abductor pollicis brevis" */
export function testInWords(item: ItemKey, side: Side): string {
  const { sign, site } = partsOf(item);
  const { name, category } = SIGNS[sign];
  const where = SITES[site].name;
  return category === 'special test' || category === 'look' || category === 'reflex' ? `${SIDE_WORD[side]}: ${name}, ${where}` : `${SIDE_WORD[side]}: ${name} of the ${where}`;
}

export function stabilityInWords(stable: boolean, hangsOn: readonly string[]): string {
  if (stable) return 'No single wrong finding would change the first place.';
  return hangsOn.length === 0 ? 'Nothing to go on yet.' : `The first place hangs on: ${hangsOn.join('; ')}.`;
}
