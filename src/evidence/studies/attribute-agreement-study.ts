import type { Cell } from '../../records/table.ts';
import { attributeAgreement } from '../../statistics/attribute-agreement.ts';
import { fixed } from '../number-text.ts';
import type { NamedValue } from '../result.ts';
import { blankCells, columnsOf, type Study, type StudyInput, type StudyOutcome } from './study.ts';

const columns = ['part', 'reference', 'inspector', 'call'];

const rejectWords = ['fail', 'bad', 'reject'];

const evaluate = ({ testMethod, table }: StudyInput): StudyOutcome => {
  const study = testMethod.fields.study;
  const rows = columnsOf(table, columns);
  if (!rows || !study)
    return { ok: false, message: `${table.file} needs the columns part, reference, inspector and call` };
  const cells = blankCells(rows, columns);
  const word = (cell: Cell | undefined): string => cell?.text.toLowerCase() ?? '';
  const standard = new Map<string, string>();
  for (const [part, reference] of rows) {
    const known = standard.get(part?.text ?? '');
    if (known === undefined) standard.set(part?.text ?? '', word(reference));
    else if (reference && known !== word(reference))
      cells.push({
        cell: reference,
        message: `row ${reference.line}, column "reference": the part ${part?.text} is "${known}" elsewhere`,
        hint: 'A part has one true state in all rows.',
      });
  }
  const rejectRating = rejectWords.find((each) => [...standard.values()].includes(each));
  const unknown = rows.flatMap(([, , , call]) =>
    call && call.text !== '' && ![...standard.values()].includes(word(call)) ? [call] : [],
  );
  for (const call of unknown)
    cells.push({
      cell: call,
      message: `row ${call.line}, column "call": "${call.text}" is no state that a part has`,
      hint: `Use the words of the column "reference": ${[...new Set(standard.values())].join(', ')}.`,
    });
  if (cells.length > 0) return { ok: false, message: 'some cells of the study cannot be used', cells };
  if (!rejectRating)
    return {
      ok: false,
      message: `no part is bad by its reference (${rejectWords.join(', ')}), so nobody can tell whether bad parts are found`,
    };
  const result = attributeAgreement(
    rows.map(([unit, , inspector, rating]) => ({
      unit: unit?.text ?? '',
      inspector: inspector?.text ?? '',
      rating: word(rating),
    })),
    { standard, rejectRating },
  );
  const limits = {
    characteristic: 'effectiveness of each inspector',
    unit: '%',
    lower: study.accept_percent ?? 90,
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
  const each = result.value.inspectors.map((inspector) => ({
    name: inspector.inspector,
    share: (inspector.againstStandard?.effectiveness.share ?? 0) * 100,
    misses: inspector.againstStandard?.misses,
  }));
  const smallest = Math.min(...each.map((inspector) => inspector.share));
  const misses = each.reduce((sum, inspector) => sum + (inspector.misses?.count ?? 0), 0);
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
      verdict: smallest >= limits.lower ? 'pass' : 'fail',
      reason: `smallest effectiveness ${fixed(smallest, 1)} %, accepted from ${limits.lower} %; ${misses} bad parts passed in all trials together`,
      sampleSize: rows.length,
      readings: [],
      values: [
        value('smallest_effectiveness', 'smallest effectiveness', smallest, '%', 1),
        value('misses', 'bad parts passed', misses, '1', 0),
        ...(result.value.betweenKappa.ok
          ? [value('kappa', 'Fleiss kappa between inspectors', result.value.betweenKappa.value, '1', 3)]
          : []),
      ],
      assumptions: [
        {
          name: 'design of the study',
          outcome: 'met',
          detail: `${result.value.units} parts, ${each.length} inspectors, ${result.value.trials} trials`,
        },
      ],
    },
  };
};

export const attributeAgreementStudy: Study = {
  name: 'attribute-agreement',
  title: 'Attribute agreement study',
  basis: 'Fleiss, Psychological Bulletin 76 (1971); effectiveness: common practice, no source',
  explain:
    'Inspectors judge parts whose true state is known, several times. Effectiveness is the share of parts that an inspector calls right in every trial; bad parts that were passed are counted apart.\n\nColumns: `part`, `reference`, `inspector`, `call`.',
  columns,
  evaluate,
};
