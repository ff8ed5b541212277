import { averageAndRangeGaugeStudy as evaluateRanges } from '../../statistics/average-and-range-gauge-study.ts';
import { fixed } from '../number-text.ts';
import { gaugeColumns, readGaugeTable } from './gauge-table.ts';
import { digits, judgeGauge, missingTolerance, undecidedStudy } from './gauge-verdict.ts';
import { repeatNormality } from './repeat-normality.ts';
import type { Study, StudyInput, StudyOutcome } from './study.ts';

const evaluate = (input: StudyInput): StudyOutcome => {
  const missing = missingTolerance(input);
  if (missing !== undefined) return { ok: false, message: missing };
  const table = readGaugeTable(input);
  if (!table.ok) return table;
  const result = evaluateRanges(table.readings, {
    tolerance: input.testMethod.fields.study?.tolerance ?? Number.NaN,
  });
  if (!result.ok) return undecidedStudy(input, result, table.readings.length);
  const { components, factors, parts, operators, repeats } = result.value;
  return judgeGauge(input, {
    ...components,
    distinctCategories: result.value.distinctCategories,
    components: [
      { name: 'gauge (repeatability and reproducibility)', component: components.gauge },
      { name: 'repeatability', component: components.repeatability },
      { name: 'reproducibility', component: components.reproducibility },
      { name: 'part', component: components.part },
      { name: 'total', component: components.total },
    ],
    design: `${parts} parts, ${operators} operators, ${repeats} repeats, balanced`,
    assumptions: [
      repeatNormality(table.readings),
      {
        name: 'no interaction of operator and part',
        outcome: 'not tested',
        detail: 'the method cannot see it; crossed-gauge-study can',
      },
    ],
    tables: [
      {
        title: 'Averages and ranges',
        columns: ['Quantity', 'Value', 'Factor'],
        rows: [
          ['mean range of the repeats', digits(result.value.averageRange), fixed(factors.repeats, 4)],
          [
            'range of the means of operators',
            digits(result.value.rangeOfOperatorMeans),
            fixed(factors.operators, 4),
          ],
          ['range of the means of parts', digits(result.value.rangeOfPartMeans), fixed(factors.parts, 4)],
        ],
      },
    ],
    count: table.readings.length,
    unit: table.unit,
  });
};

export const averageAndRangeGaugeStudy: Study = {
  name: 'average-and-range-gauge-study',
  title: 'Gauge study by averages and ranges',
  basis: 'average and range method; AIAG Measurement Systems Analysis, 4th ed. (from memory)',
  explain: `The older method for the data of a crossed study, which can be worked out by hand: the mean range of the repeats gives repeatability, the range of the operators' means gives reproducibility, the range of the parts' means gives the spread of parts, each by a factor.

Use it to repeat an older report. For a new study crossed-gauge-study is better: this method cannot see an operator who reads certain parts differently, has no confidence limits, and wastes some of what the readings hold.

Every operator measures every part the same number of times, at least twice. Where a reading is missing, the verdict is \`undecided\`: take it.

Columns: \`part\`, \`operator\`, \`reading\`. Fields: \`tolerance\`, \`accept_percent\`.`,
  columns: gaugeColumns,
  evaluate,
};
