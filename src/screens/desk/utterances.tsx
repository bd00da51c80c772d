import { useId, useState } from 'react';
import type { ReactNode } from 'react';
import type { EngineName } from '../../recogniser/vosk';
import type { RecordedFinding } from '../../record';
import type { Finding, Side } from '../../vocabulary';
import { findingInWords, placeInWords, SIGNS } from '../../vocabulary';
import { Verdict } from '../bedside/parts';
import type { FindingRow, HeardRow, QuestionView } from '../shared/view';
import { correctionFormOf, readCorrection, resultChoices } from './correction';
import type { CorrectionForm } from './correction';

/** What the reviewer can do with findings and utterances; each appends to the record, nothing is overwritten. */
export interface ReviewActions {
  readonly correct: (findingId: string, to: Finding, why: string) => void;
  readonly withdraw: (findingId: string, why: string) => void;
  readonly answer: (utteranceId: string, option: number | null) => void;
  readonly write: (utteranceId: string, text: string) => void;
  readonly play: (utteranceId: string) => void;
  /** Lets the other engine hear the stored sound. */
  readonly hearAgain: (utteranceId: string) => void;
  /** Whether that engine is installed, and whether one is listening already. */
  readonly canHearAgain: (engine: EngineName) => boolean;
  readonly isListening: boolean;
}

function CorrectionEditor({ entry, onCorrect, onWithdraw, onClose }: { entry: RecordedFinding; onCorrect: (to: Finding, why: string) => void; onWithdraw: (why: string) => void; onClose: () => void }): ReactNode {
  const id = useId();
  const { finding } = entry;
  const [form, setForm] = useState<CorrectionForm>(() => correctionFormOf(finding));
  const [why, setWhy] = useState('');
  const [faults, setFaults] = useState<readonly string[]>([]);
  const sign = SIGNS[finding.sign];
  const change = (part: Partial<CorrectionForm>): void => setForm((before) => ({ ...before, ...part }));
  const save = (): void => {
    const reading = readCorrection(finding, form);
    if (reading.ok) onCorrect(reading.finding, why.trim()); else setFaults(reading.faults);
  };
  return (
    <div className="editor" role="group" aria-label={`Correct: ${findingInWords(finding)}`}>
      <p><strong>{sign.name}, {placeInWords(finding)}</strong></p>
      <fieldset className="choices">
        <legend>Side</legend>
        {(['left', 'right'] as const).map((side: Side) => (
          <label key={side} className="choice"><input type="radio" name={`${id}side`} checked={form.side === side} onChange={() => change({ side })} /><span>{side === 'left' ? 'Left' : 'Right'}</span></label>
        ))}
      </fieldset>
      <label htmlFor={`${id}result`}>Result</label>
      <select id={`${id}result`} value={form.result} onChange={(event) => change({ result: event.target.value })}>
        {resultChoices(finding.sign).map(({ key, words }) => <option key={key} value={key}>{words}</option>)}
        {sign.units ? <option value="quantity">a measured value</option> : null}
        <option value="not testable">not testable</option>
      </select>
      {form.result === 'quantity' ? (
        <div className="row">
          <input className="onset" aria-label="Value" inputMode="decimal" value={form.value} onChange={(event) => change({ value: event.target.value })} />
          <select className="onset" aria-label="Unit" value={form.unit} onChange={(event) => change({ unit: event.target.value })}>{sign.units?.map((unit) => <option key={unit}>{unit}</option>)}</select>
        </div>
      ) : null}
      {form.result === 'not testable' ? <input aria-label="Reason that it could not be tested" value={form.reason} onChange={(event) => change({ reason: event.target.value })} /> : null}
      <label htmlFor={`${id}why`}>Why (optional)</label>
      <input id={`${id}why`} value={why} onChange={(event) => setWhy(event.target.value)} />
      {faults.length ? <p className="notice" role="alert">{faults.join(' ')}</p> : null}
      <p className="row">
        <button type="button" className="main" onClick={save}>Save the correction</button>
        <button type="button" onClick={() => onWithdraw(why.trim())}>Withdraw the finding</button>
        <button type="button" className="plain" onClick={onClose}>Leave as it is</button>
      </p>
    </div>
  );
}

function FindingLine({ row, entry, actions }: { row: FindingRow; entry: RecordedFinding | undefined; actions: ReviewActions }): ReactNode {
  const [open, setOpen] = useState(false);
  return (
    <li>
      <div className={`finding ${row.state}`}>
        <span className="coded-line">{row.words}</span>
        {row.state === 'withdrawn' ? <span className="soft">withdrawn</span> : row.state === 'replaced' ? <span className="soft">replaced</span> : null}
        {row.by === 'reviewer' ? <span className="soft">by the reviewer</span> : null}
        {entry && row.state === 'filed' && !open ? <button type="button" className="small" aria-label={`Correct: ${row.words}`} onClick={() => setOpen(true)}>Correct</button> : null}
      </div>
      {entry && open ? (
        <CorrectionEditor entry={entry} onClose={() => setOpen(false)}
          onCorrect={(to, why) => { setOpen(false); actions.correct(entry.id, to, why); }}
          onWithdraw={(why) => { setOpen(false); actions.withdraw(entry.id, why); }} />
      ) : null}
    </li>
  );
}

function WriteAnew({ row, onWrite }: { row: HeardRow; onWrite: (text: string) => void }): ReactNode {
  const [text, setText] = useState(row.text);
  return (
    <form className="row" onSubmit={(event) => { event.preventDefault(); if (text.trim()) onWrite(text.trim()); }}>
      <input className="grow onset" aria-label={`What was said instead of “${row.text}”`} list={`${row.id}-heard`} value={text} onChange={(event) => setText(event.target.value)} />
      <datalist id={`${row.id}-heard`}>{row.alternatives.map((alternative) => <option key={alternative} value={alternative} />)}</datalist>
      <button type="submit" className="small">File this instead</button>
    </form>
  );
}

/** One line an utterance: what was heard, on the left; what it became, on the right. */
export function Utterances({ rows, findings, questions, audible, actions }: {
  rows: readonly HeardRow[]; findings: readonly RecordedFinding[]; questions: readonly QuestionView[]; audible: ReadonlySet<string>; actions: ReviewActions;
}): ReactNode {
  const [writing, setWriting] = useState<string | null>(null);
  return (
    <ol className="utterances">
      {rows.map((row) => {
        const question = questions.find(({ utteranceId }) => utteranceId === row.id);
        return (
          <li key={row.id} id={`utterance-${row.id}`}>
            <div className="stack tight">
              <p className="words">{row.text ? `“${row.text}”` : 'Speech without words of the recorder'}</p>
              <p className="row">
                <Verdict verdict={row.verdict} />
                {audible.has(row.id) ? <button type="button" className="small" aria-label={`Play “${row.text}”`} onClick={() => actions.play(row.id)}>Play</button> : null}
                {audible.has(row.id) && row.other && actions.canHearAgain(row.other) ? <button type="button" className="small" aria-label={`Second opinion on “${row.text}”`} aria-disabled={actions.isListening || undefined} onClick={() => { if (!actions.isListening) actions.hearAgain(row.id); }}>Second opinion</button> : null}
              </p>
              <p className="soft small-print">{new Date(row.at).toLocaleTimeString()}, {row.source}, sureness {Math.round(row.confidence * 100)} %{row.why ? `. ${row.why}` : ''}</p>
              {row.secondOpinion ? <p className="small-print">{row.secondOpinion}</p> : null}
            </div>
            <div className="stack tight">
              {row.findings.length ? (
                <ul>{row.findings.map((finding) => <FindingLine key={`${finding.id} ${finding.state}`} row={finding} entry={findings.find(({ id }) => id === finding.id)} actions={actions} />)}</ul>
              ) : null}
              {row.coded.filter((line) => !row.findings.some(({ words }) => line.endsWith(words))).map((line) => <p key={line}>{line}</p>)}
              {question ? (
                <div className="editor" role="group" aria-label={`Question about “${row.text}”`}>
                  <p><strong>{question.question}</strong></p>
                  <div className="row">
                    {question.answers.map((answer, n) => <button key={n} type="button" onClick={() => actions.answer(row.id, n)}>{n + 1}. {answer.label}</button>)}
                    <button type="button" className="plain" onClick={() => actions.answer(row.id, null)}>{question.none}</button>
                  </div>
                </div>
              ) : null}
              {row.verdict === 'unparsed' || row.verdict === 'queried' || row.verdict === 'held' || row.verdict === 'ignored' ? (
                writing === row.id
                  ? <WriteAnew row={row} onWrite={(text) => { setWriting(null); actions.write(row.id, text); }} />
                  : <p><button type="button" className="small plain" aria-label={`Write what was said: “${row.text}”`} onClick={() => setWriting(row.id)}>Write what was said</button></p>
              ) : null}
            </div>
          </li>
        );
      })}
    </ol>
  );
}
