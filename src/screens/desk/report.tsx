import type { ReactNode } from 'react';
import { reportToHtmlBody, reportToMarkdown } from '../../report';
import type { Report as ReportData } from '../../report';
import { saveFile } from './save-file';

/** The report as it reads now, to print or to save as text. Its body comes with every text escaped (src/report). */
export function Report({ report, name }: { report: ReportData; name: string }): ReactNode {
  return (
    <section className="panel stack" aria-label="Report">
      <p className="row">
        <button type="button" onClick={() => window.print()}>Print the report</button>
        <button type="button" onClick={() => saveFile(`${name}.md`, reportToMarkdown(report), 'text/markdown')}>Save it as text</button>
      </p>
      <div className="printed report" dangerouslySetInnerHTML={{ __html: reportToHtmlBody(report) }} />
    </section>
  );
}
