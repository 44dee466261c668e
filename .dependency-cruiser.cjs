/**
 * The folder rule: the folders of src/ in the order in which data walks through them. A folder imports only from itself
 * and from those before it, and core/ knows neither Node nor any package but two: geodesics and the magnetic model.
 */
const order = [
  'core/numerics',
  'core/quantities',
  'core/air',
  'core/earth',
  'core/aircraft',
  'core/flight',
  'core/phases',
  'core/optimise',
  'core/plan',
  'core/airborne',
  'files',
  'present',
  'service',
  'cli',
  'web',
];

const oneWay = order.slice(0, -1).map((folder, at) => ({
  name: `${folder}-looks-back-only`,
  comment: `src/${folder} stands before ${order.slice(at + 1).join(', ')} and imports none of them.`,
  severity: 'error',
  from: { path: `^src/${folder}/` },
  to: { path: order.slice(at + 1).map((later) => `^src/${later}/`) },
}));

module.exports = {
  forbidden: [
    ...oneWay,
    {
      name: 'every-folder-is-in-the-order',
      comment:
        'A new folder of src/ takes its place in the order of .dependency-cruiser.cjs and in src/README.md.',
      severity: 'error',
      from: {},
      to: { path: '^src/', pathNot: order.map((folder) => `^src/${folder}/`) },
    },
    {
      name: 'core-is-pure',
      comment: 'core/ runs in a browser and in Node alike: no Node modules.',
      severity: 'error',
      from: { path: '^src/core/' },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'disk-in-one-place',
      comment: 'files/ and present/ run in a browser too: what reads a disk stands in files/disk.ts.',
      severity: 'error',
      from: { path: '^src/(files|present)/', pathNot: '^src/files/disk.ts$' },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'core-stands-alone',
      comment:
        'The packages that core/ uses are plain functions of numbers: geodesics and the magnetic model.',
      severity: 'error',
      from: { path: '^src/core/' },
      to: { path: 'node_modules/', pathNot: 'node_modules/(geographiclib-geodesic|geomagnetism)/' },
    },
    { name: 'no-circle', severity: 'error', from: {}, to: { circular: true } },
    {
      name: 'resolves',
      comment: 'The plan of the demonstration is made by the build.',
      severity: 'error',
      from: {},
      to: { couldNotResolve: true, pathNot: '[.]cache/web/' },
    },
    {
      name: 'product-without-tests',
      comment: 'What is shipped imports neither tests nor benchmarks nor development packages.',
      severity: 'error',
      from: { path: '^src/' },
      to: { path: ['^(test|bench|scripts)/'] },
    },
    {
      name: 'product-without-development-packages',
      comment: 'The application for browsers is bundled whole: its packages are needed for the build alone.',
      severity: 'error',
      from: { path: '^src/', pathNot: '^src/web/' },
      to: { dependencyTypes: ['npm-dev'], dependencyTypesNot: ['type-only'] },
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['node', 'import', 'types', 'default'],
    },
  },
};
