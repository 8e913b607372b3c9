const named: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"', apos: "'" };

/** Text of HTML with its character references resolved; names other than those of its own signs are left. */
export function decoded(text: string): string {
  return text.replaceAll(/&(?:#x([0-9a-f]{1,6})|#(\d{1,7})|(\w+));/gi, (whole, hex, decimal, name) => {
    if (name !== undefined) return named[name] ?? whole;
    const point = hex === undefined ? Number(decimal) : Number.parseInt(hex, 16);
    return point <= 0x10ffff ? String.fromCodePoint(point) : '';
  });
}
