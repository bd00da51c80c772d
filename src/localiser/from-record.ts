import type { ExaminationRecord } from '../record';
import type { Localisation, Options } from './localisation';
import { localise } from './localise';

/** A finding whose utterance still waits for an answer is as likely right as not (a choice), unless it is known to be less sure than that. */
const QUERIED = 0.5;

/**
 * Localises the findings that stand in an examination, with what is known of its beginning. What was declared not testable is not proposed again;
 * a finding that a second opinion has put in doubt, or whose utterance is otherwise still open, carries less.
 */
export function localiseRecord({ setUp, findings, notTestable, questions }: Pick<ExaminationRecord, 'setUp' | 'findings' | 'notTestable' | 'questions'>, more: Pick<Options, 'candidates' | 'howCommon'> = {}): Localisation {
  const open = new Set(questions.filter(({ state }) => state === 'open').map(({ utteranceId }) => utteranceId));
  const trust = new Map(findings.filter(({ utteranceId }) => open.has(utteranceId)).map(({ finding, confidence }) => [finding, Math.min(confidence, QUERIED)]));
  return localise(findings.map(({ finding }) => finding), {
    ...more, ...(setUp?.onset ? { onset: setUp.onset } : {}), ...(setUp?.injuredSide ? { injuredSide: setUp.injuredSide } : {}),
    skip: notTestable.map(({ side, item }) => ({ side, item })), trust: finding => trust.get(finding) ?? 1,
  });
}
