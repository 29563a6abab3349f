/** Import direction: tests -> scripts -> src; ui -> app -> ports -> core; adapters -> ports -> core; only main.tsx and cli see adapters. */
const outside = (pathNot) => ({ path: '^src/', pathNot })

/**
 * The rooms of a folder, lowest first: a room imports from rooms above it in this list only. A new room takes the
 * lowest place that its imports allow.
 */
const CORE = [
  'basics',
  'lock',
  'text',
  'time',
  'order',
  'policy',
  'bloodLimit',
  'catalogue',
  'series',
  'flow',
  'plan',
  'protocol',
  'scan',
  'voice',
  'log',
  'hub',
  'record',
  'bench',
  'courier',
  'day',
  'fhir',
  'handOver',
  'figures',
  'scenario',
]
const APP = [
  'hub',
  'site',
  'order',
  'intake',
  'view',
  'voice',
  'draw',
  'lock',
  'figures',
  'appApi.ts',
  'appDeps.ts',
  'record',
  'series',
  'day',
  'bench',
  'courier',
  'handOver',
  'actions',
  'appServices.ts',
  'stateAtStart.ts',
  'createApp.ts',
]

/** One rule a room: nothing above it; and one for rooms that have no place in the list. */
const climbing = (folder, rooms) => [
  ...rooms.slice(0, -1).map((room, i) => ({
    name: `${folder.split('/').at(-1)}-${room}-imports-nothing-above-it`,
    severity: 'error',
    comment: `the order of the rooms of ${folder}: ${rooms.join(' < ')}`,
    from: { path: `^${folder}/${room}(/|$)` },
    to: { path: `^${folder}/(${rooms.slice(i + 1).join('|')})(/|$)` },
  })),
  {
    name: `${folder.split('/').at(-1)}-rooms-have-a-place`,
    severity: 'error',
    comment: `give the room its place in the list in .dependency-cruiser.cjs: ${rooms.join(' < ')}`,
    from: {},
    to: { path: `^${folder}/`, pathNot: `^${folder}/(${rooms.join('|')})(/|$)` },
  },
]

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
      from: {
        path: '^src/',
        pathNot:
          '^src/(main\\.tsx?$|(hubWiring|handOverWiring)\\.ts$|[^/]+\\.worker\\.ts$|adapters/|cli/)',
      },
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
      name: 'no-test-code-in-scripts',
      severity: 'error',
      comment: 'tests import scripts, never the other way; what both need lives in src or scripts',
      from: { path: '^scripts/' },
      to: { path: '^tests/' },
    },
    ...climbing('src/core', CORE),
    ...climbing('src/app', APP),
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
