import type { TechnicalRecord } from '../records/record.ts';
import { recordTexts } from '../records/record-texts.ts';
import { type CheckContext, type Draft, defineCheck } from './check.ts';

/** The name or the abbreviation of the product of three ranks, or a rank of detection. */
const score =
  /(?<![\p{L}\p{N}])(?:RPN|risk[ -]priority[ -](?:number|index)s?|risk[ -]scores?|detection[ -](?:rank|rating|score)s?)(?![\p{L}\p{N}])/giu;

const judged = ({ graph }: CheckContext): readonly TechnicalRecord[] =>
  [
    ...graph.recordsOf('risk'),
    ...graph.recordsOf('risk-control'),
    ...graph.recordsOf('failure-modes'),
    ...graph.recordsOf('benefit-risk'),
    ...graph.recordsOf('risk-review'),
    ...graph.recordsOf('risk-plan'),
  ].filter((record) => record.status !== 'retired');

/** "Neither by adding up classes nor by a score" says that none is used. */
const isDenied = (text: string, offset: number): boolean => {
  const start = Math.max(text.lastIndexOf('.', offset), text.lastIndexOf('\n\n', offset), offset - 200) + 1;
  return /\b(?:no|not|neither|nor|never|without)\b/i.test(text.slice(start, offset));
};

export const riskScoreUsed = defineCheck({
  code: 'risk-score-used',
  level: 'warning',
  title: 'A score stands in the risk file',
  basis:
    'ISO 14971:2019 5.5 (from memory: risk is estimated from the probability and the severity of harm); common practice, no source, for the judgement of scores',
  explain:
    'A text speaks of a risk priority number, a risk score or a rank of detection. Such a number is a product of ranks: the same value stands for a rare death and a frequent scratch, and a failure that is well detected in production is no smaller for the patient who meets it.\n\nRisks of this file are judged by the severity of the harm and its probability, against the criteria of the risk management plan. A table of failure modes may help to find risks; it does not accept them.\n\nSay what the number stood for: how often, and how grave. A sentence that says that no score is used is no finding.',
  examines: 'records of the risk file',
  subjects: judged,
  judge: (record) =>
    recordTexts(record).flatMap((text): readonly Draft[] =>
      [...text.text.matchAll(score)]
        .filter((match) => !isDenied(text.text, match.index))
        .slice(0, 1)
        .map((match) => ({
          place: text.placeAt(match.index, match[0].length),
          message: `${record.id} speaks of "${match[0].replace(/\s+/g, ' ')}"`,
          hint: 'Say how grave the harm is and how probable; no product of ranks accepts a risk.',
          records: [record.id],
        })),
    ),
});
