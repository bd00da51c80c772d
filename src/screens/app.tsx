import { useCallback, useEffect, useState } from 'react';
import type { ReactNode } from 'react';
import { PROTOCOLS } from '../examination';
import { askToKeep, StoreFault } from '../record';
import type { SetUp, Store } from '../record';
import { BedsideScreen } from './bedside/bedside-screen';
import { demonstrationSetUp, demonstrationSource } from './demonstration/demonstration';
import { DemonstrationScreen } from './demonstration/demonstration-screen';
import { DeskScreen } from './desk/desk-screen';
import type { Open } from './session/open';
import { begin, lendSource, resume } from './session/open';
import { ErrorBoundary } from './shared/error-boundary';
import { messageOf } from './shared/messages';
import { Notice } from './shared/notice';
import { formatRoute, parseRoute } from './shared/route';
import type { Route } from './shared/route';
import { loadSettings, saveSettings } from './shared/settings';
import type { Settings } from './shared/settings';
import { suggestLabel } from './start/label';
import { StartScreen } from './start/start-screen';
import { VoiceProfileScreen } from './start/voice-profile';

const go = (route: Route): void => { window.location.hash = formatRoute(route); };

function useRoute(): Route {
  const [route, setRoute] = useState(() => parseRoute(window.location.hash));
  useEffect(() => {
    const onChange = (): void => setRoute(parseRoute(window.location.hash));
    window.addEventListener('hashchange', onChange);
    return () => window.removeEventListener('hashchange', onChange);
  }, []);
  return route;
}

/** The examination that is open now; one at a time, kept while the screens change. */
let opened: Promise<Open> | null = null;
let openedId: string | null = null;

async function leave(): Promise<void> {
  const before = opened;
  [opened, openedId] = [null, null];
  await before?.then((open) => open.close(), () => undefined);
}
function enter(id: string, opening: Promise<Open>): Promise<Open> {
  [opened, openedId] = [opening, id];
  opening.catch(() => { if (openedId === id) [opened, openedId] = [null, null]; });
  return opening;
}
const reopen = (store: Store, id: string): Promise<Open> => (openedId === id && opened ? opened : leave().then(() => enter(id, resume(store, id))));

async function beginAt(store: Store, setUp: SetUp): Promise<Open> {
  await leave();
  void askToKeep();
  const open = await begin(store, setUp);
  await enter(open.session.examinationId, Promise.resolve(open));
  return open;
}

const LOOK_AGAIN_MS = 2_000;

function Examination({ store, id, children }: { store: Store; id: string; children: (open: Open) => ReactNode }): ReactNode {
  const [state, setState] = useState<{ readonly open?: Open; readonly error?: unknown }>({});
  const load = useCallback(() => {
    setState({});
    reopen(store, id).then((open) => setState({ open }), (error: unknown) => setState({ error }));
  }, [store, id]);
  useEffect(load, [load]);
  const elsewhere = state.error instanceof StoreFault && state.error.code === 'open elsewhere';
  useEffect(() => {
    if (!elsewhere) return;
    // Goes on here by itself once the other window has closed.
    const timer = setInterval(() => { reopen(store, id).then((open) => setState({ open }), () => undefined); }, LOOK_AGAIN_MS);
    return () => clearInterval(timer);
  }, [elsewhere, store, id]);
  if (state.open) return children(state.open);
  return (
    <main className="page" id="main">
      <h1>{state.error ? 'Not opened' : 'Opening the examination …'}</h1>
      {state.error ? (
        <Notice message={messageOf(state.error)}>
          {state.error instanceof StoreFault && state.error.code !== 'not found' ? <button type="button" onClick={load}>Try again</button> : null}
          <a className="button" href={formatRoute({ screen: 'start' })}>To the start</a>
        </Notice>
      ) : null}
    </main>
  );
}

const LOOK = { start: 'lamp', demonstration: 'lamp', voice: 'lamp', bedside: 'lamp', desk: 'paper' } as const;
const PROTOCOL_CHOICES = Object.values(PROTOCOLS).map(({ id, name }) => ({ value: id, words: name }));

export function App({ store, notice }: { store: Store; notice: string | undefined }): ReactNode {
  const route = useRoute();
  const [settings, setSettings] = useState<Settings>(loadSettings);
  const look = settings.look === 'by screen' ? LOOK[route.screen] : settings.look;
  useEffect(() => { document.documentElement.dataset.look = look; }, [look]);
  const changeSettings = (next: Settings): void => { setSettings(next); saveSettings(next); };

  const onBegin = async (setUp: SetUp): Promise<void> => {
    const { session } = await beginAt(store, setUp);
    go({ screen: 'bedside', examinationId: session.examinationId });
  };
  const onPlay = async (): Promise<void> => {
    const { session } = await beginAt(store, demonstrationSetUp(suggestLabel(Math.random).replace(/^\w+/, 'demonstration')));
    lendSource(session.examinationId, demonstrationSource());
    go({ screen: 'bedside', examinationId: session.examinationId });
  };

  return (
    <ErrorBoundary key={formatRoute(route)}>
      <a className="skip" href="#main" onClick={(event) => { event.preventDefault(); document.getElementById('main')?.querySelector<HTMLElement>('button, a, input')?.focus(); }}>To the content</a>
      {route.screen === 'start' ? <StartScreen store={store} notice={notice} protocols={PROTOCOL_CHOICES} settings={settings} onSettings={changeSettings} onBegin={onBegin} /> : null}
      {route.screen === 'demonstration' ? <DemonstrationScreen onPlay={onPlay} /> : null}
      {route.screen === 'voice' ? <VoiceProfileScreen /> : null}
      {route.screen === 'bedside' || route.screen === 'desk' ? (
        <Examination key={route.examinationId} store={store} id={route.examinationId}>
          {(open) => (route.screen === 'bedside' ? <BedsideScreen key={route.examinationId} open={open} settings={settings} onSettings={changeSettings} /> : <DeskScreen session={open.session} />)}
        </Examination>
      ) : null}
    </ErrorBoundary>
  );
}
