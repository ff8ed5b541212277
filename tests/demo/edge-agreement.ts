import { randomStream } from './pseudo-random.ts';
import type { Sheet } from './study-data.ts';

/** Attribute agreement study of the edge inspection: 3 inspectors judge 50 parts, of which 20 are bad, in 2 trials. */
export const edgeAgreement = (): Sheet => {
  const random = randomStream(601);
  const bad = new Set<number>();
  while (bad.size < 20) bad.add(random.whole(50) + 1);
  // Good parts that an inspector rejected in one of the two trials. No bad part was passed.
  const rejected = [...Array(50).keys()].map((index) => index + 1).filter((part) => !bad.has(part));
  const alarms = new Map([
    ['A', new Map([[rejected[4], 2]])],
    [
      'B',
      new Map([
        [rejected[11], 1],
        [rejected[19], 2],
      ]),
    ],
    ['C', new Map([[rejected[19], 1]])],
  ]);
  return [
    ['part', 'reference', 'inspector', 'trial', 'call'],
    [...alarms].flatMap(([inspector, own]) =>
      [1, 2].flatMap((trial) =>
        Array.from({ length: 50 }, (_, index): readonly string[] => {
          const part = index + 1;
          const reference = bad.has(part) ? 'fail' : 'pass';
          return [
            String(part),
            reference,
            inspector,
            String(trial),
            own.get(part) === trial ? 'fail' : reference,
          ];
        }),
      ),
    ),
  ];
};
