// npm run compare-r: holds the functions of src/statistics against R, where Rscript is installed. Not part of npm test.
// R computes each figure by another way where it has one: a sum, an integral and a root, or its own test.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'esbuild';

const root = fileURLToPath(new URL('..', import.meta.url));

const found = spawnSync('Rscript', ['--version'], { encoding: 'utf8' });
if (found.error || found.status !== 0) {
  process.stdout.write(
    'R is not installed here (there is no Rscript on the path), so nothing was compared.\nOn Debian: apt-get install r-base-core. Then run the command again.\n',
  );
  process.exit(0);
}

const modules = [
  'acceptance-plan',
  'capability-bounds',
  'clopper-pearson',
  'descriptive',
  'mean-estimate',
  'noncentral-t',
  'order-statistics',
  'shapiro-wilk',
  'success-run',
  't-test',
  't-test-power',
  'tolerance-factor',
  'variables-plan',
];

const folder = mkdtempSync(join(tmpdir(), 'plinth-compare-r-'));
process.on('exit', () => rmSync(folder, { recursive: true, force: true }));
await build({
  absWorkingDir: root,
  stdin: {
    contents: modules.map((name) => `export * from './src/statistics/${name}.ts';`).join('\n'),
    resolveDir: root,
  },
  outfile: join(folder, 'statistics.mjs'),
  bundle: true,
  format: 'esm',
  platform: 'node',
  banner: {
    js: "import { createRequire as plinthRequire } from 'node:module'; const require = plinthRequire(import.meta.url);",
  },
  logLevel: 'warning',
});
const ours = await import(pathToFileURL(join(folder, 'statistics.mjs')).href);

const value = (outcome) => {
  if (!outcome.ok) throw new Error(outcome.reason);
  return outcome.value;
};

// R functions of more than one line. The tolerances of integrate and uniroot are near what doubles allow.
const prelude = `
options(digits = 17, warn = -1)
one_sided <- function(n, p, g) uniroot(function(k) pt(k * sqrt(n), n - 1, qnorm(p) * sqrt(n)) - g,
  c(qnorm(p) - 5, 60), tol = 1e-14)$root
reach <- function(x, p) uniroot(function(r) pnorm(x + r) - pnorm(x - r) - p, c(0, x + 12), tol = 1e-14)$root
two_sided <- function(n, p, g) {
  fails <- function(k) integrate(function(z) sapply(z, function(each)
    2 * dnorm(each) * pchisq((n - 1) * (reach(each / sqrt(n), p) / k)^2, n - 1)), 0, 9,
    rel.tol = 1e-11, subdivisions = 500)$value
  uniroot(function(k) fails(k) - (1 - g), c(qnorm((1 + p) / 2), 60), tol = 1e-12)$root
}
smallest <- function(g, r, c) { n <- c + 1; while (pbinom(c, n, 1 - r) > (1 - g) * (1 + 1e-12)) n <- n + 1; n }
lot_plan <- function(N, D, g, c) { n <- c + 1; while (phyper(c, D, N - D, n) > (1 - g) * (1 + 1e-12)) n <- n + 1; n }
between <- function(n, k, a, b) {
  f <- n - 1
  inside <- function(s) pmax(0, pnorm(sqrt(n) * (b - k * s)) - pnorm(-sqrt(n) * (a - k * s)))
  integrate(function(s) inside(s) * dchisq(f * s^2, f) * 2 * f * s, 0, min((a + b) / (2 * k), 10),
    rel.tol = 1e-12, subdivisions = 1000)$value
}
ppk_bound <- function(ppk, n, g) uniroot(function(true) pt(3 * sqrt(n) * ppk, n - 1, 3 * sqrt(n) * true) - g,
  c(0, ppk), tol = 1e-13)$root
first <- c(42.01, 43.97, 44.35, 44.86, 45.18, 47.25, 48.08, 49.76, 50.67, 51.53, 53.01, 54.57, 58.39, 64.71)
second <- c(40.2, 44.1, 43.3, 47.9, 41.6, 45.0, 46.8, 39.9, 48.3)
`;
const first = [
  42.01, 43.97, 44.35, 44.86, 45.18, 47.25, 48.08, 49.76, 50.67, 51.53, 53.01, 54.57, 58.39, 64.71,
];
const second = [40.2, 44.1, 43.3, 47.9, 41.6, 45.0, 46.8, 39.9, 48.3];
const groups = [first, second].map((values) => value(ours.summariseGroup(values)));
const welch = value(ours.welchDifference(groups[0], groups[1]));
const pooled = value(ours.pooledDifference(groups[0], groups[1]));
const mean = value(ours.oneSampleMean(groups[0]));
const shapiro = value(ours.shapiroWilkTest(first));

/** Of each: what it is, our figure, the expression in R, and how far they may differ in proportion. */
const cases = [
  ...[
    [5, 0.9, 0.95],
    [10, 0.95, 0.95],
    [15, 0.99, 0.9],
    [30, 0.99, 0.95],
    [59, 0.95, 0.95],
    [100, 0.999, 0.99],
  ].flatMap(([sampleSize, coverage, confidence]) => {
    const required = { sampleSize, coverage, confidence };
    const given = `${sampleSize}, ${coverage}, ${confidence}`;
    return [
      [
        `one-sided tolerance factor, n, R, C = ${given}`,
        ours.oneSidedToleranceFactor(required),
        `one_sided(${given})`,
        1e-8,
      ],
      [
        `two-sided tolerance factor, n, R, C = ${given}`,
        ours.twoSidedToleranceFactor(required),
        `two_sided(${given})`,
        1e-8,
      ],
    ];
  }),
  ...[
    [0.95, 0.95, 0],
    [0.95, 0.95, 1],
    [0.95, 0.99, 0],
    [0.9, 0.99, 3],
    [0.99, 0.9, 2],
  ].map(([confidence, reliability, failures]) => [
    `attribute plan, C, R, c = ${confidence}, ${reliability}, ${failures}`,
    ours.successRunSampleSize({ confidence, reliability, failures }),
    `smallest(${confidence}, ${reliability}, ${failures})`,
    0,
  ]),
  [
    'lot of 500 with 20 nonconforming, C = 0.95, c = 1',
    ours.smallestLotPlan({ lotSize: 500, nonconforming: 20, confidence: 0.95, acceptanceNumber: 1 })
      .sampleSize,
    'lot_plan(500, 20, 0.95, 1)',
    0,
  ],
  ...[
    [0, 30],
    [2, 50],
    [7, 125],
  ].flatMap(([count, sampleSize]) =>
    ['lower', 'upper'].map((side, index) => [
      `Clopper-Pearson ${side} limit, ${count} of ${sampleSize}, 95 %`,
      ours.clopperPearsonLimits({ count, sampleSize, confidence: 0.95, sides: 'both' })[side],
      `binom.test(${count}, ${sampleSize})$conf.int[${index + 1}]`,
      1e-9,
    ]),
  ),
  [
    'confidence of the second smallest of 93 for 95 %',
    ours.rankConfidence({ sampleSize: 93, coverage: 0.95, rank: 2 }),
    'pbeta(0.05, 2, 92)',
    1e-10,
  ],
  ...[
    [2.5, 7, 1.2],
    [-0.3, 4, 0.8],
    [9, 29, 12],
  ].map(([t, degreesOfFreedom, noncentrality]) => [
    `noncentral t, t, f, delta = ${t}, ${degreesOfFreedom}, ${noncentrality}`,
    ours.noncentralTCdf(t, { degreesOfFreedom, noncentrality }),
    `pt(${t}, ${degreesOfFreedom}, ${noncentrality})`,
    1e-8,
  ]),
  [
    'plan by variables passes 0.5 %, n = 34, k = 2.1762',
    ours.variablesAcceptanceProbability({ sampleSize: 34, factor: 2.1762, shareNonconforming: 0.005 }),
    'pt(2.1762 * sqrt(34), 33, -qnorm(0.005) * sqrt(34), lower.tail = FALSE)',
    1e-8,
  ],
  [
    'plan by variables between limits 3.5 and 4.8 s away, n = 25, k = 3.4621',
    ours.betweenLimitsAcceptanceProbability({ sampleSize: 25, factor: 3.4621, toLower: 3.5, toUpper: 4.8 }),
    'between(25, 3.4621, 3.5, 4.8)',
    1e-9,
  ],
  [
    'lower bound of Ppk 1.4, n = 40, 95 %',
    ours.ppkLowerBound({ ppk: 1.4, sampleSize: 40, degreesOfFreedom: 39, confidence: 0.95 }),
    'ppk_bound(1.4, 40, 0.95)',
    1e-8,
  ],
  ['mean', ours.arithmeticMean(first), 'mean(first)', 1e-14],
  ['standard deviation', ours.sampleStandardDeviation(first), 'sd(first)', 1e-13],
  ['Shapiro-Wilk W', shapiro.statistic, 'unname(shapiro.test(first)$statistic)', 1e-9],
  ['Shapiro-Wilk p', shapiro.pValue, 'shapiro.test(first)$p.value', 1e-7],
  [
    't test of one mean against 48, p',
    ours.tTest(mean, 48).pValues.different,
    't.test(first, mu = 48)$p.value',
    1e-10,
  ],
  [
    'upper 95 % limit of the mean',
    ours.meanConfidenceLimits(mean, { confidence: 0.95, sides: 'upper' }).upper,
    't.test(first, alternative = "less")$conf.int[2]',
    1e-10,
  ],
  ['Welch, degrees of freedom', welch.degreesOfFreedom, 'unname(t.test(first, second)$parameter)', 1e-12],
  ['Welch, p', ours.tTest(welch).pValues.different, 't.test(first, second)$p.value', 1e-10],
  [
    'pooled t test, p',
    ours.tTest(pooled).pValues.different,
    't.test(first, second, var.equal = TRUE)$p.value',
    1e-10,
  ],
  [
    'power of a two-sample t test, 20 a group, 0.8 s',
    ours.tTestPower({
      difference: 0.8,
      significance: 0.05,
      sides: 'two',
      ...ours.designPrecision('two-samples', 1, 20),
    }),
    'power.t.test(20, 0.8, strict = TRUE)$power',
    1e-7,
  ],
];

const script = join(folder, 'compare.R');
writeFileSync(
  script,
  `${prelude}\n${cases.map(([, , expression]) => `cat(sprintf("= %.17g\\n", ${expression}))`).join('\n')}\n`,
);
const run = spawnSync('Rscript', ['--vanilla', script], { encoding: 'utf8' });
// R may say other things too; figures stand behind a sign.
const theirs = run.stdout.split('\n').flatMap((line) => (line.startsWith('= ') ? [line.slice(2)] : []));
if (run.status !== 0 || theirs.length !== cases.length) {
  process.stderr.write(
    `R stopped after ${theirs.length} of ${cases.length} figures${theirs.length < cases.length ? `, at: ${cases[theirs.length][0]}` : ''}.\n${run.stderr}`,
  );
  process.exit(1);
}

let apart = 0;
for (const [index, [name, own, , allowed]] of cases.entries()) {
  const other = Number(theirs[index]);
  const difference = own === other ? 0 : Math.abs(own - other) / Math.max(Math.abs(other), Number.MIN_VALUE);
  const agrees = difference <= allowed;
  if (!agrees) apart += 1;
  process.stdout.write(
    `${agrees ? 'same  ' : 'APART '} ${name}\n        plinth ${own}  R ${other}  relative difference ${difference.toExponential(1)}, allowed ${allowed}\n`,
  );
}
process.stdout.write(
  apart === 0
    ? `All ${cases.length} figures agree with R.\n`
    : `${apart} of ${cases.length} figures are apart from R.\n`,
);
process.exitCode = apart === 0 ? 0 : 1;
