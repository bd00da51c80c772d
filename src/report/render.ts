import type { Block, Document } from './document';

const ENTITIES: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;', "'": '&#39;' };
const escapeHtml = (text: string): string => text.replace(/[&<>"']/g, (character) => ENTITIES[character] as string);

/** Markup that is safe to insert as it is. */
class Markup { constructor(readonly html: string) {} }
type Part = string | Markup | readonly Markup[];
const render = (part: Part): string => (typeof part === 'string' ? escapeHtml(part) : part instanceof Markup ? part.html : part.map(({ html }) => html).join(''));
/** Template whose every inserted text is escaped: there is no way to put text in unescaped. */
const html = (fixed: TemplateStringsArray, ...parts: readonly Part[]): Markup => new Markup(fixed.reduce((whole, piece, index) => whole + render(parts[index - 1] ?? '') + piece));

function blockToHtml(block: Block): Markup {
  switch (block.kind) {
    case 'text': return block.strong ? html`<p><strong>${block.text}</strong></p>` : html`<p>${block.text}</p>`;
    case 'list': return html`<ul>${block.items.map((item) => html`<li>${item}</li>`)}</ul>`;
    case 'table': return html`<table><thead><tr>${block.head.map((cell) => html`<th scope="col">${cell}</th>`)}</tr></thead><tbody>${block.rows.map((row) => html`<tr>${row.map((cell, column) => (column === 0 ? html`<th scope="row">${cell}</th>` : html`<td>${cell}</td>`))}</tr>`)}</tbody></table>`;
  }
}

const bodyOf = ({ title, sections }: Document): Markup =>
  html`<h1>${title}</h1>${sections.map(({ heading, blocks }) => html`<section><h2>${heading}</h2>${blocks.map(blockToHtml)}</section>`)}`;

/** The report's body, to show within a page. */
export const toHtmlBody = (document: Document): string => bodyOf(document).html;

/** A page of its own, to print or send on; it loads nothing and runs nothing. */
export const toHtml = (document: Document): string => html`<!doctype html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1"><meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'"><title>${document.title}</title>
<style>body{font:1rem/1.5 system-ui,sans-serif;max-width:60rem;margin:2rem auto;padding:0 1rem;color:#111;background:#fff}table{border-collapse:collapse;width:100%}th,td{border:1px solid #555;padding:.3rem .5rem;text-align:left;vertical-align:top}section{break-inside:avoid-page}</style></head>
<body><main>${bodyOf(document)}</main></body></html>
`.html;

/** Text that Markdown would read as markup, told apart from it. */
const escapeMarkdown = (text: string): string => text.replace(/\s+/g, ' ').replace(/[\\`*_{}[\]<>#|~&]/g, (character) => `\\${character}`).replace(/^(\d+)([.)])/, '$1\\$2').replace(/^([-+])/, '\\$1');

function blockToMarkdown(block: Block): string {
  switch (block.kind) {
    case 'text': return block.strong ? `**${escapeMarkdown(block.text)}**` : escapeMarkdown(block.text);
    case 'list': return block.items.map((item) => `- ${escapeMarkdown(item)}`).join('\n');
    case 'table': {
      const row = (cells: readonly string[]): string => `| ${cells.map(escapeMarkdown).join(' | ')} |`;
      return [row(block.head), `|${' --- |'.repeat(block.head.length)}`, ...block.rows.map(row)].join('\n');
    }
  }
}

export const toMarkdown = ({ title, sections }: Document): string =>
  [`# ${escapeMarkdown(title)}`, ...sections.flatMap(({ heading, blocks }) => [`## ${escapeMarkdown(heading)}`, ...blocks.map(blockToMarkdown)])].join('\n\n') + '\n';
