import type { Cell } from '../../records/table.ts';
import { type AttributeAgreement, attributeAgreement } from '../../statistics/attribute-agreement.ts';
import type { Computed } from '../../statistics/data-problem.ts';
import { fixed, percent } from '../number-text.ts';
import type { EvidenceTable, NamedValue } from '../result.ts';
import { confidenceOf } from './gauge-verdict.ts';
import { blankCells, columnsOf, type Study, type StudyInput, type StudyOutcome } from './study.ts';

const columns = ['part', 'reference', 'inspector', 'call'];

const rejectWords = ['fail', 'bad', 'reject'];

/**
 * Share of the calls of bad parts that an inspector may pass (AIAG Measurement Systems Analysis, 4th ed., from memory:
 * above 5 % not acceptable).
 */
const mostMissed = 0.05;

/** Fewer parts, or a single trial, show nothing of an inspection (common practice, no source: 50 parts are usual). */
const fewestParts = 10;

const evaluate = (input: StudyInput): StudyOutcome => {
  const { testMethod, table } = input;
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
    { standard, rejectRating, confidence: confidenceOf(input) },
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
        remedy: 'Let every inspector judge every part equally often, and enter all calls.',
        sampleSize: rows.length,
        values: [],
        assumptions: [],
        readings: [],
      },
    };
  const each = result.value.inspectors.map(({ inspector, againstStandard }) => ({
    name: inspector,
    share: (againstStandard?.effectiveness.share ?? 0) * 100,
    bound: (againstStandard?.effectiveness.lower ?? 0) * 100,
    misses: againstStandard?.misses,
    falseAlarms: againstStandard?.falseAlarms,
  }));
  const smallest = Math.min(...each.map((inspector) => inspector.share));
  const bound = Math.min(...each.map((inspector) => inspector.bound));
  const misses = each.reduce((sum, inspector) => sum + (inspector.misses?.count ?? 0), 0);
  const falseAlarms = each.reduce((sum, inspector) => sum + (inspector.falseAlarms?.count ?? 0), 0);
  // Few bad parts among many good ones: who calls everything good is right nearly always, and finds nothing.
  const blind = each.flatMap(({ name, misses: missed, falseAlarms: refused }) => [
    ...(missed && missed.of > 0 && missed.count === missed.of ? [`${name} passed every bad part`] : []),
    ...(refused && refused.of > 0 && refused.count === refused.of ? [`${name} refused every good part`] : []),
  ]);
  // Misses and false alarms have limits of their own: effectiveness alone hides who misses the one bad part of many.
  const missing = each.flatMap(({ name, misses: missed }) =>
    missed && missed.of > 0 && missed.count < missed.of && missed.count / missed.of > mostMissed
      ? [
          `${name} passed ${missed.count} of ${missed.of} calls of bad parts, more than ${percent(mostMissed)}`,
        ]
      : [],
  );
  const isTooSmall = result.value.units < fewestParts || result.value.trials < 2;
  const isOneSided = each.some(({ misses: missed, falseAlarms: refused }) => !missed?.of || !refused?.of);
  const onBound = study.decide_on === 'confidence bound';
  const boundLabel = `lower end of the two-sided ${percent(confidenceOf(input))} interval`;
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
      ...(isTooSmall && !isOneSided && blind.length + missing.length === 0
        ? { remedy: `Let every inspector judge at least ${fewestParts} parts at least twice.` }
        : {}),
      ...(isOneSided && blind.length === 0
        ? {
            remedy: 'Let the inspectors judge good and bad parts, known beforehand, and name the bad rating.',
          }
        : {}),
      verdict:
        blind.length > 0 || missing.length > 0
          ? 'fail'
          : isOneSided || isTooSmall
            ? 'undecided'
            : (onBound ? bound : smallest) >= limits.lower
              ? 'pass'
              : 'fail',
      reason: `${blind.length + missing.length > 0 ? `${[...blind, ...missing].join('; ')}; ` : isTooSmall && !isOneSided ? `${result.value.units} parts in ${result.value.trials} ${result.value.trials === 1 ? 'trial' : 'trials'} are too few to tell; ` : isOneSided ? 'the parts are not both good and bad; ' : ''}smallest effectiveness ${fixed(smallest, 1)} %${onBound ? `, ${boundLabel} ${fixed(bound, 1)} %` : ''}, accepted from ${limits.lower} %; ${misses} bad parts passed in all trials together`,
      sampleSize: rows.length,
      readings: [],
      values: [
        value('smallest_effectiveness', 'smallest effectiveness', smallest, '%', 1),
        value('smallest_effectiveness_lower', `smallest effectiveness, ${boundLabel}`, bound, '%', 1),
        value('misses', 'bad parts passed', misses, '1', 0),
        value('false_alarms', 'good parts refused', falseAlarms, '1', 0),
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
      tables: [agreementTable(result.value, confidenceOf(input))],
    },
  };
};

const agreementTable = (
  { inspectors, allAgree, allCorrect, betweenKappa }: AttributeAgreement,
  confidence: number,
): EvidenceTable => {
  const limits = `${percent(confidence)} limits`;
  type Share = (typeof inspectors)[number]['consistent'];
  const count = (share: Share | undefined): string => (share ? `${share.count} of ${share.of}` : '–');
  const between = (share: Share | undefined): string =>
    share ? `${fixed(share.lower * 100, 1)} to ${fixed(share.upper * 100, 1)} %` : '–';
  const kappa = (found: Computed<number> | undefined): string =>
    found === undefined ? '–' : found.ok ? fixed(found.value, 3) : 'none';
  return {
    title: 'Agreement of the inspectors with themselves, with the reference and with each other',
    columns: [
      'Inspector',
      'Same call in all trials',
      'Kappa of own trials',
      'Right in all trials',
      limits,
      'Kappa with the reference',
      'Bad parts passed',
      'Good parts refused',
    ],
    rows: [
      ...inspectors.map(({ inspector, consistent, withinKappa, againstStandard }) => [
        inspector,
        count(consistent),
        kappa(withinKappa),
        count(againstStandard?.effectiveness),
        between(againstStandard?.effectiveness),
        kappa(againstStandard?.kappa),
        count(againstStandard?.misses),
        count(againstStandard?.falseAlarms),
      ]),
      [
        'all together',
        count(allAgree),
        kappa(betweenKappa),
        count(allCorrect),
        between(allCorrect),
        '–',
        '–',
        '–',
      ],
    ],
  };
};

export const attributeAgreementStudy: Study = {
  name: 'attribute-agreement',
  title: 'Attribute agreement study',
  basis:
    'Cohen, Educational and Psychological Measurement 20 (1960); Fleiss, Psychological Bulletin 76 (1971); limits of Clopper and Pearson (1934); effectiveness: common practice, no source',
  explain: `Inspectors judge parts whose true state is known, several times each. It shows whether judging by eye or by a go/no-go gauge tells good parts from bad ones.

Effectiveness is the share of parts that an inspector calls right in every trial, with the exact limits of Clopper and Pearson; the smallest of the inspectors decides, by its estimate, unless \`decide_on\` says \`confidence bound\`. Bad parts that were passed and good parts that were refused are counted apart; an inspector who passes more than 5 % of the calls of bad parts fails whatever the effectiveness (AIAG, from memory). Fewer than 10 parts or a single trial leave the verdict \`undecided\`. Kappa tells how far the calls agree beyond chance: Fleiss between the trials of one inspector and between all calls, Cohen between an inspector and the reference; 1 is full agreement, 0 is chance.

Take parts near the limit as well as clear ones, about half of them bad, in random order, without the inspector knowing the earlier call (common practice, no source). Every inspector judges every part equally often; where a call is missing the verdict is \`undecided\`: enter it. The words of \`call\` are those of \`reference\`; bad is called fail, bad or reject.

Caution: a few dozen parts leave wide limits: 20 of 20 right shows no more than 83 % with 95 % confidence.

Columns: \`part\`, \`reference\`, \`inspector\`, \`call\`. Fields: \`accept_percent\`, \`confidence\`, \`decide_on\`.`,
  columns,
  evaluate,
};
