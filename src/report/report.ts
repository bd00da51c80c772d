import { cautionsFor } from '../cautions';
import type { Caution } from '../cautions';
import { meaning, remaining, share, sidesInOrder } from '../examination';
import type { Meaning, Protocol, Share } from '../examination';
import type { Localisation, RankedLesion } from '../localiser';
import type { ExaminationRecord, RecordedFinding, SetUp, Signature } from '../record';
import { SIDES, SIGNS, SITES, findingInWords, itemKey } from '../vocabulary';
import type { Category, Finding, ItemKey, Side, SignCode, SiteCode } from '../vocabulary';
import { codesFor } from './icd10';
import type { Code } from './icd10';

/** Stands on every report. */
export const SUPPORT_LINE = 'This record supports the clinician and does not diagnose. Follow local protocols, senior advice and licensed practice. What was not examined must not be read as normal.';

export interface ReportFinding {
  readonly id: string;
  /** "power, abductor pollicis brevis: grade 3 (painful)" */
  readonly words: string;
  readonly category: Category;
  readonly meaning: Meaning;
  /** What was heard; null when the utterance is lost. */
  readonly heard: string | null;
  readonly confidence: number;
  readonly by: 'examiner' | 'reviewer';
  readonly corrected: boolean;
}

export interface SideReport {
  readonly side: Side;
  readonly affected: boolean;
  /** What is abnormal, then the rest, each in the order of the categories. */
  readonly deficits: readonly ReportFinding[];
  readonly others: readonly ReportFinding[];
}

/** How the two sides differ in one item. */
export type Difference = 'left worse' | 'right worse' | 'abnormal on both sides' | 'alike' | 'not judged';
export interface Comparison { readonly what: string; readonly left: string; readonly right: string; /** Null when only one side could be examined. */ readonly difference: Difference | null }

export interface CorrectionEntry { readonly at: string; readonly words: string; readonly why: string }

export interface Report {
  readonly examinationId: string;
  readonly setUp: SetUp | null;
  readonly protocol: string;
  readonly begunAt: string | null;
  readonly concludedAt: string | null;
  readonly state: 'under way' | 'concluded' | 'signed' | 'changed after signing';
  readonly sides: readonly SideReport[];
  readonly comparison: readonly Comparison[];
  readonly cautions: readonly Caution[];
  readonly localisation: { readonly lesions: readonly RankedLesion[]; readonly words: readonly string[]; readonly nextTests: readonly string[]; readonly problems: readonly string[] } | null;
  readonly codes: readonly (Code & { readonly side: Side })[];
  readonly share: Share;
  readonly notExamined: readonly { readonly stage: string; readonly side: Side; readonly items: readonly string[] }[];
  readonly notTestable: readonly { readonly side: Side; readonly what: string; readonly reason: string }[];
  readonly questions: readonly { readonly heard: string; readonly question: string; readonly state: 'open' | 'dismissed'; readonly options: readonly string[] }[];
  /** Heard and not filed: not understood, heard unsurely, or said on hold. */
  readonly unfiled: readonly { readonly heard: string; readonly why: string }[];
  /** Utterances taken as not for the recorder; the desk shows each. */
  readonly ignored: number;
  readonly corrections: readonly CorrectionEntry[];
  readonly signatures: readonly Signature[];
  readonly faults: readonly string[];
  readonly supportLine: string;
}

const CATEGORIES: readonly Category[] = ['wound', 'perfusion', 'symptom', 'look', 'feel', 'move', 'sensation', 'power', 'reflex', 'special test'];
const rank = (category: Category): number => CATEGORIES.indexOf(category);
const SHOWN_LESIONS = 3;
const SHOWN_TESTS = 3;
const WORTH_CODING = 0.5;

/** The finding's line without its side: the report has a part for each side. */
const wordsOf = (finding: Finding): string => findingInWords(finding).replace(/^(Left|Right) · /, '');

function sideReport(record: ExaminationRecord, side: Side): SideReport {
  const heard = new Map(record.utterances.map(({ utterance }) => [utterance.id, utterance.text]));
  const injured = record.setUp?.injuredSide;
  const lines = record.findings.filter(({ finding }) => finding.side === side).map((entry): ReportFinding => ({
    id: entry.id, words: wordsOf(entry.finding), category: SIGNS[entry.finding.sign].category, meaning: meaning(entry.finding),
    heard: heard.get(entry.utteranceId) ?? null, confidence: entry.confidence, by: entry.by, corrected: entry.corrections.length > 0,
  })).sort((a, b) => rank(a.category) - rank(b.category));
  return { side, affected: injured === side || injured === 'both', deficits: lines.filter((line) => line.meaning === 'abnormal'), others: lines.filter((line) => line.meaning !== 'abnormal') };
}

const itemInWords = (key: ItemKey): string => {
  const at = key.indexOf('@');
  return `${SIGNS[key.slice(0, at) as SignCode].name}, ${SITES[key.slice(at + 1) as SiteCode].name}`;
};

const meanings = (findings: readonly Finding[]): ReadonlySet<Meaning> => new Set(findings.map(meaning).filter((each) => each !== 'not testable'));

/** @param worse the side on which the localiser found the greater loss, if it saw a difference: two abnormal grades may differ */
function differenceBetween(left: readonly Finding[], right: readonly Finding[], worse: Side | undefined): Difference | null {
  const [one, other] = [meanings(left), meanings(right)];
  if (!one.size || !other.size) return null;
  if (worse) return `${worse} worse`;
  if (one.has('abnormal') && other.has('abnormal')) return 'abnormal on both sides';
  if (one.has('unclear') || other.has('unclear')) return 'not judged';
  return one.has('abnormal') ? 'left worse' : other.has('abnormal') ? 'right worse' : 'alike';
}

const differs = (difference: Difference | null): boolean => difference === 'left worse' || difference === 'right worse';

/** Left beside right for everything that was found on either side; what differs comes first. */
function compare(findings: readonly RecordedFinding[], localisation: Localisation | undefined): readonly Comparison[] {
  const worse = new Map(localisation?.comparison?.differing.map(({ item, worse: side }) => [item, side]));
  const rows = new Map<ItemKey, { category: Category; what: string; entries: Record<Side, Finding[]> }>();
  for (const { finding } of findings) {
    const { sign, site } = finding;
    const key = itemKey(finding);
    const row = rows.get(key) ?? { category: SIGNS[sign].category, what: `${SIGNS[sign].name}, ${SITES[site].name}`, entries: { left: [], right: [] } };
    row.entries[finding.side].push(finding);
    rows.set(key, row);
  }
  const cell = (list: readonly Finding[]): string => list.map((finding) => wordsOf(finding).slice(`${SIGNS[finding.sign].name}, ${SITES[finding.site].name}: `.length)).join('; ') || 'not examined';
  const isAbnormal = ({ left, right }: Record<Side, Finding[]>): boolean => meanings([...left, ...right]).has('abnormal');
  return [...rows]
    .map(([key, { category, what, entries }]) => ({ row: { what, left: cell(entries.left), right: cell(entries.right), difference: differenceBetween(entries.left, entries.right, worse.get(key)) }, abnormal: isAbnormal(entries), category }))
    .sort((a, b) => Number(differs(b.row.difference)) - Number(differs(a.row.difference)) || Number(b.abnormal) - Number(a.abnormal) || rank(a.category) - rank(b.category))
    .map(({ row }) => row);
}

const correctionsOf = (record: ExaminationRecord): readonly CorrectionEntry[] => [
  ...record.findings.flatMap((entry) => entry.corrections.map(({ from, at, why }, index): CorrectionEntry => {
    const to = entry.corrections[index + 1]?.from.finding ?? entry.finding;
    return { at, words: `${findingInWords(from.finding)} → ${findingInWords(to)}`, why: why ?? 'no reason given' };
  })),
  ...record.withdrawn.flatMap(({ finding, at, by, why }): CorrectionEntry[] => [
    ...finding.corrections.map((step, index): CorrectionEntry => ({ at: step.at, words: `${findingInWords(step.from.finding)} → ${findingInWords(finding.corrections[index + 1]?.from.finding ?? finding.finding)}`, why: step.why ?? 'no reason given' })),
    { at, words: `${findingInWords(finding.finding)} → withdrawn`, why: `by the ${by}${why ? `: ${why}` : ''}` },
  ]),
].sort((a, b) => a.at.localeCompare(b.at));

const OPEN_WOUND = new Set(['wound', 'laceration', 'puncture', 'bite', 'fight.bite', 'amputation', 'avulsion', 'open.fracture', 'exposed.bone', 'exposed.tendon']);
const isWounded = (record: ExaminationRecord, side: Side): boolean => record.findings.some(({ finding }) => finding.side === side && OPEN_WOUND.has(finding.sign) && meaning(finding) === 'abnormal');

/** Codes for the first explanation of each hand, where it is likelier than not. */
const codesOf = (record: ExaminationRecord, localisation: Localisation): Report['codes'] => SIDES.flatMap((side) => {
  const answer = localisation.sides[side];
  const first = answer?.ranked[0];
  if (!first || answer.fit !== 'ok' || first.kind === 'normal' || first.probability < WORTH_CODING) return [];
  return codesFor(first.id, isWounded(record, side)).map((code) => ({ ...code, side }));
});

const localisationOf = (localisation: Localisation): NonNullable<Report['localisation']> => ({
  lesions: localisation.ranked.filter(({ kind }) => kind !== 'normal').slice(0, SHOWN_LESIONS),
  words: [...Object.values(localisation.sides).map(({ words }) => words), localisation.fit === 'too little' ? '' : localisation.comparison?.words ?? '', localisation.stability.words].filter(Boolean),
  nextTests: localisation.nextTests.slice(0, SHOWN_TESTS).map(({ words }) => words), problems: localisation.problems,
});

function stateOf(record: ExaminationRecord): Report['state'] {
  if (record.signatures.length) return record.changedSinceSigned ? 'changed after signing' : 'signed';
  return record.concludedAt ? 'concluded' : 'under way';
}

/**
 * All that a reader needs of an examination, as data. Pure.
 * @param localisation from localise(); without it the report has no localisation and suggests no codes
 */
export function buildReport(record: ExaminationRecord, protocol: Protocol, localisation?: Localisation): Report {
  const textOf = (utteranceId: string): string => record.utterances.find(({ utterance }) => utterance.id === utteranceId)?.utterance.text ?? '(utterance lost)';
  return {
    examinationId: record.examinationId, setUp: record.setUp, protocol: protocol.name, begunAt: record.begunAt, concludedAt: record.concludedAt, state: stateOf(record),
    sides: sidesInOrder(record.setUp).map((side) => sideReport(record, side)), comparison: compare(record.findings, localisation), cautions: cautionsFor(record),
    localisation: localisation ? localisationOf(localisation) : null, codes: localisation ? codesOf(record, localisation) : [],
    share: share(record, protocol), notExamined: remaining(record, protocol).map(({ stage, side, items }) => ({ stage: stage.name, side, items: items.map(({ name }) => name) })),
    notTestable: record.notTestable.map(({ side, item, reason }) => ({ side, what: itemInWords(item), reason })),
    questions: record.questions.flatMap(({ utteranceId, question, options, state }) => (state === 'answered' ? [] : [{ heard: textOf(utteranceId), question, state, options: options.map((option) => option.map(findingInWords).join('; ')) }])),
    unfiled: record.utterances.flatMap(({ utterance, status, statements }) => {
      if (status === 'held') return [{ heard: utterance.text, why: 'said on hold' }];
      if (status === 'ignored') return [];
      if (utterance.verdict === 'queried' && !record.questions.some(({ utteranceId }) => utteranceId === utterance.id)) return [{ heard: utterance.text, why: 'heard unsurely' }];
      if (statements.length === 0) return status === 'unparsed' ? [{ heard: utterance.text, why: 'not understood' }] : [];
      return statements.flatMap((statement) => (statement.type === 'unparsed' ? [{ heard: statement.text, why: 'not understood' }] : []));
    }),
    ignored: record.utterances.filter(({ status }) => status === 'ignored').length,
    corrections: correctionsOf(record), signatures: record.signatures, faults: record.faults, supportLine: SUPPORT_LINE,
  };
}
