/** Import direction: ui -> app -> ports -> core; adapters -> ports -> core; only main.tsx and cli see adapters. */
const outside = (pathNot) => ({ path: '^src/', pathNot })
module.exports = {
  forbidden: [
    { name: 'no-circular', severity: 'error', from: {}, to: { circular: true } },
    {
      name: 'core-is-closed',
      severity: 'error',
      comment: 'core imports only core: no npm, no node',
      from: { path: '^src/core' },
      to: { pathNot: '^src/core' },
    },
    {
      name: 'ports-see-core-only',
      severity: 'error',
      from: { path: '^src/ports' },
      to: { pathNot: '^src/(ports|core)' },
    },
    {
      name: 'adapters-see-ports-and-core',
      severity: 'error',
      from: { path: '^src/adapters' },
      to: outside('^src/(adapters|ports|core)'),
    },
    {
      name: 'adapters-do-not-meet',
      severity: 'error',
      comment: 'one adapter family never imports another',
      from: { path: '^src/adapters/([^/]+)/' },
      to: { path: '^src/adapters/', pathNot: '^src/adapters/$1/' },
    },
    {
      name: 'app-has-no-react-no-adapters',
      severity: 'error',
      from: { path: '^src/app' },
      to: { path: '^src/(adapters|ui|cli)|node_modules/react' },
    },
    {
      name: 'ui-sees-app-and-core',
      severity: 'error',
      from: { path: '^src/ui' },
      to: { path: '^src/(adapters|ports|main|cli)' },
    },
    {
      name: 'only-main-and-cli-wire-adapters',
      severity: 'error',
      from: { path: '^src/', pathNot: '^src/(main\\.tsx?$|adapters/|cli/)' },
      to: { path: '^src/adapters' },
    },
    {
      name: 'nobody-imports-cli',
      severity: 'error',
      from: { path: '^src/', pathNot: '^src/cli/' },
      to: { path: '^src/cli' },
    },
    {
      name: 'no-test-code-in-src',
      severity: 'error',
      from: { path: '^src/' },
      to: { path: '^(tests|scripts)/' },
    },
    {
      name: 'no-dev-deps-in-src',
      severity: 'error',
      from: { path: '^src/', pathNot: '^src/cli/' },
      to: { dependencyTypes: ['npm-dev'], pathNot: '@types/|vite/client' },
    },
    {
      name: 'no-orphans',
      severity: 'error',
      from: {
        orphan: true,
        path: '^src/',
        pathNot: '(\\.d\\.ts|main\\.tsx?|\\.worker\\.ts|\\.worklet\\.ts|\\.json|\\.css|\\.csv)$',
      },
      to: {},
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
  },
}
