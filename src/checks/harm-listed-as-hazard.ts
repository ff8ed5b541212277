import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';
import harmWords from './harm-words.json' with { type: 'json' };

const plain = (text: string): string =>
  text
    .toLowerCase()
    .replace(/[.,;:!?]+/g, ' ')
    .replace(/\s+/g, ' ')
    .trim();

/** Common words for harms. No source: collected from practice. */
const harms = new Set(harmWords);

export const harmListedAsHazard = defineCheck({
  code: 'harm-listed-as-hazard',
  level: 'warning',
  title: 'A harm stands where the hazard should',
  basis: 'ISO 14971:2019 3 (from memory); common practice, no source, for the list of words',
  explain:
    'A hazard is what harm can come from: micro-organisms, a sharp edge, stored force. A harm is the injury: infection, a cut. Here the field `hazard` holds a word for an injury, or the same words as `harm`.\n\nWith the harm in place of its source, the sequence of events has no beginning, and the measures that would remove the source do not come to mind. Inspectors name this confusion often.\n\nAsk what the harm comes from and write that as the hazard.',
  examines: 'risks',
  subjects: ({ graph }) => graph.recordsOf('risk').filter((risk) => risk.status !== 'retired'),
  judge: (risk) => {
    const hazard = plain(risk.fields.hazard);
    const sameAsHarm = hazard === plain(risk.fields.harm);
    if (!sameAsHarm && !harms.has(hazard)) return [];
    return [
      {
        place: placeOf(risk, 'hazard'),
        message: `${risk.id} has the hazard "${risk.fields.hazard}", which is ${sameAsHarm ? 'its harm' : 'a harm'}`,
        hint: 'Name the source that the harm comes from.',
        records: [risk.id],
        ...(sameAsHarm ? { related: [{ place: placeOf(risk, 'harm'), message: 'the harm' }] } : {}),
      },
    ];
  },
});
