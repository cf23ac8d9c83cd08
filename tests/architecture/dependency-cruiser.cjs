/** The one-way flow of the house, checked by a command. */
module.exports = {
  forbidden: [
    {
      name: 'models-are-pure',
      comment: 'models/ imports only models/, zod and simple-statistics',
      severity: 'error',
      from: { path: '^models/' },
      to: { pathNot: '^models/|^node_modules/(zod|simple-statistics)/' },
    },
    {
      name: 'web-sees-web-and-models',
      severity: 'error',
      from: { path: '^web/', pathNot: 'vite\\.config\\.ts$' },
      to: { path: '^(server|tests)/' },
    },
    {
      name: 'web-packages',
      severity: 'error',
      from: { path: '^web/', pathNot: 'vite\\.config\\.ts$' },
      to: {
        path: '^node_modules/',
        pathNot:
          '^node_modules/(preact|preact-iso|chart\\.js|chartjs-plugin-annotation|@fontsource|zod|simple-statistics|vite)/',
      },
    },
    { name: 'server-not-web', severity: 'error', from: { path: '^server/' }, to: { path: '^(web|tests)/' } },
    {
      name: 'nothing-imports-tests',
      severity: 'error',
      from: { pathNot: '^tests/' },
      to: { path: '^tests/' },
    },
    {
      name: 'sql-only-in-store',
      severity: 'error',
      from: { path: '^server/', pathNot: '^server/store/' },
      to: { path: '^node_modules/(better-sqlite3|kysely)/' },
    },
    {
      name: 'files-only-in-files-cli-and-store',
      severity: 'error',
      from: { path: '^server/(routes|services)/' },
      to: { path: '^(node:)?fs(/promises)?$' },
    },
    {
      name: 'no-file-that-nothing-uses',
      severity: 'error',
      from: { path: '^(models|server|web)/', pathNot: '\\.d\\.mts$', orphan: true },
      to: {},
    },
    {
      name: 'no-circles',
      severity: 'error',
      from: { path: '^(models|server|web)/' },
      to: { circular: true },
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: `${__dirname}/tsconfig.imports.json` },
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['import', 'require', 'node', 'types'],
    },
  },
};
