import { exactSample } from './exact-sample.ts';
import { samplePlans } from './planned-figures.ts';

/** Heading and rows of a raw-data file. */
export type Sheet = readonly [heading: readonly string[], rows: readonly (readonly string[])[]];

const twoDigits = (number: number): string => String(number).padStart(2, '0');

/** The longest time goes to the participant who had the difficulty. */
const longestFor = (index: number, times: readonly string[]): readonly string[] => {
  const longest = times.reduce((found, time, at) => (Number(time) > Number(times[found]) ? at : found), 0);
  return times.map((time, at) => (at === index ? times[longest]! : at === longest ? times[index]! : time));
};

/** Summative study US-1: 15 dental surgeons (UG1), 15 dental assistants (UG2). */
export const summativeStudy = (): Sheet => {
  const ready = longestFor(21, exactSample(samplePlans.timeToReady));
  const loading = longestFor(6, exactSample(samplePlans.loadingTime));
  const tasks = ['check pack', 'load', 'prime to tip', 'stop at planned stroke', 'discard'];
  const observed: Readonly<Record<string, string>> = {
    'P07 load': 'difficulty',
    'P22 check pack': 'difficulty',
    'P11 stop at planned stroke': 'close call',
  };
  return [
    ['participant', 'group', 'ready [s]', 'loading [s]', ...tasks, 'critical tasks'],
    Array.from({ length: 30 }, (_, index) => {
      const participant = `P${twoDigits(index + 1)}`;
      const outcomes = tasks.map((task) => observed[`${participant} ${task}`] ?? 'success');
      return [participant, index < 15 ? 'UG1' : 'UG2', ready[index]!, loading[index]!, ...outcomes, 'pass'];
    }),
  ];
};

/** Formative study F-1: 5 dental surgeons (UG1), 5 dental assistants (UG2), each problem with its answer. */
export const formativeStudy = (): Sheet => {
  const tasks = ['check pack', 'load', 'stop at planned stroke', 'discard'];
  const observed: Readonly<Record<string, string>> = {
    'F03 load': 'use error',
    'F08 load': 'use error',
    'F02 stop at planned stroke': 'close call',
    'F06 discard': 'use error',
  };
  return [
    ['participant', 'group', ...tasks, 'problems understood'],
    Array.from({ length: 10 }, (_, index) => {
      const participant = `F${twoDigits(index + 1)}`;
      const outcomes = tasks.map((task) => observed[`${participant} ${task}`] ?? 'success');
      return [participant, index < 5 ? 'UG1' : 'UG2', ...outcomes, 'pass'];
    }),
  ];
};

/** Simulated placement by 15 dental surgeons with aged and shipped units. */
export const placementStudy = (): Sheet => [
  [
    'participant',
    'group',
    'unit',
    'lot',
    'fill and prime',
    'place',
    'withdraw and inspect',
    'placement',
    'device whole',
    'model unmarked',
  ],
  Array.from({ length: 15 }, (_, index) => {
    const lot = `L00${Math.floor(index / 5) + 1}`;
    const participant = `S${twoDigits(index + 1)}`;
    const place = participant === 'S09' ? 'difficulty' : 'success';
    return [
      participant,
      'UG1',
      `${lot}-${twoDigits((index % 5) + 1)}`,
      lot,
      'success',
      place,
      'success',
      'pass',
      'pass',
      'pass',
    ];
  }),
];
