// Who may import whom. Dependencies point one way: grammar <- core <- output, features <- project <- node, browser, cli.
const only = (name, from, to, comment) => ({
  name,
  comment,
  severity: 'error',
  from: { path: from },
  to: { path: '^(grammar|server|client|tests)/', pathNot: to },
});

module.exports = {
  forbidden: [
    { name: 'no-cycles', severity: 'error', from: {}, to: { circular: true, viaOnly: { dependencyTypesNot: ['type-only'] } } },
    only('grammar-stands-alone', '^grammar/', '^grammar/', 'Text and tree know nothing of baking, editors or files.'),
    only('core-knows-the-tree', '^server/core/', '^(grammar|server/core)/', 'Arithmetic over plain data: no protocol, no files.'),
    only('output-renders-models', '^server/output/', '^(grammar|server/core|server/output)/', 'A model in, text out.'),
    only('features-answer-questions', '^server/features/', '^(grammar|server/core|server/output|server/features|server/project)/|^server/requests\\.ts$', 'A project and a place in, a protocol value out.'),
    only('project-holds-files', '^server/project/', '^(grammar|server/core|server/project)/', 'Files and what they resolve to.'),
    only('client-talks-by-protocol', '^client/', '^client/|^server/requests\\.ts$', 'The client shares the types of custom requests and nothing else.'),
    {
      name: 'grammar-through-its-door',
      comment: 'Other folders import grammar/index, not its rooms; the tree and nearness of words can be had without the parser.',
      severity: 'error',
      from: { path: '^(server|client)/' },
      to: { path: '^grammar/', pathNot: '^grammar/(index|tree|near)\\.ts$' },
    },
    {
      name: 'features-are-siblings',
      comment: 'What two features share lives in features/shared or below.',
      severity: 'error',
      from: { path: '^server/features/([^/]+)\\.ts$' },
      to: { path: '^server/features/[^/]+\\.ts$', pathNot: '^server/features/(shared|\\$1)' },
    },
    {
      name: 'rules-are-siblings',
      comment: 'A check does not lean on another check.',
      severity: 'error',
      from: { path: '^server/core/checks/rules/' },
      to: { path: '^server/core/checks/rules/' },
    },
    {
      name: 'no-node-in-the-pure-rooms',
      severity: 'error',
      from: { path: '^(grammar|server/(core|output|features|project|browser\\.ts|connection))', pathNot: '\\.mjs$' },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'no-protocol-in-the-core',
      severity: 'error',
      from: { path: '^(grammar|server/(core|output|project))/' },
      to: { path: 'node_modules/vscode' },
    },
    { name: 'nothing-imports-tests', severity: 'error', from: { path: '^(grammar|server|client)/' }, to: { path: '^tests/' } },
    { name: 'everything-resolves', severity: 'error', from: {}, to: { couldNotResolve: true, pathNot: '^vscode$' } },
    {
      name: 'nothing-left-over',
      comment: 'A module that nobody imports and that is no entry.',
      severity: 'error',
      from: { orphan: true, path: '^(grammar|server|client)/', pathNot: '\\.d\\.ts$|generate\\.mjs$' },
      to: {},
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    enhancedResolveOptions: { exportsFields: ['exports'], conditionNames: ['import', 'require', 'node', 'browser', 'default', 'types'] },
  },
};
