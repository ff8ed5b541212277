import { randomStream } from './pseudo-random.ts';

/** What the invented gauge study must come to. */
export interface GaugePlan {
  readonly seed: number;
  readonly partMean: number;
  readonly partDeviation: number;
  /** Width that the gauge's spread of six standard deviations is compared with. */
  readonly tolerance: number;
  /** Share of the tolerance in per cent. */
  readonly percentTolerance: number;
}

export interface GaugeRow {
  readonly part: string;
  readonly operator: string;
  readonly repeat: number;
  readonly reading: string;
}

const parts = 10;
const operators = ['A', 'B', 'C'];
const repeats = 3;

/**
 * Readings of 10 parts by 3 operators in 3 repeats, recorded to 0.01, whose repeatability and reproducibility by the
 * crossed analysis of variance take the planned share of the tolerance. Only studies whose interaction is smaller
 * than chance (F below 1) are kept, so that it is pooled into repeatability.
 */
export const gaugeReadings = (plan: GaugePlan): readonly GaugeRow[] => {
  for (let attempt = 0; attempt < 500; attempt += 1) {
    const random = randomStream(plan.seed * 2003 + attempt);
    const partValues = Array.from(
      { length: parts },
      () => plan.partMean + plan.partDeviation * random.bell(),
    );
    const shifts = operators.map(() => 0.35 * random.bell());
    const noise = Array.from({ length: parts * operators.length * repeats }, random.bell);
    const readingsAt = (scale: number): readonly number[] =>
      noise.map((error, index) => {
        const part = Math.floor(index / (operators.length * repeats));
        const operator = Math.floor(index / repeats) % operators.length;
        return Math.round((partValues[part]! + scale * (shifts[operator]! + error)) * 100);
      });
    let [low, high] = [0, 1];
    for (let turn = 0; turn < 60; turn += 1) {
      const middle = (low + high) / 2;
      if (share(plan, readingsAt(middle)).percent < plan.percentTolerance) low = middle;
      else high = middle;
    }
    const readings = readingsAt(high);
    const { percent, interactionRatio } = share(plan, readings);
    if (Math.abs(percent - plan.percentTolerance) < 0.03 && interactionRatio < 1)
      return readings.map((steps, index) => ({
        part: `${Math.floor(index / (operators.length * repeats)) + 1}`,
        operator: operators[Math.floor(index / repeats) % operators.length]!,
        repeat: (index % repeats) + 1,
        reading: (steps / 100).toFixed(2),
      }));
  }
  throw new Error(`no gauge study found for seed ${plan.seed}`);
};

/** Share of the tolerance in per cent with the interaction pooled, and the F ratio of the interaction. */
const share = (
  { tolerance }: GaugePlan,
  steps: readonly number[],
): { readonly percent: number; readonly interactionRatio: number } => {
  const mean = (values: readonly number[]): number =>
    values.reduce((sum, value) => sum + value, 0) / values.length;
  const squares = (values: readonly number[]): number =>
    values.reduce((sum, value) => sum + value * value, 0);
  const cells = Array.from({ length: parts * operators.length }, (_, cell) =>
    steps.slice(cell * repeats, (cell + 1) * repeats),
  );
  const cellMeans = cells.map(mean);
  const grand = mean(steps);
  const partMeans = Array.from({ length: parts }, (_, part) =>
    mean(cellMeans.filter((__, cell) => Math.floor(cell / operators.length) === part)),
  );
  const operatorMeans = operators.map((_, operator) =>
    mean(cellMeans.filter((__, cell) => cell % operators.length === operator)),
  );
  const within = squares(cells.flatMap((cell, index) => cell.map((value) => value - cellMeans[index]!)));
  const interaction =
    repeats *
    squares(
      cellMeans.map(
        (value, cell) =>
          value -
          partMeans[Math.floor(cell / operators.length)]! -
          operatorMeans[cell % operators.length]! +
          grand,
      ),
    );
  const between = parts * repeats * squares(operatorMeans.map((value) => value - grand));
  const withinFreedom = parts * operators.length * (repeats - 1);
  const interactionFreedom = (parts - 1) * (operators.length - 1);
  const error = (within + interaction) / (withinFreedom + interactionFreedom);
  const operatorVariance = Math.max((between / (operators.length - 1) - error) / (parts * repeats), 0);
  return {
    percent: (600 * Math.sqrt(error + operatorVariance)) / (100 * tolerance),
    interactionRatio: interaction / interactionFreedom / (within / withinFreedom),
  };
};
