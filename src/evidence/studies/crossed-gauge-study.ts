import { gaugeStudy } from '../../statistics/gauge-study.ts';
import { fixed } from '../number-text.ts';
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

/** The interaction is pooled into repeatability where its p value is above this. */
const poolAbove = 0.25;

const evaluate = (input: StudyInput): StudyOutcome => {
  const missing = missingTolerance(input);
  if (missing !== undefined) return { ok: false, message: missing };
  const table = readGaugeTable(input);
  if (!table.ok) return table;
  const tolerance = input.testMethod.fields.study?.tolerance ?? Number.NaN;
  const result = gaugeStudy(table.readings, {
    tolerance,
    poolInteractionAbove: poolAbove,
    confidence: confidenceOf(input),
  });
  if (!result.ok) return undecidedStudy(input, result, table.readings.length);
  const { analysis, components, fRatios, pValues, interactionPooled, parts, operators, repeats } =
    result.value;
  const zero = result.value.setToZero;
  return judgeGauge(input, {
    ...result.value,
    gauge: components.gauge,
    part: components.part,
    repeatability: components.repeatability,
    reproducibility: components.reproducibility,
    components: [
      { name: 'gauge (repeatability and reproducibility)', component: components.gauge },
      { name: 'repeatability', component: components.repeatability },
      { name: 'reproducibility', component: components.reproducibility },
      { name: 'operator', component: components.operator },
      { name: 'operator by part', component: components.interaction },
      { name: 'part', component: components.part },
      { name: 'total', component: components.total },
    ],
    design: `${parts} parts, ${operators} operators, ${repeats} repeats, balanced`,
    assumptions: [
      repeatNormality(table.readings),
      {
        name: 'interaction of operator and part',
        outcome: 'not tested',
        detail: `p ${fixed(pValues.interaction, 3)}: ${
          interactionPooled
            ? `above ${poolAbove}, pooled into repeatability`
            : `not above ${poolAbove}, kept in reproducibility`
        }`,
      },
      ...(zero.length > 0
        ? [
            {
              name: 'negative estimates',
              outcome: 'not tested' as const,
              detail: `set to 0: ${zero.join(', ')}`,
            },
          ]
        : []),
    ],
    tables: [
      varianceTable([
        { name: 'part', line: analysis.part, fRatio: fRatios.part, pValue: pValues.part },
        { name: 'operator', line: analysis.operator, fRatio: fRatios.operator, pValue: pValues.operator },
        {
          name: 'operator by part',
          line: analysis.interaction,
          fRatio: fRatios.interaction,
          pValue: pValues.interaction,
        },
        { name: 'repeatability', line: analysis.repeatability },
        ...(interactionPooled ? [{ name: 'repeatability, pooled', line: analysis.pooled }] : []),
      ]),
    ],
    count: table.readings.length,
    unit: table.unit,
  });
};

export const crossedGaugeStudy: Study = {
  name: 'crossed-gauge-study',
  title: 'Crossed gauge study',
  basis:
    'two-way analysis of variance; AIAG Measurement Systems Analysis, 4th ed. (from memory); limits by modified large samples, Burdick, Borror and Montgomery (2005), chapter 3',
  explain: `Parts, operators and repeats in a balanced design: every operator measures every part the same number of times. It shows how much of the tolerance the measurement itself takes.

The analysis of variance splits the spread into repeatability (the same operator, the same part, again), reproducibility (operators, and operators on certain parts) and parts. The share of the tolerance is six standard deviations of repeatability and reproducibility together over the tolerance. The interaction of operator and part is pooled into repeatability where its p value is above ${poolAbove}. Up to 10 % is good, 10 to 30 % conditional (common practice, no source).

The limits around each component are those of modified large samples. With two or three operators they are wide, since operators are sampled too: plan more operators where reproducibility matters. The verdict rests on the estimate, as is common, unless \`decide_on\` says \`confidence bound\`.

It holds for parts and operators that stand for all that will be measured and will measure, in random order, without the operator knowing the earlier reading. Readings are taken to be independent and about normal; whether the repeats look normal is told (Anderson-Darling on independent differences of the repeats) and decides nothing. Where a reading is missing the verdict is \`undecided\`: take it, or repeat the study. For tests that use up the unit see nested-gauge-study.

Caution: a small share of the tolerance says nothing about bias: see bias-and-linearity-study.

Columns: \`part\`, \`operator\`, \`reading\`. Fields: \`tolerance\`, \`accept_percent\`, \`confidence\`, \`decide_on\`.`,
  columns: gaugeColumns,
  evaluate,
};
