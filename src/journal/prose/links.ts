import path from 'node:path';
import type { Definition, Image, Link, Root } from 'mdast';
import { visit } from 'unist-util-visit';
import type { VFile } from 'vfile';
import type { Fault } from '../../problem/index.ts';
import { idOf, resolveInside } from '../files.ts';
import { downloadOf } from '../ids.ts';
import { nearestPaths } from '../nearest-paths.ts';
import { proseMessages } from './messages.ts';
import { notesOf, report, startOf } from './report.ts';

/** What links are resolved against. */
export interface LinkContext {
  /** Absolute path of the journal's folder. */
  root: string;
  /** Address prefix of the site, with a slash at both ends. */
  base: string;
  /** Every file of the journal, relative to its folder. */
  files: ReadonlySet<string>;
  /** Every record's and capture's id. */
  ids: ReadonlySet<string>;
  /** Every capture file that is published. */
  captures: ReadonlySet<string>;
}

/** Pages that belong to no record, by their address from the root of the site. */
const pages: ReadonlySet<string> = new Set([
  '',
  'logs',
  'amplifiers',
  'comparisons',
  'decisions',
  'expectations',
  'listening',
  'methods',
  'overlay',
  'pages',
  'parts',
  'safety',
  'search',
  'tags',
]);

const pictureFiles = /\.(?:avif|gif|jpe?g|png|svg|tiff?|webp)$/i;

/** Rewrites links between records and captures to addresses of the site and checks links and pictures. */
export function links(context: LinkContext) {
  return (tree: Root, file: VFile): void => {
    const record = recordOf(file, context);
    const picturesByReference = new Set<string>();
    visit(tree, 'imageReference', (node) => {
      picturesByReference.add(node.identifier);
      if (!node.alt?.trim()) report(file, node, proseMessages.imageAlt(node.label ?? node.identifier));
    });
    const settle = (node: Link | Image | Definition, fault: Fault | null) => {
      if (fault) report(file, node, fault);
    };
    visit(tree, 'link', (node) => settle(node, settleLink(node, record, context, file)));
    visit(tree, 'definition', (node) => {
      const isPicture = picturesByReference.has(node.identifier);
      settle(
        node,
        isPicture ? settlePicture(node, record, context, file) : settleLink(node, record, context, file),
      );
    });
    visit(tree, 'image', (node) => {
      const { url, alt } = node;
      settle(
        node,
        settlePicture(node, record, context, file) ?? (alt?.trim() ? null : proseMessages.imageAlt(url)),
      );
    });
  };
}

/** The record that a file of prose belongs to, as a path in the journal. */
export function recordOf(file: VFile, { root }: Pick<LinkContext, 'root'>): string {
  return path.relative(root, file.path).replaceAll(path.sep, '/');
}

/** Gives a link its address on the site; a fault where it may not or cannot be published. */
function settleLink(
  node: Link | Definition,
  record: string,
  context: LinkContext,
  file: VFile,
): Fault | null {
  const { url } = node;
  const noteFragment = (page: string, fragment: string) => {
    if (fragment === '') return;
    notesOf(file).fragments.push({ page, fragment: decoded(fragment), written: url, ...startOf(node) });
  };
  if (url.startsWith('#')) {
    noteFragment(idOf(record), url.slice(1));
    return null;
  }
  if (/^(https?:\/\/|mailto:)/i.test(url)) return null;
  if (/^[a-z][a-z0-9+.-]*:/i.test(url) || /^[/\\]{2}/.test(url)) return proseMessages.linkScheme(url);
  const [target = '', fragment] = url.split('#');
  const found = targetOf(decoded(target), record, context);
  if (found === null) return danglingFault(target, record, context);
  if (found.page !== null) noteFragment(found.page, fragment ?? '');
  const address = context.base + found.address;
  node.url = fragment === undefined ? address : `${address}#${fragment}`;
  return null;
}

/** What a link leads to: its address below the site's base, and the page's id or path; null for a file. */
interface Target {
  address: string;
  page: string | null;
}

/** The record, capture, static file or page that a path names; null where nothing is meant. */
function targetOf(target: string, record: string, context: LinkContext): Target | null {
  if (target === '') return null;
  const fromRoot = withoutSlashes(target);
  const relative = resolveInside(record, target);
  const targets = [
    ...(relative === null ? [] : [publishedTarget(withoutSlashes(relative), context)]),
    publishedTarget(fromRoot, context),
    ...(target.startsWith('/') ? [siteTarget(fromRoot, context)] : []),
  ];
  return targets.find((one) => one !== null) ?? null;
}

const pageTarget = (page: string): Target => ({ address: page === '' ? '' : `${page}/`, page });
const fileTarget = (address: string): Target => ({ address, page: null });

/** What a path in the journal is published as. */
function publishedTarget(file: string, { files, ids, captures }: LinkContext): Target | null {
  const id = idOf(file);
  if (ids.has(id)) return pageTarget(id);
  if (captures.has(file)) return fileTarget(downloadOf(file));
  return files.has(file) && file.startsWith('static/') ? fileTarget(file.slice('static/'.length)) : null;
}

/** A page or static file that is named by its place on the site. */
function siteTarget(fromRoot: string, { files }: LinkContext): Target | null {
  if (pages.has(fromRoot)) return pageTarget(fromRoot);
  return files.has(`static/${fromRoot}`) ? fileTarget(fromRoot) : null;
}

function danglingFault(target: string, record: string, { files, ids, captures }: LinkContext): Fault {
  const fromRoot = withoutSlashes(decoded(target));
  const resolved = target.startsWith('/') ? fromRoot : resolveInside(record, decoded(target));
  if (resolved === null) return proseMessages.linkOutside(target);
  if (files.has(resolved)) return proseMessages.linkUnpublished(target);
  const linkable = [...ids, ...captures, ...[...files].filter((file) => file.startsWith('static/'))];
  const near = [resolved, fromRoot].flatMap((name) => nearestPaths(idOf(withoutSlashes(name)), linkable));
  return proseMessages.linkDangling(target, target === '' ? [] : [...new Set(near)]);
}

/** Makes a picture's path explicitly relative, as the image pipeline wants it, and notes its file. */
function settlePicture(
  node: Image | Definition,
  record: string,
  { files }: LinkContext,
  prose: VFile,
): Fault | null {
  const { url } = node;
  if (/^([a-z][a-z0-9+.-]*:|[/\\]{2})/i.test(url)) return proseMessages.imageRemote(url);
  const target = url.startsWith('/') ? withoutSlashes(url) : resolveInside(record, decoded(url));
  if (target === null) return proseMessages.linkOutside(url);
  if (url.startsWith('/') || !files.has(target)) {
    node.url = encodeURI(decoded(url));
    return proseMessages.imageMissing(url, nearPictures(target, record, files));
  }
  if (!pictureFiles.test(target)) return proseMessages.imageKind(url);
  notesOf(prose).pictures.push({ written: url, file: target, ...startOf(node) });
  if (!url.startsWith('.')) node.url = `./${url}`;
  return null;
}

/** Pictures of a similar name, as the record would write them. */
function nearPictures(target: string, record: string, files: ReadonlySet<string>): string[] {
  const known = [...files].filter((file) => pictureFiles.test(file));
  return nearestPaths(target, known).map((file) => path.posix.relative(path.posix.dirname(record), file));
}

const withoutSlashes = (target: string) => target.replaceAll(/^\/+|\/+$/g, '');

/** The path without its percent signs; as it stands where they mean nothing. */
function decoded(url: string): string {
  try {
    return decodeURI(url);
  } catch {
    return url;
  }
}
