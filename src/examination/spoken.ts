import type { ExaminationRecord } from '../record';
import { findingInWords } from '../vocabulary';
import type { Finding, Side } from '../vocabulary';
import { currentStage, remaining, share } from './progress';
import type { Protocol } from './protocol';

/** What the recorder says, in sentences short enough to hear over a busy bay. */

/** More than this many items are too many to hold in mind; the screen shows them all [common practice, no source]. */
const MOST_ITEMS = 5;

const sideName = (side: Side): string => (side === 'left' ? 'Left' : 'Right');
const counted = (items: number): string => `${items} ${items === 1 ? 'item' : 'items'}`;
const listed = (names: readonly string[]): string => (names.length > MOST_ITEMS ? `${names.slice(0, MOST_ITEMS).join(', ')}, and ${names.length - MOST_ITEMS} more` : names.join(', '));

/** A finding to hear: the screen's line without its layout marks. */
export const spokenFinding = (finding: Finding): string => findingInWords(finding).replace(' · ', ', ');

/** What remains in this stage: the affected side's items, a count for the other side, then the stages left after it. */
export function spokenRemainder(record: ExaminationRecord, protocol: Protocol, side?: Side): string {
  const all = remaining(record, protocol, side);
  if (all.length === 0) return side ? `Nothing remains on the ${side}.` : 'Nothing remains.';
  const stage = currentStage(record, protocol);
  const here = all.filter((entry) => entry.stage === stage);
  const elsewhere = all.filter((entry) => entry.stage !== stage);
  const names = here.map((entry) => listed(entry.items.map(({ name }) => name)));
  const alike = here.length === 2 && names[0] === names[1];
  const parts = alike ? [`Both hands: ${names[0]}.`] : here.map((entry, index) => `${sideName(entry.side)}: ${index === 0 ? names[index] : counted(entry.items.length)}.`);
  const stages = [...new Set(elsewhere.map((entry) => entry.stage.name.toLowerCase()))];
  const later = elsewhere.length ? [`${here.length ? 'Also in' : 'Remaining in'} ${listed(stages)}.`] : [];
  return [`${stage.name}${here.length ? '.' : ' is complete.'}`, ...parts, ...later].join(' ');
}

/** The last findings, latest first. */
export function spokenFindings(record: ExaminationRecord): string {
  const latest = [...record.findings].sort((a, b) => b.seq - a.seq).slice(0, MOST_ITEMS);
  return latest.length ? `${latest.map(({ finding }) => spokenFinding(finding)).join('. ')}.` : 'Nothing is filed yet.';
}

/** What is said at the end: the share not done is never left out. */
export function spokenConclusion(record: ExaminationRecord, protocol: Protocol): string {
  const { total, remaining: left, notTestable } = share(record, protocol);
  const open = record.questions.filter(({ state }) => state === 'open').length;
  return [
    'Concluded.',
    left ? `${left} of ${total} items not examined.` : 'Every item was examined or could not be tested.',
    ...(notTestable ? [`${notTestable} not testable.`] : []),
    ...(open ? [`${open} ${open === 1 ? 'question is' : 'questions are'} left for review.`] : []),
  ].join(' ');
}
