import { countedRisks, rateText } from '../evidence/counted-risks.ts';
import type { FieldSeries } from '../evidence/field-experience.ts';
import { confidenceText } from '../evidence/number-text.ts';
import { placeOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

export const experienceContradictsEstimate = defineCheck({
  code: 'experience-contradicts-estimate',
  level: 'error',
  title: 'Field experience contradicts the estimate of a risk',
  basis: 'Regulation (EU) 2017/745 Annex I 3(e) and Annex III 1; ISO 14971:2019 10 (from memory)',
  explain:
    'Events were counted in the field, and even the lower bound of their rate, with the confidence of the surveillance plan, lies above what the risk claims. Hazardous situations are held against P1; harms are held against the end of the band of P1 times P2. The bound is exact for rare events (Garwood 1936). Records that go on counting the same (device, risk, kind of event, heading) are taken together, so that years which stay silent one by one do not hide what they say together.\n\nThe estimate is then not one that experience allows. Events that nobody reported would make it worse.\n\nEstimate the risk anew with the counts, and see whether it is still acceptable and what further control there is. If the events do not belong to this risk, correct the column that names it, with the reason in the assessment. Where a change has met the risk since, say under `starts_anew` of the first record after it why counts start anew.',
  examines: 'counts of events, each of one risk',
  subjects: countedRisks,
  judge: (
    { outcome, claim, counts, parts, last, confidence, risk, events, uses, lower, estimate }: FieldSeries,
    { project },
  ): readonly Draft[] => {
    if (outcome !== 'contradicted' || claim?.edge === undefined) return [];
    const ids = parts.map(({ record }) => record.id);
    return [
      {
        place: placeOf(last.record, 'data', 'columns', last.counted.index, 'risk'),
        message: `${ids.join(', ')} ${ids.length === 1 ? 'counts' : 'count'} ${events} ${events === 1 ? 'event' : 'events'} in ${uses} uses for ${risk.id}: the rate is at least ${rateText(lower)} with ${confidenceText(confidence)} confidence, but ${counts === 'situation' ? `${claim.words} is claimed ${estimate} control` : `the ${claim.words} ${estimate} control ends at ${rateText(claim.edge)} ${project.fields.risk?.probability.denominator ?? 'per use'}`}`,
        hint: `Estimate ${risk.id} anew, or correct what the column counts.`,
        records: [risk.id, ...ids],
        related: [{ place: placeOf(risk, estimate), message: `the estimate ${estimate} control` }],
        data: { events, uses, lower, edge: claim.edge },
      },
    ];
  },
});
