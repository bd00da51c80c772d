import { useEffect, useRef, useState, useSyncExternalStore } from 'react';
import type { FormEvent, ReactNode } from 'react';
import { exportExamination } from '../../record';
import type { Store } from '../../record';
import { buildReport } from '../../report';
import { CautionBanner, CautionsSeen, Localisation, StageBoard } from '../bedside/parts';
import { cautionViews } from '../shared/caution-view';
import { handsInWords, localisationView } from '../shared/localisation-view';
import { CAUTION_LINE, messageOf } from '../shared/messages';
import type { Message } from '../shared/messages';
import { Notice } from '../shared/notice';
import { heardRows, questionView } from '../shared/record-view';
import { formatRoute } from '../shared/route';
import { playUtterance } from '../shared/sounds';
import { stageViews } from '../shared/stage-view';
import { sideInWords } from '../shared/view';
import type { Session } from '../session/session';
import { LeftRight } from './left-right';
import { SecondOpinions, useSecondOpinions } from './second-opinions';
import { Report } from './report';
import { fileNameOf, saveFile } from './save-file';
import { Utterances } from './utterances';

/** Which utterances have their sound kept. */
function useAudible(store: Store, examinationId: string, utteranceIds: readonly string[]): ReadonlySet<string> {
  const [audible, setAudible] = useState<ReadonlySet<string>>(new Set());
  const key = utteranceIds.join(' ');
  useEffect(() => {
    let current = true;
    void Promise.all(utteranceIds.map(async (id) => ((await store.audio(examinationId, id).catch(() => undefined)) ? [id] : [])))
      .then((found) => { if (current) setAudible(new Set(found.flat())); });
    return () => { current = false; };
  }, [store, examinationId, key]);
  return audible;
}

function Sign({ signed, changed, onSign }: { signed: readonly { by: string; at: string }[]; changed: boolean; onSign: (by: string, note: string) => void }): ReactNode {
  const [by, setBy] = useState('');
  const [note, setNote] = useState('');
  const submit = (event: FormEvent): void => { event.preventDefault(); if (by.trim()) { onSign(by.trim(), note.trim()); setNote(''); } };
  return (
    <form className="panel stack" onSubmit={submit} aria-label="Sign">
      <h2>Sign</h2>
      {signed.map(({ by: who, at }) => <p key={at}>Signed by {who}, {new Date(at).toLocaleString()}</p>)}
      {changed ? <p className="notice">Something was changed after the last signature. Sign again when it is right.</p> : null}
      <div className="field"><label htmlFor="signer">Your role and initials</label><input id="signer" value={by} autoComplete="off" required onChange={(event) => setBy(event.target.value)} /></div>
      <div className="field"><label htmlFor="note">Note (optional)</label><input id="note" value={note} autoComplete="off" onChange={(event) => setNote(event.target.value)} /></div>
      <p><button type="submit" className="main">Sign the report</button></p>
    </form>
  );
}

/** (b) Desk: what was said beside what it became, to hear, correct, answer, read and sign. */
export function DeskScreen({ session }: { session: Session }): ReactNode {
  const view = useSyncExternalStore(session.subscribe, session.getView);
  const { record, protocol } = view;
  const name = fileNameOf(record.setUp?.label);
  const [message, setMessage] = useState<Message | null>(null);
  const playing = useRef<{ stop: () => void } | null>(null);
  const audible = useAudible(session.store, session.examinationId, record.utterances.map(({ utterance }) => utterance.id));
  useEffect(() => { document.title = `Lumbrical: desk, ${record.setUp?.label ?? ''}`; }, [record.setUp]);
  useEffect(() => () => playing.current?.stop(), []);

  const attempt = (work: Promise<unknown>): void => { work.catch((error: unknown) => setMessage(messageOf(error))); };
  const playAudio = async (utteranceId: string): Promise<void> => {
    playing.current?.stop();
    const audio = await session.store.audio(session.examinationId, utteranceId);
    if (audio) playing.current = playUtterance(audio);
  };
  const save = async (): Promise<void> => {
    const text = await exportExamination(session.store, session.examinationId, new Date().toISOString(), { events: session.journal.unsaved, audio: session.journal.unsavedAudio });
    saveFile(`${name}.json`, text, 'application/json');
  };
  const write = async (utteranceId: string, text: string): Promise<void> => {
    const faults = await session.write(utteranceId, text);
    setMessage(faults.length ? messageOf(faults.join(' ')) : null);
  };

  const rows = heardRows(record);
  const opinions = useSecondOpinions(session, (error) => setMessage(messageOf(error)));

  const setUp = record.setUp;
  const report = buildReport(record, protocol, view.localisation);
  const where = localisationView(view.localisation);
  const { comparison } = view.localisation;
  const cautions = cautionViews(view.cautions, record);
  const open = record.questions.filter(({ state }) => state === 'open').map((question) => questionView(record, question));
  const left = record.utterances.filter(({ status }) => status === 'unparsed').length;
  return (
    <>
      <main className="page desk" id="main">
        <header>
          <div>
            <h1>{setUp?.label ?? 'Examination'}</h1>
            <p className="soft">{[protocol.name, setUp?.injuredSide ? `affected: ${sideInWords(setUp.injuredSide).toLowerCase()}` : '', setUp?.mechanism ?? '', record.begunAt ? new Date(record.begunAt).toLocaleString() : '', session.status].filter(Boolean).join(' · ')}</p>
          </div>
          <p className="row">
            <a className="button" href={formatRoute({ screen: 'start' })}>Start</a>
            <a className="button" href={formatRoute({ screen: 'bedside', examinationId: session.examinationId })}>Bedside</a>
            <button type="button" onClick={() => attempt(save())}>Export file</button>
          </p>
        </header>
        {message ? <Notice message={message}><button type="button" onClick={() => setMessage(null)}>Close</button></Notice> : null}
        {record.faults.length ? <Notice message={{ what: 'Part of this record is damaged; everything readable is shown.', todo: record.faults.join(' ') }} /> : null}
        {view.unsaved ? <Notice message={{ what: `Not stored yet: ${view.unsaved.count} of the last entries.`, todo: view.unsaved.why }}><button type="button" onClick={() => void session.retry()}>Try to store again</button></Notice> : null}
        {open.length || left ? <p className="notice calm"><strong>For you to settle: {open.length} {open.length === 1 ? 'question' : 'questions'}, {left} not understood.</strong></p> : null}
        {cautions.filter(({ acknowledged }) => !acknowledged).map((caution) => <CautionBanner key={caution.id} caution={caution} onAcknowledge={() => attempt(session.acknowledge(caution.id))} />)}
        <CautionsSeen cautions={cautions.filter(({ acknowledged }) => acknowledged)} />
        <div className="desk-grid">
          <section className="panel stack" aria-label="Utterances and findings">
            <h2>What was said, and what it became</h2>
            <SecondOpinions rows={rows.filter(({ id, other }) => other && audible.has(id))} opinions={opinions} />
            {rows.length ? (
              <Utterances rows={rows} findings={record.findings} questions={open} audible={audible} actions={{
                correct: (findingId, to, why) => attempt(session.correct(findingId, to, why)),
                withdraw: (findingId, why) => attempt(session.withdraw(findingId, why)),
                answer: (utteranceId, option) => attempt(session.answerAtDesk(utteranceId, option)),
                write: (utteranceId, text) => attempt(write(utteranceId, text)),
                play: (utteranceId) => attempt(playAudio(utteranceId)),
                hearAgain: (utteranceId) => opinions.ask(rows.filter(({ id }) => id === utteranceId)),
                canHearAgain: opinions.installed, isListening: opinions.progress !== null,
              }} />
            ) : <p className="soft">Nothing has been said yet.</p>}
          </section>
          <div className="stack">
            <Localisation view={where} full />
            <LeftRight rows={report.comparison} hands={where && comparison ? handsInWords(comparison) : ''} />
            <Report report={report} name={name} />
            <Sign signed={record.signatures} changed={record.changedSinceSigned} onSign={(by, note) => attempt(session.sign(by, note))} />
            <StageBoard stages={stageViews(record, protocol)} onStage={(id) => attempt(session.setStage(id))} />
          </div>
        </div>
      </main>
      <p className="caution-line">{CAUTION_LINE}</p>
    </>
  );
}
