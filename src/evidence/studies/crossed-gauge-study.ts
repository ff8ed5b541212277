import { readNumber } from '../../records/table.ts';
import { unitConverter } from '../../records/units.ts';
import { gaugeStudy } from '../../statistics/gauge-study.ts';
import { fixed } from '../number-text.ts';
import type { NamedValue } from '../result.ts';
import { blankCells, columnsOf, type Study, type StudyInput, type StudyOutcome } from './study.ts';

const columns = ['part', 'operator', 'reading'];

const evaluate = ({ testMethod, table }: StudyInput): StudyOutcome => {
  const study = testMethod.fields.study;
  const rows = columnsOf(table, columns);
  if (!rows || !study)
    return { ok: false, message: `${table.file} needs the columns part, operator and reading` };
  if (study.tolerance === undefined)
    return { ok: false, message: 'study.tolerance is missing: the spread is compared with it' };
  if (study.tolerance <= 0 || !Number.isFinite(study.tolerance))
    return { ok: false, message: 'study.tolerance must be above 0' };
  const from = table.columns.find((column) => column.name === 'reading')?.unit;
  const { unit } = testMethod.fields;
  const convert =
    from === undefined || unit === undefined ? (value: number) => value : unitConverter(from, unit);
  if (!convert)
    return {
      ok: false,
      message: `the readings are in ${from}, which cannot be converted to ${unit}, the unit of the test method and its tolerance`,
    };
  const cells = blankCells(rows, columns);
  const readings = rows.map(([part, operator, reading]) => {
    const number = readNumber(reading?.text ?? '');
    if (reading && number.kind !== 'number' && number.kind !== 'blank')
      cells.push({
        cell: reading,
        message: `row ${reading.line}, column "reading": ${number.kind === 'wrong' ? number.reason : `"${reading.text}" is beyond the range of the instrument`}`,
        hint: number.kind === 'wrong' ? number.hint : 'A gauge study needs the reading itself.',
      });
    return {
      part: part?.text ?? '',
      operator: operator?.text ?? '',
      value: number.kind === 'number' ? convert(number.value) : Number.NaN,
    };
  });
  if (cells.length > 0) return { ok: false, message: 'some readings of the study cannot be read', cells };
  const result = gaugeStudy(readings, { tolerance: study.tolerance });
  const limits = {
    characteristic: 'repeatability and reproducibility, share of the tolerance',
    unit: '%',
    upper: study.accept_percent ?? 30,
  };
  if (!result.ok)
    return {
      ok: true,
      characteristic: {
        limits,
        verdict: 'undecided',
        reason: result.reason,
        sampleSize: rows.length,
        values: [],
        assumptions: [],
        readings: [],
      },
    };
  const { components, distinctCategories, parts, operators, repeats } = result.value;
  const share = components.gauge.percentTolerance ?? Number.NaN;
  const value = (key: string, label: string, number: number, unit: string, decimals: number): NamedValue => ({
    key,
    label,
    value: number,
    unit,
    decimals,
  });
  return {
    ok: true,
    characteristic: {
      limits,
      verdict: share <= limits.upper ? 'pass' : 'fail',
      reason:
        `repeatability and reproducibility take ${fixed(share, 1)} % of the tolerance of ${study.tolerance} ${testMethod.fields.unit ?? ''}, accepted up to ${limits.upper} %`.replace(
          '  ',
          ' ',
        ),
      sampleSize: rows.length,
      readings: [],
      values: [
        value('percent_tolerance', 'share of the tolerance', share, '%', 1),
        value(
          'percent_study_variation',
          'share of the study variation',
          components.gauge.percentStudyVariation,
          '%',
          1,
        ),
        ...(distinctCategories === undefined
          ? []
          : [value('distinct_categories', 'distinct categories', distinctCategories, '1', 0)]),
      ],
      assumptions: [
        {
          name: 'design of the study',
          outcome: 'met',
          detail: `${parts} parts, ${operators} operators, ${repeats} repeats, balanced`,
        },
      ],
    },
  };
};

export const crossedGaugeStudy: Study = {
  name: 'crossed-gauge-study',
  title: 'Crossed gauge study',
  basis: 'two-way analysis of variance; AIAG Measurement Systems Analysis, 4th ed. (from memory)',
  explain:
    'Parts, operators and repeats in a balanced design; the variance components of repeatability and reproducibility as a share of the tolerance (six standard deviations). The interaction is pooled into repeatability where its p value is above 0.25. Up to 10 % is good, 10 to 30 % conditional (common practice, no source).\n\nColumns: `part`, `operator`, `reading`.',
  columns,
  evaluate,
};
