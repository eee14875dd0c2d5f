// The arrows between rooms (DEVELOPERS.md, "Rooms"): grid <- count <- logic <- route <- explain, grade <- lessons <-
// batch, and photo sees grid and count only. No cycles anywhere; the core entry never reaches a Node built-in.
const room = (name, allowed) => ({
  name: `${name}-sees-only-${allowed.join('-') || 'itself'}`,
  severity: 'error',
  from: { path: `^src/${name}/` },
  to: {
    path: '^src/',
    pathNot: [
      `^src/${name}/`,
      '^src/(errors|check-arguments|hex|limits|shape)\\.ts$',
      ...allowed.map((other) => `^src/${other}/`),
    ],
  },
})

module.exports = {
  forbidden: [
    { name: 'no-cycles', severity: 'error', from: {}, to: { circular: true } },
    room('grid', []),
    room('count', ['grid']),
    room('logic', ['grid', 'count']),
    room('route', ['grid', 'count', 'logic']),
    room('explain', ['grid', 'count', 'logic', 'route']),
    room('grade', ['grid', 'count', 'logic', 'route']),
    room('lessons', ['grid', 'count', 'logic', 'route', 'explain', 'grade']),
    room('photo', ['grid', 'count']),
    room('batch', ['grid', 'count', 'logic', 'route', 'explain', 'grade', 'lessons', 'photo']),
    {
      name: 'core-runs-anywhere',
      comment: 'gridreason itself must run in a browser: no Node built-ins, no native packages',
      severity: 'error',
      from: {
        path: '^src/(index\\.ts|errors\\.ts|check-arguments\\.ts|hex\\.ts|limits\\.ts|shape\\.ts|grid|count|logic|route|explain|grade|lessons)',
      },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'photos-run-in-browsers',
      comment: 'what only Node has is reached from photo.ts alone; the build replaces the modules of weights',
      severity: 'error',
      from: {
        path: '^src/(photo-browser\\.ts|photo/)',
        pathNot:
          '^src/photo/(platform/node|decode/(with-sharp|picture-file)|overlay/png|digits/tesseract-reader|weights/(digit-net|number-net|page-net|figure-net|page-context|entry-net)|platform/optional-packages)\\.ts$',
      },
      to: { dependencyTypes: ['core', 'npm', 'npm-dev', 'npm-peer'] },
    },
    {
      name: 'browsers-do-not-reach-node',
      severity: 'error',
      from: { path: '^src/photo-browser\\.ts$' },
      to: {
        reachable: true,
        path: '^src/photo/(node|platform/node|decode/(with-sharp|picture-file)|overlay/png|digits/tesseract-reader|platform/optional-packages)\\.ts$',
      },
    },
    {
      name: 'core-needs-no-package',
      severity: 'error',
      from: {
        path: '^src/(index\\.ts|errors\\.ts|check-arguments\\.ts|hex\\.ts|limits\\.ts|shape\\.ts|grid|count|logic|route|explain|grade|lessons)',
      },
      to: { path: 'node_modules' },
    },
    {
      name: 'zod-for-schemas-only',
      severity: 'error',
      from: { path: '^src/', pathNot: '^src/schemas(\\.ts|/)' },
      to: { path: ['node_modules/zod', '^src/schemas(\\.ts|/)'] },
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    tsConfig: { fileName: 'tsconfig.json' },
    tsPreCompilationDeps: true,
    enhancedResolveOptions: { extensions: ['.ts', '.js', '.json'] },
  },
}
