import path from 'node:path';
import type { Image, Link, Root } from 'mdast';
import { visit } from 'unist-util-visit';
import type { VFile } from 'vfile';
import { type Fault, nearestNames } from '../../problem/index.ts';
import { idOf, resolveInside } from '../files.ts';
import { proseMessages } from './messages.ts';
import { report } from './report.ts';

/** What links are resolved against. */
export interface LinkContext {
  /** Absolute path of the journal's folder. */
  root: string;
  /** Address prefix of the site, with a slash at both ends. */
  base: string;
  /** Every file of the journal, relative to its folder. */
  files: ReadonlySet<string>;
  /** Every record's id. */
  ids: ReadonlySet<string>;
}

/** Rewrites links between records and captures to addresses of the site and checks links and pictures. */
export function links(context: LinkContext) {
  return (tree: Root, file: VFile): void => {
    const record = path.relative(context.root, file.path).replaceAll(path.sep, '/');
    visit(tree, ['link', 'definition'], (node) => {
      const fault = settleLink(node as Link, record, context);
      if (fault) report(file, node, fault);
    });
    visit(tree, 'image', (node) => {
      for (const fault of settleImage(node, record, context)) report(file, node, fault);
    });
  };
}

/** Gives a link its address on the site; a fault where it may not or cannot be published. */
function settleLink(node: Link, record: string, context: LinkContext): Fault | null {
  const { url } = node;
  if (url.startsWith('#') || /^(https?:\/\/|mailto:)/i.test(url)) return null;
  if (/^[a-z][a-z0-9+.-]*:/i.test(url) || url.startsWith('//')) return proseMessages.linkScheme(url);
  const [target = '', fragment] = url.split('#');
  const address = addressOf(decodeURI(target), record, context);
  if (address === null) return danglingFault(target, record, context);
  node.url = fragment === undefined ? address : `${address}#${fragment}`;
  return null;
}

/** The site's address of a record, capture or static file named by a path; null where nothing is meant. */
function addressOf(target: string, record: string, { base, files, ids }: LinkContext): string | null {
  for (const candidate of [resolveInside(record, target), target.replace(/^\/|\/$/g, '')]) {
    if (candidate === null) continue;
    const id = idOf(candidate);
    if (ids.has(id)) return `${base}${id}/`;
    if (files.has(candidate) && candidate.startsWith('static/'))
      return base + candidate.slice('static/'.length);
    if (files.has(candidate) && candidate.endsWith('.csv')) return base + candidate;
  }
  return null;
}

function danglingFault(target: string, record: string, { files, ids }: LinkContext) {
  if (resolveInside(record, target) === null) return proseMessages.linkOutside(target);
  return proseMessages.linkDangling(target, nearestNames(target, [...ids, ...files]));
}

/** Makes a picture's path explicitly relative, as the image pipeline wants it. */
function settleImage(node: Image, record: string, { files }: LinkContext): Fault[] {
  const { url, alt } = node;
  if (/^([a-z][a-z0-9+.-]*:|\/\/)/i.test(url)) return [proseMessages.imageRemote(url)];
  const target = resolveInside(record, decodeURI(url));
  if (target === null) return [proseMessages.linkOutside(url)];
  if (!files.has(target)) return [proseMessages.imageMissing(url, nearestNames(target, files))];
  if (!url.startsWith('.')) node.url = `./${url}`;
  return alt?.trim() ? [] : [proseMessages.imageAlt(url)];
}
