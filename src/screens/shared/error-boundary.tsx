import { Component } from 'react';
import type { ReactNode } from 'react';

interface Props { readonly children: ReactNode }
interface State { readonly error: Error | null }

/** Keeps a fault in one screen from taking the page with it. What was recorded is in the store, so a fresh start loses nothing. */
export class ErrorBoundary extends Component<Props, State> {
  override state: State = { error: null };
  static getDerivedStateFromError(error: unknown): State { return { error: error instanceof Error ? error : new Error(String(error)) }; }
  override render(): ReactNode {
    const { error } = this.state;
    if (!error) return this.props.children;
    return (
      <main className="page">
        <h1>This screen stopped working</h1>
        <p className="notice" role="alert"><strong>{error.message}</strong>Everything recorded so far is kept on this device. Load the page again to go on where you were.</p>
        <p className="row">
          <button type="button" className="main" onClick={() => window.location.reload()}>Load again</button>
          <button type="button" onClick={() => { window.location.hash = '#/start'; window.location.reload(); }}>To the start</button>
        </p>
      </main>
    );
  }
}
