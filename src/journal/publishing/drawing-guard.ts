import type { Fault } from '../../problem/index.ts';
import { drawingMessages as messages } from './drawing-messages.ts';

/** What keeps a drawing from being published, and the offset where it stands. */
export interface DrawingFault {
  offset: number;
  fault: Fault;
}

/** Elements that run code, bring in other documents, or change what others lead to. */
const refusedElements =
  /^(?:script|foreignobject|iframe|frame|embed|object|audio|video|link|meta|base|form|handler|listener|applet)$/i;
const animations = /^(?:set|animate\w*)$/i;
const addresses = /^(?:href|src|data|action|formaction|ping)$/i;

/** A place in the drawing itself, or a picture that is written out in it. */
const withinItself = /^\s*(?:#|data:image\/(?:png|jpeg|gif|webp);base64,)/i;

/**
 * Looks for what a drawing may not hold: scripts, event handlers, other documents, and addresses that lead out of it. A
 * drawing opened by itself is a page of the site, and what it runs would run there.
 * @source W3C, Scalable Vector Graphics (SVG) 2 (2018), sections 2.2 (processing modes) and 15 (scripting), from memory
 */
export function drawingFault(text: string): DrawingFault | null {
  let [end, inStyle] = [0, false];
  for (;;) {
    const open = text.indexOf('<', end);
    const fault = inStyle && styleFault(text, end, open);
    if (fault) return fault;
    if (open < 0) return null;
    const read = markup(text, open, inStyle);
    if ('fault' in read) return read;
    inStyle = read.inStyle ?? inStyle;
    end = read.end;
  }
}

/** The end of what was passed; and whether a style begins or ends there. */
type Read = { end: number; inStyle?: boolean } | DrawingFault;

/** Passes one comment, declaration or tag. */
function markup(text: string, open: number, inStyle: boolean): Read {
  if (text.startsWith('<!--', open)) return passed(text, open, '-->');
  if (text.startsWith('<![CDATA[', open)) return characters(text, open, inStyle);
  if (text.startsWith('<?', open)) return instruction(text, open);
  if (text.startsWith('<!', open)) return declaration(text, open);
  return tag(text, open);
}

function passed(text: string, open: number, close: string): Read {
  const end = text.indexOf(close, open);
  return end < 0 ? { offset: open, fault: messages.broken() } : { end: end + close.length };
}

function characters(text: string, open: number, inStyle: boolean): Read {
  const read = passed(text, open, ']]>');
  return 'fault' in read || !inStyle ? read : (styleFault(text, open, read.end) ?? read);
}

/** The declaration of XML may name an encoding, and only that which the drawing is read in. */
function instruction(text: string, open: number): Read {
  const read = passed(text, open, '?>');
  if ('fault' in read) return read;
  const written = text.slice(open, read.end);
  const isPlain =
    /^<\?xml\s/.test(written) && !/encoding\s*=\s*["'](?!utf-8["']|us-ascii["'])/i.test(written);
  return isPlain ? read : { offset: open, fault: messages.instruction() };
}

function declaration(text: string, open: number): Read {
  const end = text.indexOf('>', open);
  const written = text.slice(open, end + 1);
  if (end < 0) return { offset: open, fault: messages.broken() };
  return /[[\]]|<!entity/i.test(written) ? { offset: open, fault: messages.entities() } : { end: end + 1 };
}

const tagName = /<\/?([^\s<>/="']+)/y;
const attribute = /\s*([^\s<>/="']+)\s*=\s*("[^"<]*"|'[^'<]*')/y;
const tagEnd = /\s*\/?>/y;

function tag(text: string, open: number): Read {
  const name = localName(at(tagName, text, open)?.[1] ?? '');
  if (name === '') return { offset: open, fault: messages.broken() };
  if (refusedElements.test(name)) return { offset: open, fault: messages.element(name) };
  let end = tagName.lastIndex;
  for (;;) {
    const found = at(attribute, text, end);
    if (!found) break;
    const [whole, key = '', quoted = ''] = found;
    const fault = attributeFault(name, localName(key), quoted.slice(1, -1));
    if (fault) return { offset: end + whole.search(/\S/), fault };
    end = attribute.lastIndex;
  }
  const close = at(tagEnd, text, end)?.[0];
  if (close === undefined) return { offset: open, fault: messages.broken() };
  const isOpening = !text.startsWith('</', open) && !close.endsWith('/>');
  return { end: tagEnd.lastIndex, ...(/^style$/i.test(name) ? { inStyle: isOpening } : {}) };
}

function at(pattern: RegExp, text: string, place: number): RegExpExecArray | null {
  pattern.lastIndex = place;
  return pattern.exec(text);
}

/** A name without its prefix, which any document may choose for itself. */
const localName = (name: string) => name.slice(name.lastIndexOf(':') + 1);

function attributeFault(element: string, name: string, value: string): Fault | null {
  if (/^on[a-z]/i.test(name)) return messages.handler(name);
  if (addresses.test(name) && !withinItself.test(value)) return messages.address(name);
  const isChanged = animations.test(element) && /^attributename$/i.test(name);
  if (isChanged && /href|^on|^src$/i.test(value.replace(/^.*:/, ''))) return messages.handler(value);
  return leadsOut(value) ? messages.style() : null;
}

function styleFault(text: string, from: number, to: number): DrawingFault | null {
  const style = text.slice(from, to < 0 ? text.length : to);
  return leadsOut(style) ? { offset: from + style.search(/\S/), fault: messages.style() } : null;
}

/** Whether a text, read as a style, asks for anything but what stands in the drawing itself, or hides what it asks for. */
function leadsOut(written: string): boolean {
  const text = withoutReferences(written);
  if (/@import|image-set\s*\(|src\s*\(/i.test(text)) return true;
  const targets = [...text.matchAll(/url\s*\(\s*["']?/gi)];
  const leaves = targets.some(({ 0: found, index }) => !withinItself.test(text.slice(index + found.length)));
  return leaves || (text.includes('\\') && text.includes('('));
}

/** A text with the characters that it names by their numbers, and its quotes. */
function withoutReferences(text: string): string {
  return text
    .replaceAll(/&#(?:x([0-9a-f]+)|([0-9]+));/gi, (_, hex?: string, decimal?: string) => {
      const code = hex === undefined ? Number(decimal) : Number.parseInt(hex, 16);
      return code <= 0x10ffff ? String.fromCodePoint(code) : '';
    })
    .replaceAll(/&(?:quot|apos);/g, '"');
}
