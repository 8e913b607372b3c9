import path from 'node:path';
import { escapeText } from '../../charts/svg/tree.ts';
import { contentPolicy } from '../../site/policy.ts';
import type { FramedProblem } from '../code-frame.ts';
import { packageFolder } from '../paths.ts';

/** As many problems as are shown at once. */
const most = 30;

/** The errors of a list as HTML, file by file; empty where there are none. Everything written is escaped. */
export function noticeOf(problems: readonly FramedProblem[], remark: string): string {
  const errors = problems.filter(({ problem }) => problem.severity === 'error');
  if (errors.length === 0) return '';
  const files = Map.groupBy(errors.slice(0, most), ({ problem }) => problem.file);
  const more =
    errors.length > most ? `<p>And ${errors.length - most} more, which the terminal lists.</p>` : '';
  const title = errors.length === 1 ? 'One error is open' : `${errors.length} errors are open`;
  return [
    `<section class="open-problems" role="group" aria-label="Open errors" tabindex="0"><style>${styles}</style>`,
    `<h2>${title}</h2><p>${escapeText(remark)}</p>`,
    ...[...files].map(([file, found]) => fileOf(file, found)),
    `${more}</section>`,
  ].join('');
}

function fileOf(file: string, problems: readonly FramedProblem[]): string {
  return `<h3>${escapeText(file)}</h3><ul>${problems.map(itemOf).join('')}</ul>`;
}

function itemOf({ problem, frame }: FramedProblem): string {
  const { line, column, message, rule, hint } = problem;
  const lines = frame.length > 0 ? `<pre tabindex="0">${escapeText(frame.join('\n'))}</pre>` : '';
  const mend = hint ? `<p>${escapeText(hint)}</p>` : '';
  return `<li><p><strong>${line}:${column}</strong> ${escapeText(message)} <small>${escapeText(rule)}</small></p>${lines}${mend}</li>`;
}

/** A whole page that shows the open errors where there is no page of the site to show. */
export function problemPage(problems: readonly FramedProblem[], remark: string): string {
  const file = (name: string) => escapeText(`/@fs${path.posix.join('/', packageFolder, 'components', name)}`);
  const policy = contentPolicy({ runsIndex: false, isLive: true });
  return [
    '<!doctype html><html lang="en"><head><meta charset="utf-8">',
    `<meta http-equiv="Content-Security-Policy" content="${escapeText(policy)}">`,
    '<meta name="viewport" content="width=device-width, initial-scale=1"><title>Open errors</title>',
    `<link rel="icon" href="data:,"><link rel="stylesheet" href="${file('styles/index.css')}">`,
    `<script src="${file('scripts/appearance.js')}"></script>`,
    '<script type="module" src="/@vite/client"></script></head>',
    `<body><main id="content"><h1>This page cannot be shown</h1>${noticeOf(problems, remark)}</main></body></html>`,
  ].join('');
}

const styles = `
.open-problems { border-block: 2px solid var(--mark); background: var(--band); color: var(--ink);
  padding: 0.75rem max(1.25rem, calc((100% - 66rem) / 2)); margin: 0 0 1.5rem; max-height: 60vh; overflow: auto;
  font-family: var(--sans); font-size: 0.95rem; line-height: 1.5; }
main .open-problems { max-height: none; padding-inline: 1.25rem; margin-block: 1.5rem; }
.open-problems h2 { margin: 0; font-size: 1.1rem; color: var(--mark); }
.open-problems h3 { margin: 0.75rem 0 0.25rem; font-family: var(--mono); font-size: 0.95rem; overflow-wrap: anywhere; }
.open-problems ul { list-style: none; margin: 0; padding: 0; }
.open-problems p { margin: 0.25rem 0; max-width: 48rem; overflow-wrap: anywhere; }
.open-problems small { color: var(--soft); }
.open-problems pre { margin: 0.25rem 0; padding: 0.5rem 0.75rem; background: var(--paper); overflow-x: auto;
  font-family: var(--mono); font-size: 0.85rem; line-height: 1.4; }
@media print { .open-problems { display: none; } }
`;
