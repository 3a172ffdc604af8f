/** Who may import whom (the table in DEVELOPERS.md). */
const only = (name, from, to) => ({
  name,
  severity: 'error',
  from: { path: from },
  to: { pathNot: to },
});
const npm = (...names) => `^node_modules/(${names.join('|')})(/|$)`;
const zod = npm('zod');

module.exports = {
  forbidden: [
    { name: 'no-cycles', severity: 'error', from: {}, to: { circular: true } },
    {
      name: 'no-orphans',
      severity: 'error',
      from: {
        orphan: true,
        path: '^(app|lib|shared|data)/',
        pathNot: '\\.d\\.ts$|(page|layout|error|not-found)\\.tsx$|^app/_offline/service-worker\\.ts$',
      },
      to: {},
    },
    only('shared-reaches-zod-only', '^shared/', ['^shared/', zod]),
    only('statistics-reach-numerics-only', '^lib/statistics/', ['^lib/statistics/', npm('@stdlib')]),
    {
      ...only('engine', '^lib/engine/', []),
      to: { pathNot: ['^lib/engine/', '^shared/', npm('@duckdb', 'apache-arrow')], dependencyTypesNot: ['core'] },
    },
    only('records', '^lib/records/', [
      '^lib/records/',
      '^shared/',
      '^lib/engine/(engine|statement|arrow-decode)\\.ts$',
      zod,
      npm('apache-arrow', 'flatbuffers', 'hash-wasm', 'saxen', '@zip.js', 'hyparquet', 'hyparquet-compressors'),
    ]),
    only('lives', '^lib/lives/', [
      '^lib/lives/',
      '^data/default-procedure\\.json$',
      '^shared/',
      '^lib/engine/(engine|statement)\\.ts$',
      zod,
    ]),
    only('questions', '^lib/questions/', [
      '^lib/questions/',
      '^shared/',
      '^lib/engine/(engine|statement)\\.ts$',
      '^lib/lives/',
      '^lib/statistics/index\\.ts$',
      npm('hash-wasm'),
    ]),
    only('charts', '^lib/charts/', ['^lib/charts/', '^shared/', npm('vega-lite', 'vega', 'vega-interpreter')]),
    only('brief', '^lib/brief/', ['^lib/brief/', '^shared/', '^lib/charts/', npm('@zip.js')]),
    only('view', '^lib/view/', ['^lib/view/', '^shared/', zod]),
    {
      name: 'command-line-leaves-view',
      severity: 'error',
      from: { path: '^lib/cli/' },
      to: { path: '^(lib/view|app)/' },
    },
    {
      name: 'lib-never-app',
      severity: 'error',
      from: { path: '^lib/' },
      to: { path: '^(app/|node_modules/(react|react-dom|next)/)' },
    },
    { name: 'nothing-imports-tests', severity: 'error', from: { pathNot: '^tests/' }, to: { path: '^tests/' } },
    {
      name: 'vega-in-figure-only',
      severity: 'error',
      from: { path: '^app/', pathNot: '^app/_parts/figure' },
      to: { path: npm('vega', 'vega-embed', 'react-vega', 'vega-interpreter') },
    },
    {
      name: 'engine-in-state-only',
      severity: 'error',
      from: { path: '^app/', pathNot: '^app/_state/' },
      to: { path: '^lib/(engine|records|lives|questions)/', dependencyTypesNot: ['type-only'] },
    },
    {
      name: 'one-door-to-duckdb',
      severity: 'error',
      from: { pathNot: '^(lib/engine|tests)/' },
      to: { path: npm('@duckdb') },
    },
  ],
  options: {
    tsConfig: { fileName: 'tsconfig.json' },
    tsPreCompilationDeps: true,
    doNotFollow: { path: 'node_modules' },
    enhancedResolveOptions: { exportsFields: ['exports'], conditionNames: ['import', 'default', 'types'] },
  },
};
