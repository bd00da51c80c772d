import type { ReactNode } from 'react';
import type { Side } from '../../vocabulary';
import type { LevelView } from '../hearing/level';
import { Icon } from '../shared/icons';
import type { ApartView, CautionView, HeardRow, LocalisationView, PlaceView, QuestionView, StageView } from '../shared/view';
import { sideInWords, VERDICT_WORDS } from '../shared/view';

/** The bedside screen's parts. Each shows one view and reports what was pressed; none knows where the view came from.
 * Panels that may scroll can take the focus, so that the keyboard can scroll them too (WCAG 2.1.1). */

export const SideShown = ({ side }: { side: Side | 'both' | null }): ReactNode => (
  <p className={`side-shown${side ? '' : ' none'}`} aria-live="polite">
    <span className="offscreen">Side now: </span>{sideInWords(side)}{side ? <small>{side === 'both' ? 'hands' : 'hand'}</small> : null}
  </p>
);

export function LevelMeter({ view }: { view: LevelView }): ReactNode {
  return (
    <div className={`meter ${view.shape}`}>
      <p className="meter-word" role="status"><Icon name={view.shape} />{view.word}</p>
      {/* Moves many times a second: not announced; the word above is. */}
      <div className="level" aria-hidden="true"><div className="level-fill" style={{ transform: `scaleX(${view.fill.toFixed(3)})` }} /></div>
      {view.hint ? <p className="soft">{view.hint}</p> : null}
    </div>
  );
}

export const Verdict = ({ verdict }: { verdict: HeardRow['verdict'] }): ReactNode => (
  <span className={`verdict ${verdict}`}><Icon name={verdict} />{VERDICT_WORDS[verdict]}</span>
);

/** What is being said, what was heard last with what it was coded as (or what the recorder answered), and the few before it. */
export function Heard({ partial, rows, reply }: { partial: string; rows: readonly HeardRow[]; reply: string | null }): ReactNode {
  // Talk to the patient must not push the last finding off the screen.
  const meant = rows.filter((row) => row.verdict !== 'ignored');
  const ignored = rows.at(-1)?.verdict === 'ignored';
  const last = meant.at(-1);
  const earlier = meant.slice(0, -1).slice(-3).reverse();
  const lines = last ? (reply && last.verdict === 'understood' ? [reply] : last.coded) : [];
  return (
    <section className="panel heard" aria-label="Heard" tabIndex={0}>
      {last ? (
        <div aria-live="polite">
          <p className="said"><Verdict verdict={last.verdict} /> “{last.text}”</p>
          {lines.length ? <div className={`coded${lines.join('').length > 90 ? ' many' : ''}`}>{lines.map((line, n) => <p key={n}>{line}</p>)}</div> : null}
          {last.why ? <p className="why soft">{last.why}</p> : null}
        </div>
      ) : <p className="coded many">Say a side first, “left hand”. Then say what you find.</p>}
      <p className="said partial" aria-hidden="true">{partial ? `${partial} …` : ignored ? <Verdict verdict="ignored" /> : ''}</p>
      {earlier.length ? (
        <ol className="earlier" aria-label="Before that, latest first">
          {earlier.map((row) => <li key={row.id}><Icon name={row.verdict} /><span><span className="offscreen">{VERDICT_WORDS[row.verdict]}: </span>{row.coded.join('; ') || `“${row.text}”`}</span></li>)}
        </ol>
      ) : null}
    </section>
  );
}

/** Characters of an answer from which it gets a row of its own: side by side, two such would fill the panel. */
const LONG_ANSWER = 60;

export function Question({ question, marked, onAnswer, onDismiss }: { question: QuestionView; marked: number | null; onAnswer: (option: number) => void; onDismiss: () => void }): ReactNode {
  return (
    <section className="panel question" role="alert" aria-label="Question">
      <p className="said">“{question.text}”</p>
      <h2 className={question.question.length > 40 ? 'long' : undefined}>{question.question}</h2>
      <div className="answers">
        {question.answers.map((answer, n) => (
          <button key={n} type="button" className={answer.label.length > LONG_ANSWER ? 'long' : undefined} aria-current={marked === n ? 'true' : undefined} onClick={() => onAnswer(n)}>
            <span className="number">{n + 1}</span><span>{answer.label}{answer.say.length ? <small>Say “{answer.say.join('” or “')}”</small> : null}</span>
          </button>
        ))}
        <button type="button" className="plain" onClick={onDismiss}><span>None of these<small>Say “no”</small></span></button>
      </div>
    </section>
  );
}

/** More are a list to read, not to glance at. */
const MOST_ITEMS = 4;

export function StageBoard({ stages, onStage }: { stages: readonly StageView[]; onStage: (id: string) => void }): ReactNode {
  const current = stages.find((stage) => stage.current);
  const left = current?.remaining.filter(({ items }) => items.length) ?? [];
  const counts = ({ done, total, barred }: StageView): ReactNode => (
    <span className="counts"><span aria-hidden="true">{done}/{total}</span><span className="offscreen">{done} of {total} done{barred ? `, ${barred} not testable` : ''}</span></span>
  );
  return (
    <section className="panel stages" aria-label="Stages and what remains" tabIndex={0}>
      <h2 className="offscreen">Stages</h2>
      {current ? (
        <>
          <p className="stage-now" aria-current="step"><Icon name={current.complete ? 'done' : 'current'} /><span className="grow">{current.name}</span>{counts(current)}</p>
          {left.length ? (
            <dl className="remaining" aria-label={`Remaining in ${current.name}`}>
              {left.map(({ side, items }) => (
                <div key={side}><dt>{sideInWords(side)} ({items.length}):</dt> <dd>{items.slice(0, MOST_ITEMS).join(', ')}{items.length > MOST_ITEMS ? ` and ${items.length - MOST_ITEMS} more` : ''}</dd></div>
              ))}
            </dl>
          ) : <p className="remaining">Nothing remains in this stage.</p>}
        </>
      ) : null}
      <ol>
        {stages.filter((stage) => !stage.current).map((stage) => (
          <li key={stage.id}>
            <Icon name={stage.complete ? 'done' : 'waiting'} />
            <button type="button" className="stage-button" onClick={() => onStage(stage.id)}>{stage.name}</button>
            {counts(stage)}
          </li>
        ))}
      </ol>
    </section>
  );
}

const Evidence = ({ term, lines, most }: { term: string; lines: readonly string[]; most: number }): ReactNode =>
  (lines.length ? <div><dt>{term}:</dt> <dd>{lines.slice(0, most).join('; ')}</dd></div> : null);

/** Stands before the evidence: it is what the examiner can act on. What tells rivals apart says more than the reason of the next test, and shorter. */
const NextTest = ({ next, telling }: { next: LocalisationView['nextTests'][number] | undefined; telling: string | undefined }): ReactNode => {
  if (!next) return null;
  return (
    <div className="next-test">
      {telling ? <p><strong>To tell apart:</strong> {telling}</p> : null}
      {telling === next.words ? null : <p><strong>Tells most next:</strong> {next.words}{next.why && !telling ? `; ${next.why}` : ''}</p>}
    </div>
  );
};

const inShort = (places: readonly Pick<PlaceView, 'words' | 'percent'>[], most: number): string =>
  `${places.slice(0, most).map(({ words, percent }) => `${words}, ${percent}`).join('; ')}${places.length > most ? `; and ${places.length - most} more` : ''}`;

/** At the desk there is time for all that is not told apart, and all tests that would. */
const Apart = ({ apart }: { apart: readonly ApartView[] }): ReactNode => apart.map(({ places, tests }) => (
  <section key={places[0]?.id} className="evidence" aria-label="What would tell these apart">
    <h3>Not told apart by what was found</h3>
    <ul>{places.map(({ id, words, percent }) => <li key={id}>{words}, {percent}</li>)}</ul>
    <h3>What would tell them apart, best first</h3>
    {tests.length ? <ol>{tests.map((test) => <li key={test}>{test}</li>)}</ol> : <p>No test that the recorder knows.</p>}
  </section>
));

/** A longer place is set smaller, so that the test after it stays in sight. */
const LONG_PLACE = 50;

/** @param full all that is not told apart, with every test that would: for the desk; the bedside has room for one of each */
export function Localisation({ view, full = false }: { view: LocalisationView | null; full?: boolean }): ReactNode {
  const [first, ...others] = view?.places ?? [];
  const [open] = full ? [] : view?.apart ?? [];
  const rivals = open?.places.filter(({ id }) => id !== first?.id) ?? [];
  const test = <NextTest next={view?.nextTests[0]} telling={open?.tests[0]} />;
  return (
    <section className="panel where" aria-label="Where the lesion may be" tabIndex={0}>
      <h2>{view?.clear ? 'Findings fit best' : 'Where it may be'}</h2>
      {view && first && view.clear ? (
        <>
          <p className={`place${first.words.length > LONG_PLACE ? ' long' : ''}`}>{first.words} <span className="share">({first.percent})</span></p>
          {test}
          {rivals.length ? <p className="evidence">Not told apart from: {inShort(rivals, 2)}</p> : null}
          <dl className="evidence">
            <Evidence term="For" lines={first.speaksFor} most={3} />
            <Evidence term="Spared" lines={first.spared} most={2} />
            <Evidence term="Against" lines={first.speaksAgainst} most={2} />
          </dl>
          {others.length && !rivals.length ? <p className="evidence soft">Else: {inShort(others.slice(0, 2), 2)}</p> : null}
        </>
      ) : first ? (
        <>
          <p className="place">Not clear yet</p>
          <ul className="evidence">{[first, ...others].slice(0, 3).map((place) => <li key={place.id}>{place.words}, {place.percent}</li>)}</ul>
          {test}
        </>
      ) : <p className="place">Nothing to go by yet</p>}
      {view && full ? <Apart apart={view.apart} /> : null}
      {view?.note ? <p className="evidence soft">{view.note}</p> : null}
    </section>
  );
}

const MOST_REASONS = 3;

/** Interrupts until acknowledged. */
export const CautionBanner = ({ caution, more = 0, onAcknowledge }: { caution: CautionView; more?: number; onAcknowledge: () => void }): ReactNode => (
  <section className="caution" role="alert" aria-label="Caution">
    <Icon name="caution" />
    <h2>Caution: {caution.title}{more > 0 ? ` (and ${more} more)` : ''}</h2>
    <p>{caution.text}{caution.because.length ? <> <strong>Because:</strong> {caution.because.slice(0, MOST_REASONS).join('; ')}{caution.because.length > MOST_REASONS ? ` and ${caution.because.length - MOST_REASONS} more` : ''}.</> : null}</p>
    <button type="button" onClick={onAcknowledge}>Acknowledge<small>Enter, or say “caution noted”</small></button>
  </section>
);

/** What stays of cautions once acknowledged: one line each. */
export const CautionsSeen = ({ cautions }: { cautions: readonly CautionView[] }): ReactNode => (cautions.length ? (
  <ul className="cautions-seen" aria-label="Cautions, acknowledged">{cautions.map(({ id, title }) => <li key={id}><Icon name="caution" /><span>{title}</span></li>)}</ul>
) : null);
