import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const informationControlNotInStudy = defineCheck({
  code: 'information-control-not-in-study',
  level: 'warning',
  title: 'No study shows that users act on a warning',
  basis: 'Regulation (EU) 2017/745 Annex I 4(c) and 5; ISO 14971:2019 7.2 (from memory)',
  explain:
    'The control is information for safety: a warning, an instruction, a symbol. That it is printed shows that it is in place, not that it works. Only a study in which users read it and act on it shows that.\n\nName the protocol of a study with users under `shown_by`. Where the information cannot be tried, give up the claim that it lowers the risk.',
  examines: 'controls by information for safety',
  subjects: ({ graph }) =>
    graph
      .recordsOf('risk-control')
      .filter(
        (control) => control.status !== 'retired' && control.fields.option === 'information for safety',
      ),
  judge: (control, { graph }) =>
    graph
      .targets(control.id, 'shown_by', 'validation-protocol')
      .some((protocol) => protocol.status !== 'retired')
      ? []
      : [
          {
            place: placeOf(control, 'shown_by'),
            message: `${control.id} "${control.title}" is information for safety, and no study with users shows that it works`,
            hint: 'Name the protocol of a study with users under "shown_by".',
            records: [control.id],
          },
        ],
});
