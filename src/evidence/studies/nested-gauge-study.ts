import { nestedGaugeStudy as evaluateNested } from '../../statistics/nested-gauge-study.ts';
import { gaugeColumns, readGaugeTable } from './gauge-table.ts';
import {
  confidenceOf,
  judgeGauge,
  missingTolerance,
  undecidedStudy,
  varianceTable,
} from './gauge-verdict.ts';
import { repeatNormality } from './repeat-normality.ts';
import type { Study, StudyInput, StudyOutcome } from './study.ts';

const evaluate = (input: StudyInput): StudyOutcome => {
  const missing = missingTolerance(input);
  if (missing !== undefined) return { ok: false, message: missing };
  const table = readGaugeTable(input);
  if (!table.ok) return table;
  const result = evaluateNested(table.readings, {
    tolerance: input.testMethod.fields.study?.tolerance ?? Number.NaN,
    confidence: confidenceOf(input),
  });
  if (!result.ok) return undecidedStudy(input, result, table.readings.length);
  const { analysis, components, fRatios, pValues, operators, partsPerOperator, repeats, setToZero } =
    result.value;
  return judgeGauge(input, {
    ...components,
    ...(result.value.distinctCategories === undefined
      ? {}
      : { distinctCategories: result.value.distinctCategories }),
    components: [
      { name: 'gauge (repeatability and reproducibility)', component: components.gauge },
      { name: 'repeatability', component: components.repeatability },
      { name: 'reproducibility', component: components.reproducibility },
      { name: 'part', component: components.part },
      { name: 'total', component: components.total },
    ],
    design: `${operators} operators, ${partsPerOperator} parts each, ${repeats} pieces of each part, balanced`,
    assumptions: [
      repeatNormality(table.readings),
      {
        name: 'pieces of a part alike',
        outcome: 'not tested',
        detail: 'their differences cannot be told from repeatability and are counted with it',
      },
      ...(setToZero.length > 0
        ? [
            {
              name: 'negative estimates',
              outcome: 'not tested' as const,
              detail: `set to 0: ${setToZero.join(', ')}`,
            },
          ]
        : []),
    ],
    tables: [
      varianceTable([
        { name: 'operator', line: analysis.operator, fRatio: fRatios.operator, pValue: pValues.operator },
        { name: 'part within operator', line: analysis.part, fRatio: fRatios.part, pValue: pValues.part },
        { name: 'repeatability', line: analysis.repeatability },
      ]),
    ],
    count: table.readings.length,
    unit: table.unit,
  });
};

export const nestedGaugeStudy: Study = {
  name: 'nested-gauge-study',
  title: 'Nested gauge study, for tests that use up the unit',
  basis:
    'nested analysis of variance; Montgomery, Design and Analysis of Experiments, nested designs; limits by modified large samples, Ting et al. (1990)',
  explain: `For tests after which the unit is gone: a pull to break, a burst, a dissolution. Each operator gets parts of their own; a part is a batch, a sheet or a stretch of material, from which several pieces are tested as if they were one. It shows how much of the tolerance the measurement takes.

The nested analysis of variance splits the spread into repeatability (pieces of one part), reproducibility (operators) and parts within operators. The share of the tolerance is six standard deviations of repeatability and reproducibility together over the tolerance. The limits around each component are those of modified large samples.

Pieces of one part are never quite alike, and their differences are counted as repeatability: the true gauge is at most as bad as the study says. Choose pieces as alike as can be, for example cut side by side. Operators are compared with parts, so that few parts hide differences of operators: plan five or more parts for each of three or more operators (common practice, no source).

Every operator needs the same number of parts, every part the same number of pieces, at least two. Where that fails, or a part was measured by two operators, the verdict is \`undecided\`: complete the design; where every operator can get pieces of every part, use crossed-gauge-study.

Whether pieces of one part look normal is told (Anderson-Darling on independent differences) and decides nothing.

Columns: \`part\`, \`operator\`, \`reading\`. Part names must differ between operators. Fields: \`tolerance\`, \`accept_percent\`, \`confidence\`, \`decide_on\`.`,
  columns: gaugeColumns,
  evaluate,
};
