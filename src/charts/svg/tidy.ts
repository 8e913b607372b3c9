import type { SvgElement } from './tree.ts';

/** Attributes that say nothing a reader or a browser needs. */
const needless = /^(class|role|aria-.*|pointer-events|xmlns:xlink|version|stroke-miterlimit|font-family)$/;

/** Attributes that state what holds anyway. */
const defaults: Record<string, string> = {
  opacity: '1',
  'stroke-width': '1',
  'stroke-opacity': '1',
  'fill-opacity': '1',
  'text-anchor': 'start',
  'font-weight': 'normal',
  transform: 'translate(0,0)',
};

const rounded = new Set([
  'd',
  'transform',
  'x',
  'y',
  'x1',
  'y1',
  'x2',
  'y2',
  'width',
  'height',
  'stroke-width',
  'dy',
]);
const inherited = [
  'stroke',
  'stroke-dasharray',
  'stroke-width',
  'stroke-linejoin',
  'fill',
  'text-anchor',
  'clip-path',
];

/** Takes out of a drawing what does not show, rounds its numbers and gathers what neighbours share. */
export function tidy(top: SvgElement, fontSize: number): SvgElement {
  for (const [key, value] of top.attributes) {
    if (isNeedless(key, value, fontSize)) top.attributes.delete(key);
    else if (rounded.has(key)) top.attributes.set(key, roundNumbers(value));
  }
  top.children = top.children.flatMap((child): (SvgElement | string)[] =>
    typeof child === 'string' ? [child] : tidyChild(child, fontSize),
  );
  if (top.name === 'g') gather(top);
  return top;
}

/** Numbers to one decimal, `-0` as `0`. */
function roundNumbers(text: string): string {
  return text.replace(/-?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?/g, (number) =>
    String(Math.round(Number(number) * 10) / 10 || 0),
  );
}

function tidyChild(child: SvgElement, fontSize: number): SvgElement[] {
  if (isInvisible(child)) return [];
  tidy(child, fontSize);
  if (child.name !== 'g') return [child];
  if (child.children.length === 0) return [];
  return child.attributes.size === 0 ? child.children.filter((inner) => typeof inner !== 'string') : [child];
}

function isNeedless(key: string, value: string, fontSize: number): boolean {
  return needless.test(key) || defaults[key] === value || (key === 'font-size' && value === `${fontSize}px`);
}

/** Frames without a stroke or fill of their own, and text without characters. */
function isInvisible({ name, attributes, children }: SvgElement): boolean {
  if (name === 'text') return children.length === 0;
  if (attributes.get('fill') === 'transparent') return true;
  const frame = /^(background|foreground)$/.test(attributes.get('class') ?? '');
  return frame && !attributes.has('stroke') && !attributes.has('fill');
}

function gather(group: SvgElement): void {
  const elements = group.children.filter((child) => typeof child !== 'string');
  mergeStrokes(group, elements);
  hoist(
    group,
    group.children.filter((child) => typeof child !== 'string'),
  );
}

/** Moves attributes that all children have in common to their group. */
function hoist(group: SvgElement, children: readonly SvgElement[]): void {
  const [first] = children;
  if (first === undefined || (children.length < 2 && first.name !== 'g')) return;
  for (const key of inherited) {
    const value = first.attributes.get(key);
    const shared = value !== undefined && children.every(({ attributes }) => attributes.get(key) === value);
    if (!shared || group.attributes.has(key)) continue;
    group.attributes.set(key, value);
    for (const { attributes } of children) attributes.delete(key);
  }
}

/** Straight strokes of one style become one path. */
function mergeStrokes(group: SvgElement, children: readonly SvgElement[]): void {
  const styles = new Map<string, SvgElement>();
  if (children.some(({ name }) => name !== 'line')) return;
  for (const { attributes } of children) {
    const style = new Map([...attributes].filter(([key]) => !/^(transform|x2|y2)$/.test(key)));
    const key = JSON.stringify([...style]);
    const path = styles.get(key) ?? { name: 'path', attributes: style.set('d', ''), children: [] };
    path.attributes.set('d', `${path.attributes.get('d')}${strokePath(attributes)}`);
    styles.set(key, path);
  }
  group.children = [...styles.values()];
}

function strokePath(attributes: ReadonlyMap<string, string>): string {
  const start = /translate\(([^)]*)\)/.exec(attributes.get('transform') ?? '')?.[1] ?? '0,0';
  return `M${start}l${attributes.get('x2') ?? 0},${attributes.get('y2') ?? 0}`;
}
