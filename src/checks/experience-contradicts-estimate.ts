import { type CountedRisk, countedRisks, rateText } from '../evidence/counted-risks.ts';
import { confidenceText } from '../evidence/number-text.ts';
import { placeOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

export const experienceContradictsEstimate = defineCheck({
  code: 'experience-contradicts-estimate',
  level: 'error',
  title: 'Field experience contradicts the estimate of a risk',
  basis: 'Regulation (EU) 2017/745 Annex I 3(e) and Annex III 1; ISO 14971:2019 10 (from memory)',
  explain:
    'Events were counted in the field, and even the lower bound of their rate, with the confidence of the surveillance plan, lies above the band that is claimed for the probability of harm. The bound is exact for rare events (Garwood 1936). Where hazardous situations were counted, the rate is held against the band divided by P2.\n\nThe estimate is then not one that experience allows. Events that nobody reported would make it worse.\n\nEstimate the risk anew with the counts, and see whether it is still acceptable and what further control there is. If the events do not belong to this risk, correct the column that names it, with the reason in the assessment.',
  examines: 'counts of events, each of one risk',
  subjects: countedRisks,
  judge: ({ experience, counted }: CountedRisk): readonly Draft[] => {
    if (counted.outcome !== 'contradicted') return [];
    const { record, confidence } = experience;
    const { risk, events, uses, lower, edge = 0, band = '', estimate, index, counts } = counted;
    return [
      {
        place: placeOf(record, 'data', 'columns', index, 'risk'),
        message: `${record.id} counts ${events} events in ${uses} uses for ${risk.id}: the rate is at least ${rateText(lower)} with ${confidenceText(confidence)} confidence, but the band ${band} ${estimate} control ends at ${rateText(edge)} per use${counts === 'situation' ? ' for the hazardous situation' : ''}`,
        hint: `Estimate ${risk.id} anew, or correct what the column counts.`,
        records: [risk.id, record.id],
        related: [{ place: placeOf(risk, estimate), message: `the estimate ${estimate} control` }],
        data: { events, uses, lower, edge },
      },
    ];
  },
});
