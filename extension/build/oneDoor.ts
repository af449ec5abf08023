// Lets all of our files import a CommonJS library through one module.
//
// The bundler copies every name of such a library anew for each file that imports it: twenty files times a thousand names, at
// every start.

import type { Plugin } from 'esbuild';

const NAMESPACE = 'one-door';

export function oneDoor(library: string): Plugin {
  return {
    name: NAMESPACE,
    setup(build) {
      build.onResolve({ filter: new RegExp(`^${library}$`) }, ({ namespace, importer }) =>
        namespace === NAMESPACE || importer.includes('/node_modules/')
          ? undefined
          : { path: library, namespace: NAMESPACE, sideEffects: false },
      );
      build.onLoad({ filter: /.*/, namespace: NAMESPACE }, () => ({
        contents: `export * from '${library}';`,
        resolveDir: build.initialOptions.absWorkingDir ?? '.',
      }));
    },
  };
}
