import type { ReactNode } from 'react';
import type { Side } from '../../vocabulary';
import type { LevelView } from '../hearing/level';
import { Icon } from '../shared/icons';
import type { CautionView, HeardRow, LocalisationView, QuestionView, StageView } from '../shared/view';
import { sideInWords, VERDICT_WORDS } from '../shared/view';

/** The bedside screen's parts. Each shows one view and reports what was pressed; none knows where the view came from. */

export const SideShown = ({ side }: { side: Side | 'both' | null }): ReactNode => (
  <p className={`side-shown${side ? '' : ' none'}`} aria-live="polite">
    <span className="offscreen">Side now: </span>{sideInWords(side)}{side && side !== 'both' ? <small>hand</small> : null}
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

/** What is being said, what was heard last with what it was coded as, and the few before it. */
export function Heard({ partial, rows }: { partial: string; rows: readonly HeardRow[] }): ReactNode {
  const last = rows.at(-1);
  const earlier = rows.slice(0, -1).filter((row) => row.verdict !== 'ignored').slice(-3).reverse();
  return (
    <section className="panel heard stack" aria-label="Heard">
      <p className={`said${partial ? ' partial' : ''}`} aria-hidden={partial ? 'true' : undefined}>{partial || (last ? `“${last.text}”` : 'Say a side first, then findings: “left hand”.')}</p>
      <div aria-live="polite" className="stack">
        {last ? (
          <>
            <Verdict verdict={last.verdict} />
            {last.coded.length ? <div className={`coded${last.coded.length > 2 ? ' many' : ''}`}>{last.coded.map((line, n) => <p key={n}>{line}</p>)}</div> : null}
            {last.why ? <p className="why soft">{last.why}</p> : null}
          </>
        ) : null}
      </div>
      {earlier.length ? (
        <ol className="earlier" aria-label="Before that, latest first">
          {earlier.map((row) => <li key={row.id}><span className="offscreen">{VERDICT_WORDS[row.verdict]}: </span>{row.coded.join('; ') || `“${row.text}”`}</li>)}
        </ol>
      ) : null}
    </section>
  );
}

export function Question({ question, marked, onAnswer, onDismiss }: { question: QuestionView; marked: number | null; onAnswer: (option: number) => void; onDismiss: () => void }): ReactNode {
  return (
    <section className="panel question" role="alert" aria-label="Question">
      <p className="said">“{question.text}”</p>
      <h2>{question.question}</h2>
      <div className="answers">
        {question.answers.map((answer, n) => (
          <button key={n} type="button" aria-current={marked === n ? 'true' : undefined} onClick={() => onAnswer(n)}>
            <span className="number">{n + 1}</span><span>{answer.label}<span className="offscreen">. Say {answer.say.join(' or ')}.</span></span>
          </button>
        ))}
        <button type="button" className="plain" onClick={onDismiss}>None of these</button>
      </div>
    </section>
  );
}

export function StageBoard({ stages, onStage }: { stages: readonly StageView[]; onStage: (id: string) => void }): ReactNode {
  const current = stages.find((stage) => stage.current);
  return (
    <section className="panel stages" aria-label="Stages and what remains">
      <h2>Stages</h2>
      <ol>
        {stages.map((stage) => (
          <li key={stage.id} aria-current={stage.current ? 'step' : undefined}>
            <Icon name={stage.complete ? 'done' : stage.current ? 'current' : 'waiting'} />
            {stage.current ? <span>{stage.name}</span> : <button type="button" className="plain stage-button" onClick={() => onStage(stage.id)}>{stage.name}</button>}
            <span className="counts">{stage.done} of {stage.total}{stage.barred ? <span className="soft"> ({stage.barred} not testable)</span> : null}</span>
          </li>
        ))}
      </ol>
      {current && current.remaining.some(({ items }) => items.length) ? (
        <dl className="remaining" aria-label={`Remaining in ${current.name}`}>
          {current.remaining.filter(({ items }) => items.length).map(({ side, items }) => (
            <div key={side}><dt>{sideInWords(side)}: {items.length} remaining</dt><dd>{items.slice(0, 4).join(', ')}{items.length > 4 ? ` and ${items.length - 4} more` : ''}</dd></div>
          ))}
        </dl>
      ) : current ? <p className="remaining">Nothing remains in this stage.</p> : null}
    </section>
  );
}

export function Localisation({ view }: { view: LocalisationView | null }): ReactNode {
  const [first, ...others] = view?.places ?? [];
  return (
    <section className="panel" aria-label="Where the lesion may be">
      <h2>Findings fit best</h2>
      {first ? (
        <>
          <p className="place">{first.words} <span className="share">· {first.percent}</span></p>
          <dl className="evidence">
            {first.speaksFor.length ? <div><dt>For</dt><dd>{first.speaksFor.slice(0, 3).join('; ')}</dd></div> : null}
            {first.spared.length ? <div><dt>Spared</dt><dd>{first.spared.slice(0, 2).join('; ')}</dd></div> : null}
            {first.speaksAgainst.length ? <div><dt>Against</dt><dd>{first.speaksAgainst.slice(0, 2).join('; ')}</dd></div> : null}
          </dl>
          {others.length ? <p className="evidence soft">Else: {others.slice(0, 2).map((place) => `${place.words} ${place.percent}`).join('; ')}</p> : null}
          {view?.nextTests[0] ? <p className="next-test"><strong>Tells most next:</strong> {view.nextTests[0].words}{view.nextTests[0].why ? `. ${view.nextTests[0].why}` : ''}</p> : null}
          {view?.note ? <p className="evidence soft">{view.note}</p> : null}
        </>
      ) : <p className="soft">Nothing to go by yet.</p>}
    </section>
  );
}

/** Interrupts until acknowledged, then stays as one line. */
export function CautionBanner({ caution, onAcknowledge }: { caution: CautionView; onAcknowledge: () => void }): ReactNode {
  return caution.acknowledged ? (
    <section className="caution seen" aria-label="Caution, acknowledged"><Icon name="caution" /><p><strong>{caution.title}</strong></p></section>
  ) : (
    <section className="caution" role="alert" aria-label="Caution">
      <Icon name="caution" />
      <div><h2>Caution: {caution.title}</h2><p>{caution.text}</p>{caution.because.length ? <p>Because: {caution.because.join('; ')}</p> : null}</div>
      <button type="button" className="large" onClick={onAcknowledge}>Acknowledge</button>
    </section>
  );
}
