import { describe, expect, it } from 'vitest';
import { hash } from '../../src/charts/hash.ts';
import { placeholder, renumberClips } from '../../src/charts/svg/ids.ts';
import { tidy } from '../../src/charts/svg/tidy.ts';
import { escapeText, readSvg, writeSvg } from '../../src/charts/svg/tree.ts';

const tidied = (markup: string) => writeSvg(tidy(readSvg(markup), 13));

describe('hash(text)', () => {
  // Published test values of 32-bit FNV-1a (from memory).
  it.each([
    ['', '811c9dc5'],
    ['a', 'e40c292c'],
    ['foobar', 'bf9cf968'],
  ])('of "%s" is %s', (text, expected) => {
    expect(hash(text)).toBe(expected);
  });
});

describe('readSvg and writeSvg', () => {
  it('give back what they were given', () => {
    const markup =
      '<svg a="1"><g b="x y"><path d="M0,0"/><text>5 &lt; 6 &amp; <tspan>7</tspan></text></g></svg>';
    expect(writeSvg(readSvg(markup))).toBe(markup);
  });

  it('escape what text must not hold', () => {
    expect(escapeText('<a href="x">&')).not.toMatch(/[<>"]|&(?!#)/);
  });
});

describe('tidy', () => {
  it('drops roles, classes, defaults and frames that do not show', () => {
    const markup =
      '<svg><g class="mark-group" role="graphics-object" aria-label="x"><path class="background" d="M0,0h1Z"/>' +
      '<rect width="9" height="9" fill="transparent"/><text class="t" text-anchor="start" font-size="13px" opacity="1">a</text></g></svg>';
    expect(tidied(markup)).toBe('<svg><text>a</text></svg>');
  });

  it('keeps a frame that has a fill, and an opacity that is not the default', () => {
    const markup =
      '<svg><path class="background" fill="#123" d="M0,0h1Z"/><path opacity="0.5" d="M1,1"/></svg>';
    expect(tidied(markup)).toBe('<svg><path fill="#123" d="M0,0h1Z"/><path opacity="0.5" d="M1,1"/></svg>');
  });

  it('rounds coordinates to one decimal', () => {
    expect(tidied('<svg><path d="M0.04,-0.04L12.345,6.789e-7"/></svg>')).toBe(
      '<svg><path d="M0,0L12.3,0"/></svg>',
    );
  });

  it('joins straight strokes of one style to one path at the same places', () => {
    const line = (x: number, stroke: string) =>
      `<line transform="translate(${x},5)" x2="0" y2="20" stroke="${stroke}"/>`;
    expect(tidied(`<svg><g>${line(1, 'red')}${line(2, 'blue')}${line(3, 'red')}</g></svg>`)).toBe(
      '<svg><path stroke="red" d="M1,5l0,20M3,5l0,20"/><path stroke="blue" d="M2,5l0,20"/></svg>',
    );
  });

  it('moves what all members of a group share to the group', () => {
    expect(tidied('<svg><g><text fill="red" x="1">a</text><text fill="red" x="2">b</text></g></svg>')).toBe(
      '<svg><g fill="red"><text x="1">a</text><text x="2">b</text></g></svg>',
    );
  });
});

describe('renumberClips', () => {
  const drawing = (first: number) =>
    `<svg><g clip-path="url(#clip${first + 2})"/><g clip-path="url(#clip${first})"/><defs>` +
    [0, 1, 2]
      .map((i) => `<clipPath id="clip${first + i}"><rect width="${i === 1 ? 5 : 9}"/></clipPath>`)
      .join('') +
    '</defs></svg>';
  const renumbered = (markup: string) => {
    const tree = readSvg(markup);
    renumberClips(tree);
    return writeSvg(tree);
  };

  it('gives names that do not depend on what was drawn before', () => {
    expect(renumbered(drawing(7))).toBe(renumbered(drawing(1)));
  });

  it('makes one of equal clip paths and drops those that are not used', () => {
    const name = `${placeholder}-0`;
    expect(renumbered(drawing(1))).toBe(
      `<svg><g clip-path="url(#${name})"/><g clip-path="url(#${name})"/><defs><clipPath id="${name}"><rect width="9"/></clipPath></defs></svg>`,
    );
  });
});
