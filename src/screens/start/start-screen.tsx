import { useEffect, useId, useRef, useState } from 'react';
import type { FormEvent, ReactNode } from 'react';
import type { ExaminationSummary, SetUp, Store } from '../../record';
import { importExamination } from '../../record';
import { CAUTION_LINE } from '../shared/messages';
import { Notice } from '../shared/notice';
import { formatRoute } from '../shared/route';
import { sideInWords } from '../shared/view';
import type { Settings } from '../shared/settings';
import { Choices } from './choices';
import type { Choice } from './choices';
import { EngineChoice } from './engine-choice';
import { suggestLabel } from './label';
import { MicrophoneCheck } from './microphone-check';
import { MECHANISMS, ONSET_UNITS, readSetUp } from './set-up';
import type { SetUpForm } from './set-up';

const SIDE_CHOICES: readonly Choice[] = [{ value: 'left', words: 'Left' }, { value: 'right', words: 'Right' }, { value: 'both', words: 'Both' }, { value: '', words: 'Not known' }];

export function SetUpFormView({ protocols, onBegin }: { protocols: readonly Choice[]; onBegin: (setUp: SetUp) => Promise<void> }): ReactNode {
  const id = useId();
  const [form, setForm] = useState<SetUpForm>(() => ({ label: suggestLabel(Math.random), injuredSide: '', handedness: '', mechanism: '', onsetValue: '', onsetUnit: 'h', protocol: protocols[0]?.value ?? '' }));
  const [hints, setHints] = useState<Readonly<Partial<Record<'label' | 'onset', string>>>>({});
  const [fault, setFault] = useState('');
  const labelField = useRef<HTMLInputElement>(null);
  const onsetField = useRef<HTMLInputElement>(null);
  const change = <K extends keyof SetUpForm>(key: K, value: SetUpForm[K]): void => setForm((before) => ({ ...before, [key]: value }));

  const submit = (event: FormEvent): void => {
    event.preventDefault();
    const reading = readSetUp(form);
    if (!reading.ok) {
      setHints(reading.hints);
      (reading.hints.label ? labelField : onsetField).current?.focus();
      return;
    }
    setHints({});
    onBegin(reading.setUp).catch((error: unknown) => setFault(error instanceof Error ? error.message : String(error)));
  };

  return (
    <form className="panel stack" onSubmit={submit} noValidate aria-label="New examination">
      <h2>New examination</h2>
      {fault ? <Notice message={{ what: 'The examination could not be started.', todo: fault }} /> : null}
      <div className="field">
        <label htmlFor={`${id}label`}>Label (a code, never a name)</label>
        <input ref={labelField} id={`${id}label`} value={form.label} autoComplete="off" spellCheck={false} aria-invalid={hints.label ? true : undefined} aria-describedby={`${id}label-hint`} onChange={(event) => change('label', event.target.value)} />
        <p id={`${id}label-hint`} className={hints.label ? 'hint' : 'soft'} role={hints.label ? 'alert' : undefined}>{hints.label ?? 'Keep which patient it is on your own list. No name, date of birth or record number here.'}</p>
      </div>
      <Choices name="injured" legend="Injured or affected side" choices={SIDE_CHOICES} value={form.injuredSide} onChange={(value) => change('injuredSide', value as SetUpForm['injuredSide'])} />
      <Choices name="handed" legend="Handedness" choices={SIDE_CHOICES.map((choice) => (choice.value === 'both' ? { ...choice, words: 'Both alike' } : choice))} value={form.handedness} onChange={(value) => change('handedness', value as SetUpForm['handedness'])} />
      <div className="field">
        <label htmlFor={`${id}mechanism`}>Mechanism</label>
        <input id={`${id}mechanism`} list={`${id}mechanisms`} value={form.mechanism} autoComplete="off" onChange={(event) => change('mechanism', event.target.value)} />
        <datalist id={`${id}mechanisms`}>{MECHANISMS.map((words) => <option key={words} value={words} />)}</datalist>
      </div>
      <fieldset className="field">
        <legend>Onset or injury</legend>
        <div className="row">
          <input ref={onsetField} className="onset" aria-label="How long ago, number" inputMode="decimal" value={form.onsetValue} autoComplete="off" aria-invalid={hints.onset ? true : undefined} onChange={(event) => change('onsetValue', event.target.value)} />
          <select className="onset" aria-label="How long ago, unit" value={form.onsetUnit} onChange={(event) => change('onsetUnit', event.target.value as SetUpForm['onsetUnit'])}>
            {ONSET_UNITS.map(({ unit, words }) => <option key={unit} value={unit}>{words}</option>)}
          </select>
        </div>
        {hints.onset ? <p className="hint" role="alert">{hints.onset}</p> : null}
      </fieldset>
      <Choices name="protocol" legend="Protocol" choices={protocols} value={form.protocol} onChange={(value) => change('protocol', value)} />
      <p><button type="submit" className="main large">Begin</button></p>
    </form>
  );
}

function Earlier({ store, version, onFile }: { store: Store; version: number; onFile: (file: File) => void }): ReactNode {
  const [list, setList] = useState<readonly ExaminationSummary[] | null>(null);
  const [asking, setAsking] = useState<string | null>(null);
  const [fault, setFault] = useState('');
  const refresh = (): void => { store.list().then(setList, (error: unknown) => setFault(String((error as Error).message))); };
  useEffect(refresh, [store, version]);
  const remove = (id: string): void => { setAsking(null); store.remove(id).then(refresh, (error: unknown) => setFault(String((error as Error).message))); };
  return (
    <section className="panel stack" aria-label="Earlier examinations">
      <h2>Earlier examinations on this device</h2>
      {fault ? <Notice message={{ what: 'The list could not be read.', todo: fault }} /> : null}
      {list?.length === 0 ? <p className="soft">None yet.</p> : null}
      <ul className="examinations">
        {list?.map(({ id, setUp, lastAt, concluded, signed }) => (
          <li key={id}>
            <span className="who"><strong>{setUp?.label ?? 'Without label'}</strong><br /><span className="soft">{setUp?.injuredSide ? `${sideInWords(setUp.injuredSide)}, ` : ''}{new Date(lastAt).toLocaleString()}, {signed ? 'signed' : concluded ? 'concluded' : 'under way'}</span></span>
            <a className="button" href={formatRoute({ screen: 'bedside', examinationId: id })} aria-label={`Go on at the bedside: ${setUp?.label ?? id}`}>Bedside</a>
            <a className="button" href={formatRoute({ screen: 'desk', examinationId: id })} aria-label={`Review at the desk: ${setUp?.label ?? id}`}>Desk</a>
            {asking === id
              ? <><button type="button" onClick={() => remove(id)}>Delete it for good</button><button type="button" className="plain" onClick={() => setAsking(null)}>Keep it</button></>
              : <button type="button" className="plain" aria-label={`Delete ${setUp?.label ?? id}`} onClick={() => setAsking(id)}>Delete</button>}
          </li>
        ))}
      </ul>
      <p className="field"><label htmlFor="import">Import an examination file</label><input id="import" type="file" accept="application/json,.json" onChange={(event) => { const file = event.target.files?.[0]; if (file) onFile(file); event.target.value = ''; }} /></p>
    </section>
  );
}

/** (c) Start: begin, go on, import, check the microphone, or watch the demonstration. */
export function StartScreen({ store, notice, protocols, settings, onSettings, onBegin }: {
  store: Store; notice: string | undefined; protocols: readonly Choice[]; settings: Settings; onSettings: (settings: Settings) => void; onBegin: (setUp: SetUp) => Promise<void>;
}): ReactNode {
  const [version, setVersion] = useState(0);
  const [imported, setImported] = useState<{ what: string; todo: string } | null>(null);
  useEffect(() => { document.title = 'Lumbrical: start'; }, []);
  const importFile = async (file: File): Promise<void> => {
    try {
      const reading = await importExamination(store, await file.text());
      setImported(reading.ok ? null : { what: `“${file.name}” was not imported.`, todo: reading.issues.slice(0, 4).map(({ path, message }) => (path ? `${path}: ${message}` : message)).join(' ') });
      setVersion((before) => before + 1);
    } catch (error) {
      setImported({ what: `“${file.name}” was not imported.`, todo: (error as Error).message });
    }
  };
  return (
    <>
      <main className="page" id="main">
        <header>
          <div><h1>Lumbrical</h1><p className="soft">Say what you find; it is written down as you examine. Everything stays on this device.</p></div>
          <a className="button main" href={formatRoute({ screen: 'demonstration' })}>Try the demonstration</a>
        </header>
        {notice ? <Notice message={{ what: 'Nothing can be kept here.', todo: notice }} /> : null}
        {imported ? <Notice message={imported} /> : null}
        <div className="start-grid">
          <SetUpFormView protocols={protocols} onBegin={onBegin} />
          <div className="stack">
            <MicrophoneCheck />
            <EngineChoice settings={settings} onSettings={onSettings} />
            <Earlier store={store} version={version} onFile={(file) => void importFile(file)} />
          </div>
        </div>
      </main>
      <p className="caution-line">{CAUTION_LINE}</p>
    </>
  );
}
