import { exactSample } from './exact-sample.ts';
import { randomStream } from './pseudo-random.ts';

/** References of the bias study in N, and the mean bias that its readings come to. */
export const biasPlan: readonly (readonly [reference: number, bias: number])[] = [
  [5, 0.01],
  [10, -0.01],
  [15, 0.02],
  [20, 0.03],
  [25, 0.03],
];

/** Ten readings at each reference, in the random order in which they were taken. */
export const biasReadings = (): readonly (readonly [reference: number, reading: string])[] => {
  const random = randomStream(1601);
  return biasPlan
    .flatMap(([reference, bias]) =>
      exactSample({
        seed: 1600 + reference,
        count: 10,
        mean: reference + bias,
        standardDeviation: 0.04,
        decimals: 2,
      }).map((reading) => ({ row: [reference, reading] as const, key: random.uniform() })),
    )
    .sort((a, b) => a.key - b.key)
    .map(({ row }) => row);
};

/** The pull test uses up the tip: each operator has parts of their own, shots of the tool, with two tips of each. */
export const nestedPlan = {
  seed: 309,
  mean: 51.8,
  operators: [
    ['A', -0.3],
    ['B', 0],
    ['C', 0.4],
  ],
  parts: 5,
  pieces: 2,
  partDeviation: 1,
  pieceDeviation: 1.8,
} as const;

/** Part, operator and reading in N of the nested study. */
export const nestedReadings = (): readonly (readonly [part: string, operator: string, reading: string])[] => {
  const { seed, mean, operators, parts, pieces, partDeviation, pieceDeviation } = nestedPlan;
  const random = randomStream(seed);
  return operators.flatMap(([operator, shift], group) =>
    Array.from({ length: parts }, (_, part) => {
      const centre = mean + shift + partDeviation * random.bell();
      return Array.from(
        { length: pieces },
        () =>
          [
            `shot ${group * parts + part + 1}`,
            operator,
            (centre + pieceDeviation * random.bell()).toFixed(2),
          ] as const,
      );
    }).flat(),
  );
};
