import { bioburdenCounts } from './bioburden.ts';
import { chamberLog, chamberRuns } from './chamber-log.ts';
import {
  biologicalChecklist,
  type ChecklistRow,
  declarationChecklist,
  instructionsChecklist,
  labelChecklist,
} from './checklists.ts';
import { edgeAgreement } from './edge-agreement.ts';
import { exactSample, type SamplePlan } from './exact-sample.ts';
import { gaugeReadings } from './gauge-readings.ts';
import { biasReadings, nestedReadings } from './measurement-studies.ts';
import { gaugePlans, samplePlans } from './planned-figures.ts';
import { randomStream } from './pseudo-random.ts';
import { formativeStudy, placementStudy, summativeStudy } from './study-data.ts';

type Cell = string | number;

const csv = (heading: readonly string[], rows: readonly (readonly Cell[])[]): string =>
  [heading, ...rows].map((row) => `${row.join(',')}\n`).join('');

const lots = ['L001', 'L002', 'L003'] as const;

/** Unit numbers by lot, for example 20, 20 and 19 units: `L001-01` to `L003-19`. */
const unitsOf = (...counts: readonly number[]): readonly (readonly [unit: string, lot: string])[] =>
  counts.flatMap((count, index) =>
    Array.from({ length: count }, (_, number) => {
      const lot = lots[index]!;
      return [`${lot}-${String(number + 1).padStart(2, '0')}`, lot] as const;
    }),
  );

const thirty = unitsOf(10, 10, 10);
const fiftyNine = unitsOf(20, 20, 19);

/** One reading for each unit in each column, and a column that tells how the unit was tested. */
const readings = (
  units: readonly (readonly [string, string])[],
  columns: Readonly<Record<string, SamplePlan>>,
  setting?: readonly [heading: string, ofUnit: (index: number) => Cell],
): string => {
  const samples = Object.values(columns).map(exactSample);
  return csv(
    ['unit', 'lot', ...(setting ? [setting[0]] : []), ...Object.keys(columns)],
    units.map(([unit, lot], index) => [
      unit,
      lot,
      ...(setting ? [setting[1](index)] : []),
      ...samples.map((sample) => sample[index]!),
    ]),
  );
};

/** The same words for each unit. */
const words = (
  units: readonly (readonly [string, string])[],
  columns: Readonly<Record<string, Cell>>,
): string =>
  csv(
    ['unit', 'lot', ...Object.keys(columns)],
    units.map(([unit, lot]) => [unit, lot, ...Object.values(columns)]),
  );

/** 25 strokes of each unit: the force rises as the column in the tip grows; the largest one is the planned reading. */
const strokes = (plan: SamplePlan): string => {
  const random = randomStream(plan.seed + 500_000);
  const rows = exactSample(plan).flatMap((largest, index) => {
    const [unit, lot] = thirty[index]!;
    const shape = Array.from({ length: 25 }, (_, stroke) => 0.09 * stroke + 0.42 * random.bell());
    const top = Math.max(...shape);
    return shape.map((height, stroke): readonly Cell[] => [
      unit,
      lot,
      stroke + 1,
      (Number(largest) - (top - height)).toFixed(2),
    ]);
  });
  return csv(['unit', 'lot', 'stroke', 'force [N]'], rows);
};

const guideMarks = (): string => {
  const random = randomStream(1201);
  return csv(
    ['unit', 'lot', 'mark', 'volume between marks [mm3]', 'legible'],
    unitsOf(10, 10, 9).flatMap(([unit, lot]) => {
      const mould = 100.4 + 0.3 * random.bell();
      return [1, 2, 3, 4, 5].map((mark): readonly Cell[] => [
        unit,
        lot,
        mark,
        (mould + 0.8 * random.bell()).toFixed(2),
        'pass',
      ]);
    }),
  );
};

/** The largest force of each unit in the files of VR-01 and VR-01A, with names that tell the two groups apart. */
const forceByAge = (): string => {
  const group = (age: string, letter: string, plan: SamplePlan): readonly (readonly Cell[])[] =>
    exactSample(plan).map((largest, index) => {
      const [unit, lot] = thirty[index]!;
      return [`${letter}-${unit}`, lot, age, largest];
    });
  return csv(
    ['unit', 'lot', 'age', 'force [N]'],
    [
      ...group('fresh', 'F', samplePlans.squeezeForceFresh),
      ...group('aged', 'A', samplePlans.squeezeForceAged),
    ],
  );
};

const chamber = (run: (typeof chamberRuns)[keyof typeof chamberRuns]): string =>
  csv(['time', 'temperature [Cel]', 'relative humidity [%]'], chamberLog(run));

const sealStrips = (plan: SamplePlan): string => {
  const sides = ['chevron', 'long', 'hinge'];
  const packs = [7, 7, 6].flatMap((count, lot) =>
    Array.from({ length: count }, (_, pack) => [
      `${lots[lot]}-P${String(pack + 1).padStart(2, '0')}`,
      lots[lot]!,
    ]),
  );
  const strengths = exactSample(plan);
  return csv(
    ['strip', 'pack', 'lot', 'side', 'strength [N/(15.mm)]', 'failure'],
    packs.flatMap(([pack = '', lot = ''], index) =>
      sides.map((side, strip) => [
        `${pack}-S${strip + 1}`,
        pack,
        lot,
        side,
        strengths[index * sides.length + strip]!,
        'peel',
      ]),
    ),
  );
};

const shippers = (): string =>
  csv(
    ['unit', 'lot', 'shipper', 'carton', 'result'],
    unitsOf(40, 40, 40).map(([unit, lot], index) => [
      unit,
      lot,
      Math.floor(index / 40) + 1,
      Math.floor((index % 40) / 5) + 1,
      'pass',
    ]),
  );

const refilling = (): string => {
  const random = randomStream(2401);
  const order = fiftyNine.map((_, index) => ({ index, key: random.uniform() }));
  const moved = new Set(
    order
      .sort((a, b) => a.key - b.key)
      .slice(0, 18)
      .map(({ index }) => index),
  );
  return csv(
    ['unit', 'lot', 'plunger moved', 'damage seen', 'result'],
    fiftyNine.map(([unit, lot], index) =>
      moved.has(index)
        ? [unit, lot, `after ${28 + random.whole(31)} s`, 'rack torn and white', 'pass']
        : [unit, lot, 'not within 60 s', random.uniform() < 0.4 ? 'teeth white' : 'scratches', 'pass'],
    ),
  );
};

const checklist = (found: string, rows: readonly ChecklistRow[]): string =>
  csv(['item', found, 'result', 'remark'], rows);

const gaugeStudy = (plan: (typeof gaugePlans)[keyof typeof gaugePlans], unit: string): string =>
  csv(
    ['part', 'operator', 'repeat', `reading [${unit}]`],
    gaugeReadings(plan).map((row) => [row.part, row.operator, row.repeat, row.reading]),
  );

/** Every raw-data file of the demonstration device: path below the technical file, and text. */
export const generateAll = (): ReadonlyMap<string, string> => {
  const p = samplePlans;
  const verification: Readonly<Record<string, string>> = {
    'VR-01': strokes(p.squeezeForceFresh),
    'VR-01A': strokes(p.squeezeForceAged),
    'VR-02': readings(thirty, { 'span [mm]': p.openSpan, 'travel [mm]': p.padTravel }),
    'VR-03': readings(thirty, { 'volume [mm3]': p.volumePerStroke }),
    'VR-04': readings(thirty, { 'volume [mm3]': p.totalVolume }),
    'VR-05': readings(thirty, { 'residual [mm3]': p.residualVolume }),
    'VR-06': words(fiftyNine, { squeezes: 25, 'wrong advances': 0 }),
    'VR-07': readings(thirty, { 'force [N]': p.backDrive }, [
      'tooth',
      (index) => [1, 2, 25][(index % 10) - 7] ?? 10,
    ]),
    'VR-08': readings(thirty, { 'diameter [mm]': p.tipDiameter, 'reach [mm]': p.reach }),
    'VR-09': readings(thirty, { 'force [N]': p.retentionFresh }),
    'VR-09A': readings(thirty, { 'force [N]': p.retentionAged }),
    'VR-09B': readings(thirty, { 'force [N]': p.retentionAgedRevisionB }),
    'VR-10': readings(thirty, { 'force [N]': p.bending }, [
      'parting line',
      (index) => (index % 2 === 0 ? 'across' : 'along'),
    ]),
    'VR-11': words(fiftyNine, { 'edge radius': 'pass', 'burr height': 'pass' }),
    'VR-12': guideMarks(),
    'VR-14': csv(
      ['cycle', 'lot', 'exposure [min]', 'indicators', 'surviving indicators'],
      lots.map((lot, index) => [`half cycle ${index + 1}`, lot, 120, 20, 0]),
    ),
    'VR-14B': csv(
      ['unit', 'lot', 'bioburden [{CFU}]'],
      bioburdenCounts().map((count, index) => [...thirty[index]!, count]),
    ),
    'VR-15': csv(
      ['unit', 'lot', 'ethylene oxide [mg]', 'ethylene chlorohydrin [mg]'],
      [
        ['L001-01', 'L001', '0.36', '0.08'],
        ['L002-01', 'L002', '0.42', '0.10'],
        ['L003-01', 'L003', '0.39', '0.08'],
      ],
    ),
    'VR-16': csv(
      ['pool', 'lot', 'units', 'endotoxin per device [{EU}]'],
      lots.map((lot, index) => [`pool ${index + 1}`, lot, 10, '<1.0']),
    ),
    'VR-17': checklist('report', biologicalChecklist),
    'VR-18': readings(unitsOf(4, 3, 3), {
      '10 µm and larger': p.particlesFrom10,
      '25 µm and larger': p.particlesFrom25,
    }),
    'VR-19': sealStrips(p.sealStrength),
    'VR-19C': sealStrips(p.sealStrengthFresh),
    'VR-20': words(fiftyNine, { bubbles: 'pass', dye: 'pass' }),
    'VR-21': forceByAge(),
    'VR-22': shippers(),
    'VR-23': words(unitsOf(10, 10, 9), { result: 'pass' }),
    'VR-24': refilling(),
    'VR-25': checklist('found', labelChecklist),
    'VR-26': checklist('found', instructionsChecklist),
    'VR-28': checklist('declaration', declarationChecklist),
  };
  return new Map([
    ...Object.entries(verification).map(([id, text]) => [`verification/data/${id}.csv`, text] as const),
    ['validation/data/LR-01.csv', csv(...summativeStudy())],
    ['validation/data/LR-02.csv', csv(...placementStudy())],
    ['validation/data/LR-03.csv', csv(...formativeStudy())],
    ['test-methods/data/TM-01.csv', gaugeStudy(gaugePlans.force, 'N')],
    ['test-methods/data/TM-02.csv', gaugeStudy(gaugePlans.volume, 'mm3')],
    ['test-methods/data/TM-03.csv', csv(['part', 'operator', 'reading [N]'], nestedReadings())],
    ['test-methods/data/TM-06.csv', csv(...edgeAgreement())],
    ['test-methods/data/TM-16.csv', csv(['reference', 'reading [N]'], biasReadings())],
    [
      'risks/data/FD-01.csv',
      csv(
        ['quarter', 'packs examined', 'seal defects'],
        [
          ['2023-Q1', 4800, 5],
          ['2023-Q2', 5100, 4],
          ['2023-Q3', 5000, 6],
          ['2023-Q4', 5300, 5],
          ['2024-Q1', 5200, 4],
          ['2024-Q2', 5400, 7],
          ['2024-Q3', 5100, 5],
          ['2024-Q4', 5300, 5],
        ],
      ),
    ],
    ['analyses/data/AN-21A.csv', chamber(chamberRuns.first)],
    ['analyses/data/AN-21B.csv', chamber(chamberRuns.second)],
  ]);
};
