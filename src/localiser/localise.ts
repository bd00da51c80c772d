import type { Finding, ItemKey, Side } from '../vocabulary';
import { SIDES, checkFinding, findingInWords, itemKey } from '../vocabulary';
import type { Hypothesis, Severity } from './hypotheses';
import { SEVERITIES, zoneInWords } from './hypotheses';
import { calibrated } from './inference/calibration';
import { compare } from './inference/compare';
import { gather, isNormal } from './inference/evidence';
import { evidenceFor, followed, hangingFindings, leaveOneOut } from './inference/explain';
import { predictiveP } from './inference/fit';
import type { Without } from './inference/explain';
import { LESIONS, NORMAL, configurationAt, variantsOf } from './inference/network';
import { PROPOSABLE, gains, nameOf } from './inference/next-test';
import type { Priors } from './inference/pairs';
import { USUAL, priorsFor } from './inference/pairs';
import type { SideWeights, Weighted } from './inference/posterior';
import { posterior, weigh } from './inference/posterior';
import type { Fit, InvolvedStructure, Localisation, NextTest, Options, RankedLesion, SideLocalisation, Stability } from './localisation';
import { CAUTION } from './localisation';
import { daysOf } from './observation/reading';
import { answerInWords, lesionInWords, stabilityInWords, testInWords } from './words';

const SHOWN = 0.01;
const MOST_SHOWN = 8;
const MOST_TESTS = 12;
const MOST_TO_TELL_APART = 3;
/** Odds below which two explanations count as told apart. */
const TOLD_APART = 3;
/** Some explanation must have reached this probability, and gained this many bits, before a place is named. */
const NAMED = 0.1;
const CALLED_NORMAL = 0.6;
const ENOUGH = 1;
/** Posterior predictive probability below which the best explanation does not account for the findings. */
export const POOR_FIT = 0.01;

/**
 * Works out where the lesion is, how sure that is, and which test would tell most next. Each hand is reasoned about on its own; only polyneuropathy is one condition of both.
 * Findings that are not testable or that the localiser knows nothing about carry no evidence. Faulty findings are left out
 * and named in `problems`; nothing throws.
 *
 * @example
 * const { sides, nextTests, caution } = localise([
 *   { side: 'left', sign: 'power', site: 'APB', result: { kind: 'grade', grade: '3' } },
 *   { side: 'left', sign: 'light.touch', site: 'D2.pulp', result: { kind: 'level', level: 'reduced' } },
 * ], { onset: { value: 90, unit: 'd' } });
 * sides.left?.words; // the answer in a sentence, to stand beside `caution`
 */
export function localise(findings: readonly Finding[], options: Options = {}): Localisation {
  const { sound, problems } = sift(findings);
  const onsetDays = daysOf(options.onset);
  if (options.onset && onsetDays === undefined) problems.push(`Time since onset "${String(options.onset.value)} ${String(options.onset.unit)}" is not a time and was left out.`);
  const present = SIDES.filter(side => sound.some(finding => finding.side === side));
  const complained: readonly Side[] = options.injuredSide === undefined ? [] : options.injuredSide === 'both' ? SIDES : [options.injuredSide];
  const sides = SIDES.filter(side => present.includes(side) || complained.includes(side));
  const asked = sides.length > 0 ? sides : SIDES;
  const priors = priorsOf(options.howCommon);
  const weights = asked.map(side => weigh(gather(sound.filter(finding => finding.side === side), onsetDays, options.trust), complained.length > 0 && !complained.includes(side), priors, onsetDays));
  const ranked = posterior(weights);
  const tests = asked.map((side, at) => ({ side, weights: weights[at]!, items: openItems(side, sound, options), onsetDays }));
  const perSide = asked.map((side, at) => sideAnswer(side, weights[at]!, calibrated(ranked[at]!), tests[at]!));
  const comparison = asked.length === 2 ? compare(sound, { left: ranked[asked.indexOf('left')]!, right: ranked[asked.indexOf('right')]! }, onsetDays) : undefined;
  const all = perSide.flatMap(({ answer }) => answer.ranked).sort((a, b) => importance(b) - importance(a) || (a.id < b.id ? -1 : 1));
  const worst = asked.reduce((best, _, at) => (lesionProbability(ranked[at]!) > lesionProbability(ranked[best]!) ? at : best), 0);
  return {
    sides: Object.fromEntries(perSide.map(({ side, answer }) => [side, answer])),
    ranked: all,
    cannotTellApart: perSide[worst]?.answer.cannotTellApart ?? [],
    wouldTellApart: perSide[worst]?.answer.wouldTellApart ?? [],
    ...(comparison ? { comparison } : {}),
    nextTests: tests.flatMap((test, at) => testsAmong(test, ranked[at]!, MOST_TESTS)).sort((a, b) => b.value - a.value || (a.item < b.item ? -1 : 1)).slice(0, MOST_TESTS),
    stability: perSide[worst]?.answer.stability ?? { stable: false, hangsOn: [], words: stabilityInWords(false, []) },
    fit: perSide[worst]?.answer.fit ?? 'too little',
    problems,
    caution: CAUTION,
  };
}

const ownPriors = new WeakMap<NonNullable<Options['howCommon']>, Priors>();
/** Worked out once for each function given. */
function priorsOf(howCommon: Options['howCommon']): Priors {
  if (!howCommon) return USUAL;
  const known = ownPriors.get(howCommon) ?? priorsFor(howCommon);
  ownPriors.set(howCommon, known);
  return known;
}

/** "No lesion" of a healthy fellow hand must not push the lesion out of first place. */
const importance = ({ kind, probability }: RankedLesion): number => (kind === 'normal' ? probability - 1 : probability);
const lesionProbability = (ranked: readonly Weighted[]): number => 1 - (ranked.find(({ first, second }) => first === NORMAL && second < 0)?.probability ?? 0);

function sift(findings: readonly Finding[]): { sound: readonly Finding[]; problems: string[] } {
  const problems: string[] = [];
  const sound: Finding[] = [];
  const seen = new Map<string, string>();
  if (!Array.isArray(findings)) return { sound, problems: ['The findings are not a list.'] };
  for (const finding of findings as readonly Finding[]) {
    const faults = faultsOf(finding);
    if (faults.length > 0) { problems.push(`Left out: ${faults.join(' ')}`); continue; }
    sound.push(finding);
    if (finding.result.kind === 'not testable') continue;
    const key = `${finding.side} ${itemKey(finding)} ${[...(finding.qualifiers ?? [])].sort().join()}`;
    const result = JSON.stringify(finding.result);
    const before = seen.get(key);
    if (before !== undefined && before !== result) problems.push(`Contradiction: ${findingInWords(finding)} was also found differently. Each counts half.`);
    seen.set(key, result);
  }
  return { sound, problems };
}

function faultsOf(finding: Finding): readonly string[] {
  if (typeof finding !== 'object' || finding === null) return ['a finding is missing.'];
  try { return checkFinding(finding); } catch { return ['a finding is not readable.']; }
}

function sideAnswer(side: Side, weights: SideWeights, ranked: readonly Weighted[], open: Open): { side: Side; answer: SideLocalisation } {
  const candidates = followed(ranked);
  const without = leaveOneOut(weights, candidates);
  const shown = ranked.filter(({ probability }, rank) => rank === 0 || (probability >= SHOWN && rank < MOST_SHOWN));
  const lesions = weights.likelihood.evidence.length === 0 ? [] : shown.map(explanation => rankedLesion(side, weights, explanation, candidates, without));
  const [first] = lesions;
  const fit = fitOf(weights, ranked);
  const close = lesions.slice(1).filter(({ probability }) => first !== undefined && probability > first.probability / TOLD_APART);
  const rivals = close.length > 0 ? shown.slice(0, 1 + close.length) : [];
  const wouldTellApart = rivals.length > 0 ? testsAmong(open, rivals, MOST_TO_TELL_APART) : [];
  return {
    side,
    answer: { fit, words: answerInWords(side, fit, lesions, close, wouldTellApart), ranked: lesions, structures: structures(side, ranked), cannotTellApart: first && close.length > 0 ? [first.id, ...close.map(({ id }) => id)] : [], wouldTellApart, stability: stabilityOf(candidates, without) },
  };
}

function rankedLesion(side: Side, weights: SideWeights, explanation: Weighted, candidates: readonly Weighted[], without: readonly Without[]): RankedLesion {
  const parts = [explanation.first, explanation.second].filter(index => index >= 0).flatMap(index => {
    const severity = likeliestSeverity(weights, index);
    return (LESIONS[index]!.parts ?? [LESIONS[index]!]).map(hypothesis => ({ hypothesis: { ...hypothesis, level: levelOf(hypothesis, weights) }, severity }));
  });
  const index = candidates.indexOf(explanation);
  return {
    id: nameOf(explanation), side, probability: explanation.probability, kind: parts[0]!.hypothesis.kind,
    structure: parts.map(({ hypothesis }) => hypothesis.structure).join(' and '), level: parts.map(({ hypothesis }) => hypothesis.level).filter(Boolean).join('; '),
    words: lesionInWords(side, parts), ...(index < 0 ? { for: [], against: [], spared: [] } : evidenceFor(index, candidates, without)),
  };
}

const IN_DIGIT = /^in the (finger|thumb) /;
/** A wound over a tendon tells its zone; in a finger the tendon itself tells more. */
function levelOf({ line, level, signs }: Hypothesis, { likelihood: { evidence } }: SideWeights): string {
  if (!line) return level;
  const wounds = evidence.filter(({ unit, observations }) => signs[unit] && unit.startsWith('wound@') && !observations.some(isNormal));
  const zones = new Set(wounds.flatMap(({ observations }) => observations.flatMap(({ finding }) => zoneInWords(line, finding.site) ?? [])));
  const [zone] = zones;
  return zone === undefined || zones.size > 1 || (level && IN_DIGIT.test(zone)) ? level : zone;
}

function likeliestSeverity({ likelihood: { evidence, log } }: SideWeights, hypothesis: number): Severity | undefined {
  if (evidence.length === 0) return undefined;
  const scores = SEVERITIES.map((_, s) => Math.max(...Array.from({ length: variantsOf(hypothesis) }, (__, v) => log[configurationAt(v, hypothesis, s)]!)) + Math.log(LESIONS[hypothesis]!.severity[s]!));
  return SEVERITIES[scores.indexOf(Math.max(...scores))];
}

function structures(side: Side, ranked: readonly Weighted[]): readonly InvolvedStructure[] {
  const byName = new Map<string, number>();
  for (const { first, second, probability } of ranked) {
    const names = new Set([first, second].filter(index => index >= 0).flatMap(index => LESIONS[index]!.parts ?? [LESIONS[index]!]).filter(({ kind }) => kind !== 'normal' && kind !== 'unexplained').map(({ structure }) => structure));
    for (const name of names) byName.set(name, (byName.get(name) ?? 0) + probability);
  }
  return [...byName].filter(([, probability]) => probability >= SHOWN).map(([structure, probability]) => ({ structure, side, probability: Math.min(1, probability) })).sort((a, b) => b.probability - a.probability);
}

function fitOf(weights: SideWeights, ranked: readonly Weighted[]): Fit {
  if (weights.likelihood.evidence.length === 0) return 'too little';
  if (!ranked.some(({ first, probability, logPrior }) => probability > (first === NORMAL ? CALLED_NORMAL : NAMED) && Math.log2(probability) - logPrior / Math.LN2 > ENOUGH)) return 'too little';
  const top = ranked[0]!;
  return LESIONS[top.first]!.kind === 'unexplained' || predictiveP(weights, top) < POOR_FIT ? 'poor' : 'ok';
}

function stabilityOf(candidates: readonly Weighted[], without: readonly Without[]): Stability {
  const hangsOn = hangingFindings(candidates, without);
  const stable = without.length > 0 && hangsOn.length === 0;
  return { stable, hangsOn, words: stabilityInWords(stable, hangsOn.map(findingInWords)) };
}

/** Tests that may still be asked for on one side. */
interface Open { readonly side: Side; readonly weights: SideWeights; readonly items: readonly ItemKey[]; readonly onsetDays: number | undefined }

function openItems(side: Side, findings: readonly Finding[], { candidates = PROPOSABLE, skip = [] }: Options): readonly ItemKey[] {
  const done = new Set<ItemKey>([...findings.filter(finding => finding.side === side).map(itemKey), ...skip.filter(skipped => skipped.side === side).map(({ item }) => item)]);
  return candidates.filter(item => !done.has(item));
}

/** The tests that would tell most among some explanations. */
function testsAmong({ side, weights, items, onsetDays }: Open, explanations: readonly Weighted[], most: number): readonly NextTest[] {
  const { gains: found, entries } = gains(weights, explanations, items, onsetDays);
  return found.slice(0, most).map(({ item, gain, value, separates }) => ({ item, side, gain, value, words: testInWords(item, side), separates: separates.map(index => nameOf(entries[index]!)) }));
}
