import type { FiledFinding, RecordedFinding } from '../record';
import { openQuestion } from '../record';
import { checkFinding, findingInWords, itemKey, resultInWords, sameObservation, SIGNS, SITES } from '../vocabulary';
import type { Finding } from '../vocabulary';
import { agreement } from './meaning';
import type { Agreement } from './meaning';
import { currentStage, progress } from './progress';
import { happen, tell } from './turn';
import type { Handler, Hearing, Tools, Turn } from './turn';

interface Clash { readonly earlier: RecordedFinding; readonly later: Finding }

const filed = (finding: Finding, { utterance }: Hearing, { newId }: Tools): FiledFinding =>
  ({ id: newId(), finding, utteranceId: utterance.id, by: 'examiner', confidence: utterance.confidence });

const standing = (turn: Turn, finding: Finding, wanted: Agreement): RecordedFinding | undefined =>
  turn.record.findings.findLast((entry) => sameObservation(entry.finding, finding) && agreement(entry.finding, finding) === wanted);

/** True when the record says all of it already. */
export const isKnown = (turn: Turn, findings: readonly Finding[]): boolean => findings.every((finding) => standing(turn, finding, 'same') !== undefined);

const clashInWords = ({ earlier, later }: Clash): string => {
  const { side, sign, site } = later;
  const isTest = SIGNS[sign].test;
  return `${side === 'left' ? 'Left' : 'Right'} ${SIGNS[sign].name}, ${SITES[site].name} was ${resultInWords(earlier.finding.result, isTest)}, now ${resultInWords(later.result, isTest)}`;
};

function askAboutClashes(turn: Turn, clashes: readonly Clash[], { utterance }: Hearing): Turn {
  if (clashes.length === 0) return turn;
  const question = `${clashes.map(clashInWords).join('; ')}. Replace?`;
  return tell(happen(turn, {
    type: 'queried', utteranceId: utterance.id, question, gap: 'contradiction',
    options: [clashes.map(({ later }) => later), clashes.map(({ earlier }) => earlier.finding)],
  }), 'queried', question, question);
}

/** Lets one finding into the record: filed, corrected (when the examiner has agreed), known already, or returned as a clash. */
function admit(turn: Turn, finding: Finding, hearing: Hearing, tools: Tools, agreed: boolean): { readonly turn: Turn; readonly entry?: FiledFinding; readonly clash?: Clash } {
  if (finding.result.kind === 'not testable')
    return { turn: happen(turn, { type: 'not testable', side: finding.side, items: [itemKey(finding)], reason: finding.result.reason, utteranceId: hearing.utterance.id }) };
  if (standing(turn, finding, 'same')) return { turn };
  const entry = filed(finding, hearing, tools);
  const earlier = standing(turn, finding, 'contradiction');
  if (earlier && !agreed) return { turn, clash: { earlier, later: finding } };
  if (earlier) return { turn: happen(turn, { type: 'corrected', findingId: earlier.id, to: entry, why: 'said again with another result' }), entry };
  const vaguer = standing(turn, finding, 'refinement');
  if (vaguer) return { turn: happen(turn, { type: 'corrected', findingId: vaguer.id, to: entry, why: 'said again more exactly' }), entry };
  return { turn: happen(turn, { type: 'filed', findings: [entry] }), entry };
}

/** Several 'filed' in a row are one happening: what was said in one breath is kept in one. */
function inOneBreath(turn: Turn, from: number): Turn {
  const kept = turn.happenings.slice(0, from);
  const added = turn.happenings.slice(from);
  const findings = added.flatMap((happening) => (happening.type === 'filed' ? happening.findings : []));
  const others = added.filter(({ type }) => type !== 'filed');
  return { ...turn, happenings: [...kept, ...(findings.length ? [{ type: 'filed' as const, findings }] : []), ...others] };
}

/** Moves on by itself when the last item of the stage was just done: to the next stage that is not done. */
function moveOn(before: Turn, after: Turn, { protocol }: Tools): Turn {
  const stage = currentStage(before.record, protocol);
  const stages = progress(after.record, protocol);
  const here = stages.findIndex((entry) => entry.stage === stage);
  if (!stages[here]?.done || progress(before.record, protocol)[here]?.done) return after;
  const next = [...stages.slice(here + 1), ...stages.slice(0, here)].find(({ done }) => !done)?.stage;
  if (!next) return tell(after, 'order', 'Every stage is complete. Say "conclude" to finish.', 'Every stage is complete.');
  return tell(happen(after, { type: 'stage set', stage: next.id }), 'order', `${stage.name} is complete. Next: ${next.name}.`, `${stage.name} complete. ${next.name}.`);
}

/**
 * Files findings. Nothing unsound is filed, nothing is filed twice, and nothing replaces an earlier finding
 * unless `agreed`: a contradiction is asked about.
 */
export function fileFindings(turn: Turn, findings: readonly Finding[], hearing: Hearing, tools: Tools, agreed = false): Turn {
  const faults = findings.flatMap(checkFinding);
  if (faults.length) return tell(turn, 'queried', `Not filed: ${[...new Set(faults)].join(' ')}`, 'That does not fit. Say it again.');
  const clashes: Clash[] = [];
  let next = turn;
  let added = 0;
  for (const finding of findings) {
    const admitted = admit(next, finding, hearing, tools, agreed);
    next = admitted.turn;
    if (admitted.entry) added += 1;
    if (admitted.clash) clashes.push(admitted.clash);
  }
  next = inOneBreath(next, turn.happenings.length);
  const settled = findings.filter((finding) => !clashes.some(({ later }) => later === finding));
  if (settled.length) next = tell(next, 'accepted', `${added === 0 && !settled.some(({ result }) => result.kind === 'not testable') ? 'Known already: ' : ''}${settled.map(findingInWords).join('; ')}`);
  return moveOn(turn, askAboutClashes(next, clashes, hearing), tools);
}

const items = (findings: readonly Finding[]): string => findings.map((finding) => `${finding.side} ${itemKey(finding)}`).sort().join();

/** A finding said in full settles an open question about the same items, whichever way it was going to be answered. */
function settleByRestating(turn: Turn, findings: readonly Finding[]): Turn {
  const question = openQuestion(turn.record);
  const isAnswered = question !== undefined && question.options.length > 0 && question.options.some((option) => items(option) === items(findings)) && isKnown(turn, findings);
  return isAnswered ? happen(turn, { type: 'answered', utteranceId: question.utteranceId, option: null }) : turn;
}

export const handleFindings: Handler = (turn, statement, hearing, tools) =>
  (statement.type === 'findings' ? settleByRestating(fileFindings(turn, statement.findings, hearing, tools), statement.findings) : undefined);

export const handleNotTestable: Handler = (turn, statement, { utterance }, tools) => {
  if (statement.type !== 'not testable') return undefined;
  if (statement.items.length === 0) return tell(turn, 'queried', `What could not be tested? Heard: "${statement.text}"`, 'What could not be tested?');
  const sides = statement.side === 'both' ? (['left', 'right'] as const) : [statement.side];
  const marked = happen(turn, ...sides.map((side) => ({ type: 'not testable' as const, side, items: statement.items, reason: statement.reason, utteranceId: utterance.id })));
  return moveOn(turn, tell(marked, 'accepted', `Not testable, ${statement.side}: ${statement.reason}`), tools);
};

export const handleSide: Handler = (turn, statement) => {
  if (statement.type !== 'side') return undefined;
  const words = statement.side === 'both' ? 'Both hands' : `${statement.side === 'left' ? 'Left' : 'Right'} hand`;
  return tell(happen(turn, { type: 'side set', side: statement.side }), 'order', `${words} from now on`, `${words}.`);
};

