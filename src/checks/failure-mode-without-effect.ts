import { placeOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

export const failureModeWithoutEffect = defineCheck({
  code: 'failure-mode-without-effect',
  level: 'error',
  title: 'A failure mode leads to no risk, without a reason',
  basis:
    'Regulation (EU) 2017/745 Annex I 3(b) (known and foreseeable hazards); ISO 14971:2019 5.4 (from memory)',
  explain:
    'An entry of a failure mode table names neither a risk that its effect leads to nor why no harm can follow, or it names both, or it says of no item what fails. A table of failures that feeds no risk is work that ends in a drawer.\n\nName the risk under `risks`, or give the reason under `no_harm`. No score is asked for: severity and probability of harm are estimated in the risk.',
  examines: 'failure modes',
  subjects: ({ graph }) =>
    graph
      .recordsOf('failure-modes')
      .filter((record) => record.status !== 'retired')
      .flatMap((record) => record.fields.modes.map((mode, index) => ({ record, mode, index }))),
  judge: ({ record, mode, index }, { graph }): readonly Draft[] => {
    const risks = (mode.risks ?? []).filter((id) => graph.recordOf('risk', id)?.status !== 'retired');
    const place = placeOf(record, 'modes', index, 'failure_mode');
    const named = `${record.id}: the failure mode "${mode.failure_mode}"`;
    const draft = (message: string, hint: string): Draft => ({ place, message, hint, records: [record.id] });
    return [
      ...(mode.output === undefined && mode.item === undefined
        ? [
            draft(
              `${named} is of no item`,
              'Name the design output under "output", or the item under "item".',
            ),
          ]
        : []),
      ...(risks.length === 0 && mode.no_harm === undefined
        ? [
            draft(
              `${named} leads to no risk${(mode.risks ?? []).length > 0 ? ' that is not retired' : ''}, and nothing says why no harm can follow`,
              'Name the risk under "risks", or give the reason under "no_harm".',
            ),
          ]
        : []),
      ...(risks.length > 0 && mode.no_harm !== undefined
        ? [
            draft(
              `${named} names ${risks.join(', ')} and says that no harm can follow`,
              'Keep one of the two.',
            ),
          ]
        : []),
    ];
  },
});
