import type { ItemKey, Side } from '../vocabulary';
import { SIGNS, SITES } from '../vocabulary';
import type { Comparison, Fit, NextTest, RankedLesion } from './localisation';
import type { Hypothesis, Severity } from './hypotheses';
import { partsOf } from './observation/reading';

const SIDE_WORD: Readonly<Record<Side, string>> = { left: 'Left', right: 'Right' };

/** "median nerve at the wrist or carpal tunnel, below …" */
export const placeInWords = ({ structure, level }: Pick<Hypothesis, 'structure' | 'level'>): string => (level ? `${structure} ${/^(at|in|above|below|beyond|before|to|of) /.test(level) ? level : `(${level})`}` : structure);

const LOSS: Readonly<Record<Severity, string>> = { complete: 'loss looks complete', partial: 'loss looks partial', patchy: 'loss looks patchy, some fascicles or strands spared', mild: 'loss looks mild' };
const TENDON_LOSS: Readonly<Record<Severity, string>> = { complete: 'looks divided or ruptured', partial: 'looks partly divided, or held back', patchy: 'looks partly divided, or held back', mild: 'looks at most slightly weakened' };

function extentInWords({ kind }: Pick<Hypothesis, 'kind'>, severity: Severity | undefined): string {
  if (severity === undefined) return '';
  return kind === 'tendon' ? `, ${TENDON_LOSS[severity]}` : kind === 'nerve' || kind === 'plexus' || kind === 'root' ? `, ${LOSS[severity]}` : '';
}

export function lesionInWords(side: Side, parts: readonly { hypothesis: Hypothesis; severity: Severity | undefined }[]): string {
  const [only] = parts;
  if (!only) return '';
  if (only.hypothesis.kind === 'normal') return `${SIDE_WORD[side]}: no lesion found in what was examined.`;
  if (only.hypothesis.kind === 'unexplained') return `${SIDE_WORD[side]}: the findings follow no lesion of the list.`;
  return `${SIDE_WORD[side]}: ${parts.map(({ hypothesis, severity }) => placeInWords(hypothesis) + extentInWords(hypothesis, severity)).join('; and ')}.`;
}

const percent = (p: number): string => (p > 0.995 ? 'over 99 %' : p < 0.01 ? 'under 1 %' : `${Math.round(p * 100)} %`);

const withoutSide = (words: string): string => words.replace(/^(Left|Right)( ·|:) /, '').replace(/\.$/, '');
const MOST_NAMED = 3;
const listed = (items: readonly string[]): string => (items.length <= MOST_NAMED ? items.join('; ') : `${items.slice(0, MOST_NAMED).join('; ')}; and ${items.length - MOST_NAMED} more`);

/**
 * The answer for one hand, to be read out.
 * @param ranked explanations, most probable first
 * @param close those that the findings cannot tell from the first
 * @param tests what would tell them apart
 */
export function answerInWords(side: Side, fit: Fit, ranked: readonly RankedLesion[], close: readonly RankedLesion[], tests: readonly NextTest[]): string {
  const [first, second] = ranked;
  if (fit === 'too little' || !first) return `${SIDE_WORD[side]}: too little is known to name a place.`;
  const rivals = close.length > 0 ? ` Not told apart from: ${listed(close.map(({ words, probability }) => `${withoutSide(words)} (${percent(probability)})`))}.` : '';
  const telling = close.length > 0 && tests[0] ? ` What would tell most between them: ${withoutSide(tests[0].words)}.` : '';
  if (fit === 'poor') {
    const nearest = first.kind === 'unexplained' ? (second && second.kind !== 'normal' ? second : undefined) : first;
    return `${SIDE_WORD[side]}: no single or double lesion of the list accounts for these findings. Check them, or think of something else.${nearest ? ` Nearest to them: ${withoutSide(nearest.words)} (${percent(nearest.probability)}).` : ''}`;
  }
  if (first.kind === 'normal' && first.against.length > 0)
    return `${SIDE_WORD[side]}: no lesion stands out (${percent(first.probability)}). Left without a cause: ${listed(first.against.map(({ words }) => withoutSide(words)))}. Look again${second && second.kind !== 'unexplained' ? `; if it holds, think first of ${withoutSide(second.words)} (${percent(second.probability)})` : ''}.`;
  return `${first.words} Probability ${percent(first.probability)}.${rivals}${telling}`;
}

/** "Left: power of the abductor pollicis brevis", "Left: light touch, index fingertip" */
export function testInWords(item: ItemKey, side: Side): string {
  const { sign, site } = partsOf(item);
  const { name, kind } = SITES[site];
  return `${SIDE_WORD[side]}: ${SIGNS[sign].name}${sign === 'power' ? (kind === 'movement' ? ' of ' : ' of the ') : ', '}${name}`;
}

export function stabilityInWords(stable: boolean, hangsOn: readonly string[]): string {
  if (stable) return 'No single wrong finding would change the first place.';
  return hangsOn.length === 0 ? 'Nothing to go on yet.' : `The first place hangs on: ${listed(hangsOn)}.`;
}

/** Left against right in one or two sentences. */
export function comparisonInWords({ leftOnly, rightOnly, both, neither }: Pick<Comparison, 'leftOnly' | 'rightOnly' | 'both' | 'neither'>, differing: readonly string[], alike: number, compared: number): string {
  const [[words, chance]] = ([['only the left hand', leftOnly], ['only the right hand', rightOnly], ['both hands', both], ['neither hand', neither]] as const).toSorted((a, b) => b[1] - a[1]) as [[string, number]];
  const findings = compared === 0 ? ' Nothing was examined on both sides.' : differing.length > 0 ? ` Found differently: ${listed(differing)}.` : alike > 0 ? ' What is abnormal is so on both sides alike.' : ' No finding differs between the sides.';
  return `A lesion in ${words}: ${percent(chance)}.${findings}`;
}
