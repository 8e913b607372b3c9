import { isRunnableDevEnvironment, type ViteDevServer } from 'vite';

/** Has the MDX records compiled again where they are next asked for, as their links depend on which records there are. */
export function compileAnew(server: ViteDevServer): void {
  for (const environment of Object.values(server.environments)) {
    const { moduleGraph } = environment;
    for (const module of inMdx(moduleGraph.fileToModulesMap)) moduleGraph.invalidateModule(module);
    if (!isRunnableDevEnvironment(environment)) continue;
    const { evaluatedModules } = environment.runner;
    for (const module of inMdx(evaluatedModules.fileToModulesMap)) evaluatedModules.invalidateModule(module);
  }
}

const inMdx = <Module>(files: ReadonlyMap<string, Set<Module>>): Module[] =>
  [...files].flatMap(([file, modules]) => (file.endsWith('.mdx') ? [...modules] : []));
