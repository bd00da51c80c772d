import { toDocument } from './document';
import { toHtml, toHtmlBody, toMarkdown } from './render';
import type { Report } from './report';

/** The plain report of an examination: as data, as a page, as text. */
export { SUPPORT_LINE, buildReport } from './report';
export type { Comparison, Report, ReportFinding, SideReport } from './report';
export { codesFor } from './icd10';
export type { Code } from './icd10';

/** A page of its own; every text in it is escaped. */
export const reportToHtml = (report: Report): string => toHtml(toDocument(report));
/** The body alone, to show within a page; every text in it is escaped. */
export const reportToHtmlBody = (report: Report): string => toHtmlBody(toDocument(report));
export const reportToMarkdown = (report: Report): string => toMarkdown(toDocument(report));
