import type { ReactNode } from 'react';
import type { Comparison } from '../../report';

/** What was found on both sides, what differs first, and how; nothing while only one hand was examined. */
export function LeftRight({ rows, hands }: { rows: readonly Comparison[]; /** How likely a lesion of either hand is, in words. */ hands: string }): ReactNode {
  const compared = rows.filter(({ difference }) => difference !== null);
  const rest = rows.length - compared.length;
  if (!compared.length) return null;
  return (
    <section className="panel stack left-right" aria-label="Left against right">
      <h2>Left against right</h2>
      {hands ? <p>Where a lesion is likely, by what was found: {hands}.</p> : null}
      <table>
        <thead><tr><th scope="col">Examined</th><th scope="col">Left</th><th scope="col">Right</th><th scope="col">Compared</th></tr></thead>
        <tbody>
          {compared.map(({ what, left, right, difference }) => (
            <tr key={what} className={difference?.endsWith('worse') ? 'differs' : undefined}><th scope="row">{what}</th><td>{left}</td><td>{right}</td><td>{difference}</td></tr>
          ))}
        </tbody>
      </table>
      {rest ? <p className="soft">{rest} more {rest === 1 ? 'was' : 'were'} found on one side only: see the report.</p> : null}
    </section>
  );
}
