import { useEffect, useRef, useState } from 'react';
import type { ReactNode } from 'react';
import { ENGINE_WORDS, ENGINES, INSTALL_COMMAND } from '../../recogniser/vosk';
import type { EngineName } from '../../recogniser/vosk';
import { enginesHere } from '../hearing/engines';
import { heardGrammar, makeEngine } from '../session/language';
import { openSecondEar } from '../session/second-ear';
import type { SecondEar } from '../session/second-ear';
import type { Session } from '../session/session';
import type { HeardRow } from '../shared/view';

export interface Opinions {
  /** Whether this engine can be asked. */
  readonly installed: (engine: EngineName) => boolean;
  readonly progress: { readonly done: number; readonly of: number; readonly words: string } | null;
  /** Lets the other engine hear these, one after the other. */
  readonly ask: (rows: readonly HeardRow[]) => void;
  readonly stop: () => void;
}

/** Engines for the reviewer: each is loaded when first asked, and closed when the desk is left. */
export function useSecondOpinions(session: Session, onFault: (error: unknown) => void): Opinions {
  const [progress, setProgress] = useState<Opinions['progress']>(null);
  const [installed, setInstalled] = useState<readonly EngineName[]>([]);
  const ears = useRef(new Map<EngineName, Promise<SecondEar>>());
  const asking = useRef(false);

  const close = (): void => {
    for (const ear of ears.current.values()) ear.then((opened) => opened.close(), () => undefined);
    ears.current.clear();
  };
  useEffect(() => { enginesHere().then((here) => setInstalled(ENGINES.filter((name) => here[name].installed)), () => undefined); }, []);
  useEffect(() => () => { asking.current = false; close(); }, [session]);

  const earOf = (engine: EngineName): Promise<SecondEar> => {
    const opened = ears.current.get(engine) ?? heardGrammar().then((grammar) => openSecondEar(makeEngine(engine), grammar));
    ears.current.set(engine, opened);
    return opened;
  };

  const run = async (rows: readonly HeardRow[]): Promise<void> => {
    for (const [done, { id, other }] of rows.entries()) {
      if (!asking.current) return;
      const clip = await session.store.audio(session.examinationId, id);
      if (!clip || !other) continue;
      setProgress({ done, of: rows.length, words: ENGINE_WORDS[other] });
      const ear = await earOf(other);
      const heard = await ear.hear(clip);
      if (asking.current) await session.heardAgain(id, other, heard);
    }
  };
  const ask = (rows: readonly HeardRow[]): void => {
    if (asking.current) return;
    asking.current = true;
    // An engine that failed is opened anew the next time.
    run(rows).catch((error: unknown) => { close(); if (asking.current) onFault(error); }).finally(() => { asking.current = false; setProgress(null); });
  };
  return { installed: (engine) => installed.includes(engine), progress, ask, stop: () => { asking.current = false; } };
}

/** Offers to have everything heard again that can be, and tells how far that is. */
export function SecondOpinions({ rows, opinions: { installed, progress, ask, stop } }: { /** Heard by one engine, with stored sound, and not by the other yet. */ rows: readonly HeardRow[]; opinions: Opinions }): ReactNode {
  const askable = rows.filter(({ other }) => other && installed(other));
  if (!progress && !askable.length) return rows.some(({ other }) => other === 'vosk') ? <p className="soft">For a second opinion on what was heard, install the second engine: <code>{INSTALL_COMMAND}</code>.</p> : null;
  // One button for both, so that the focus stays on it.
  return (
    <div className="row">
      <p className="grow" role="status">{progress
        ? `The ${progress.words} is listening: ${progress.done} of ${progress.of} done.`
        : 'Another engine can listen to the stored sound. Where both agree you may be surer; where they differ you are asked.'}</p>
      <button type="button" onClick={() => (progress ? stop() : ask(askable))}>{progress ? 'Stop' : `Second opinion on ${askable.length === 1 ? 'one utterance' : `all ${askable.length}`}`}</button>
    </div>
  );
}
