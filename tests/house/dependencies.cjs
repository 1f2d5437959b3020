/**
 * Imports run one way: kiosk → src ← hub; demo and tests may import all; nothing imports them. Inside the kiosk:
 * routes → parts → state → link → src. Only hub/main.ts names concrete adapters.
 */
const from = (path) => ({ path: `^${path}` });
/** @type {import('dependency-cruiser').IConfiguration} */
module.exports = {
  forbidden: [
    { name: 'no-cycles', severity: 'error', from: {}, to: { circular: true } },
    {
      name: 'src-is-alone',
      comment: 'The domain knows neither hub nor kiosk, neither Node nor the browser.',
      severity: 'error',
      from: from('src/'),
      to: { path: '^(hub|kiosk|demo|tests)/' },
    },
    { name: 'src-has-no-node', severity: 'error', from: from('src/'), to: { dependencyTypes: ['core'] } },
    {
      name: 'src-takes-few-packages',
      comment: 'What src imports lands in every tablet.',
      severity: 'error',
      from: from('src/'),
      to: {
        dependencyTypes: ['npm', 'npm-dev', 'npm-peer'],
        pathNot: 'node_modules/(zod|date-fns|@date-fns/tz|@stdlib|@types|papaparse|ical.js)/',
      },
    },
    {
      name: 'only-exchange-reads-files',
      comment:
        'Boards must not carry what reads tables and calendars: only the import screen and the hub load it.',
      severity: 'error',
      from: { path: '^src/', pathNot: '^src/exchange/' },
      to: { path: 'node_modules/(papaparse|ical.js)/' },
    },
    { name: 'hub-not-kiosk', severity: 'error', from: from('hub/'), to: { path: '^(kiosk|demo|tests)/' } },
    { name: 'kiosk-not-hub', severity: 'error', from: from('kiosk/'), to: { path: '^(hub|demo|tests)/' } },
    {
      name: 'kiosk-parts-down',
      severity: 'error',
      from: from('kiosk/src/lib/parts/'),
      to: { path: '^kiosk/src/routes/' },
    },
    {
      name: 'kiosk-state-down',
      severity: 'error',
      from: from('kiosk/src/lib/state/'),
      to: { path: '^kiosk/src/(routes|lib/parts)/' },
    },
    {
      name: 'kiosk-link-down',
      severity: 'error',
      from: from('kiosk/src/lib/link/'),
      to: { path: '^kiosk/src/(routes|lib/parts|lib/state)/' },
    },
    {
      name: 'demo-not-tests',
      severity: 'error',
      from: from('demo/'),
      to: { path: '^tests/' },
    },
    {
      name: 'nothing-dev-in-what-runs',
      severity: 'error',
      from: { path: '^(src|hub|demo)/' },
      to: { dependencyTypes: ['npm-dev'], dependencyTypesNot: ['type-only'] },
    },
    {
      name: 'resolvable',
      severity: 'error',
      from: {},
      to: { couldNotResolve: true, pathNot: '^(\\$app|\\$lib|\\$types)' },
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    exclude: { path: '(kiosk/(build|\\.svelte-kit)|\\$types)' },
    tsPreCompilationDeps: true,
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['import', 'node', 'default', 'types'],
    },
  },
};
