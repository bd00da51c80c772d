import { quantityInWords } from '../vocabulary';
import type { Side } from '../vocabulary';
import type { Report, ReportFinding } from './report';

/** The report as plain parts, so that every printed form says the same. All texts are unescaped. */
export type Block =
  | { readonly kind: 'text'; readonly text: string; readonly strong?: true }
  | { readonly kind: 'list'; readonly items: readonly string[] }
  | { readonly kind: 'table'; readonly head: readonly string[]; readonly rows: readonly (readonly string[])[] };
export interface Section { readonly heading: string; readonly blocks: readonly Block[] }
export interface Document { readonly title: string; readonly sections: readonly Section[] }

const text = (value: string, strong?: true): Block => ({ kind: 'text', text: value, ...(strong ? { strong } : {}) });
const list = (items: readonly string[], otherwise?: string): Block[] => (items.length ? [{ kind: 'list', items }] : otherwise === undefined ? [] : [text(otherwise)]);
const section = (heading: string, ...blocks: readonly Block[]): Section[] => (blocks.length ? [{ heading, blocks }] : []);
const name = (side: Side): string => (side === 'left' ? 'Left' : 'Right');
const percent = (share: number): string => `${Math.round(share * 100)} %`;

const line = ({ words, confidence, by, corrected, meaning }: ReportFinding): string =>
  `${words}${meaning === 'unclear' ? ' [reading open]' : ''}${corrected ? ' [corrected]' : ''}${by === 'reviewer' ? ' [by the reviewer]' : confidence < 0.9 ? ` [heard with ${percent(confidence)} confidence]` : ''}`;

function setUpLines({ setUp, protocol, begunAt, concludedAt }: Report): readonly string[] {
  return [
    `Protocol: ${protocol}`, ...(setUp?.injuredSide ? [`Affected side: ${setUp.injuredSide}`] : []), ...(setUp?.handedness ? [`Handedness: ${setUp.handedness}`] : []),
    ...(setUp?.mechanism ? [`Mechanism: ${setUp.mechanism}`] : []), ...(setUp?.onset ? [`Since: ${quantityInWords(setUp.onset)}`] : []), ...(setUp?.examiner ? [`Examiner: ${setUp.examiner}`] : []),
    `Begun: ${begunAt ?? 'not known'}`, `Concluded: ${concludedAt ?? 'not concluded'}`,
  ];
}

function signatureLines({ signatures, state }: Report): readonly Block[] {
  const lines = signatures.map(({ by, at, note }) => `Signed by ${by}, ${at}${note ? `: ${note}` : ''}`);
  return [...list(lines, 'Not signed.'), ...(state === 'changed after signing' ? [text('Changed after signing: sign again.', true)] : [])];
}

/** Deficits and cautions first, what is missing next, the history last. */
export function toDocument(report: Report): Document {
  const { sides, comparison, cautions, localisation, codes, share, notExamined, notTestable, questions, unfiled, ignored, corrections, faults } = report;
  return {
    title: `Hand examination: ${report.setUp?.label ?? 'no label'} (${report.state})`,
    sections: [
      ...section('About this examination', { kind: 'list', items: setUpLines(report) }, text(report.supportLine, true)),
      ...section('Cautions', ...list(cautions.map(({ title, text: said, urgency, source, setUp }) => `${title} (${urgency}). ${said}${setUp.length ? ` Set-up: ${setUp.join('; ')}.` : ''} Source: ${source}.`), 'No red flag was raised by what was found. That does not exclude one.')),
      ...sides.flatMap(({ side, affected, deficits, others }) => section(`${name(side)} hand${affected ? ' (affected)' : ''}`,
        ...(deficits.length ? [text('Abnormal'), ...list(deficits.map(line))] : []), ...(others.length ? [text('Other findings'), ...list(others.map(line))] : []), ...(deficits.length + others.length ? [] : [text('Nothing was recorded.')]))),
      ...section('Left against right', ...(comparison.length ? [{ kind: 'table' as const, head: ['Examined', 'Left', 'Right', 'Compared'], rows: comparison.map(({ what, left, right, difference }) => [what, left, right, difference ?? 'not compared']) }] : [])),
      ...section('Where the lesion may be', ...(localisation ? [
        ...list(localisation.words), ...list(localisation.lesions.map(({ words, probability, for: evidence, against }) => `${percent(probability)}: ${words}${evidence.length ? ` For: ${evidence.map((each) => each.words).join('; ')}.` : ''}${against.length ? ` Against: ${against.map((each) => each.words).join('; ')}.` : ''}`), 'Too little was found to say.'),
        ...(localisation.nextTests.length ? [text('Tests that would tell most next'), ...list(localisation.nextTests)] : []), ...list(localisation.problems),
      ] : [])),
      ...section('Codes a coder may consider (ICD-10, WHO)', ...list(codes.map(({ side, code, title, source }) => `${code} ${title} (${side}; ${source})`))),
      ...section('Not examined', text(`${share.done} of ${share.total} items done; ${percent(share.notDone)} not done (${share.remaining} not examined, ${share.notTestable} not testable).`, true),
        ...list(notExamined.map(({ stage, side, items }) => `${stage}, ${side}: ${items.join(', ')}`)), ...(notTestable.length ? [text('Not testable'), ...list(notTestable.map(({ side, what, reason }) => `${name(side)}, ${what}: ${reason}`))] : [])),
      ...section('Questions not settled', ...list(questions.map(({ heard, question, state, options }) => `Heard "${heard}". ${question} ${state === 'open' ? 'Not answered' : 'Dismissed'}.${options.length ? ` Options: ${options.join(' | ')}` : ''}`))),
      ...section('Heard and not filed', ...list(unfiled.map(({ heard, why }) => `"${heard}" (${why})`)), ...(ignored ? [text(`${ignored} ${ignored === 1 ? 'utterance was' : 'utterances were'} taken as not meant for the recorder.`)] : [])),
      ...section('Corrections', ...list(corrections.map(({ at, words, why }) => `${at}: ${words} (${why})`))),
      ...section('Faults of the record', ...list(faults)),
      ...section('Signature', ...signatureLines(report)),
    ],
  };
}
