import type { ReactNode } from 'react';
import { findingInWords } from '../../vocabulary';
import type { Session } from '../session/session';

export function Report({ session }: { session: Session }): ReactNode {
  const { record } = session.getView();
  return <section className="panel printed" aria-label="Report"><h2>Report</h2><ul>{record.findings.map(({ id, finding }) => <li key={id}>{findingInWords(finding)}</li>)}</ul></section>;
}
