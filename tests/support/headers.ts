/** An address of a headers file, where `*` stands for any rest, and the headers sent with what it fits. */
interface Rule {
  fits(path: string): boolean;
  headers: [name: string, value: string][];
}

/** Reads a headers file as static hosts do: an address, then its headers, indented by two spaces. */
export function readHeaders(text: string): Rule[] {
  const rules: Rule[] = [];
  for (const line of text.split('\n').filter((one) => one.trim() !== '')) {
    const [name = '', ...value] = line.trim().split(': ');
    if (line.startsWith('  ')) rules.at(-1)?.headers.push([name.toLowerCase(), value.join(': ')]);
    else rules.push({ fits: fitting(line), headers: [] });
  }
  return rules;
}

const fitting = (address: string) => (path: string) =>
  address.endsWith('*') ? path.startsWith(address.slice(0, -1)) : path === address;

/** The headers of a path; what several rules say of one is joined by commas. */
export function headersFor(path: string, rules: readonly Rule[]): Map<string, string> {
  const joined = new Map<string, string>();
  for (const [name, value] of rules.filter(({ fits }) => fits(path)).flatMap(({ headers }) => headers)) {
    const before = joined.get(name);
    joined.set(name, before === undefined ? value : `${before}, ${value}`);
  }
  return joined;
}
