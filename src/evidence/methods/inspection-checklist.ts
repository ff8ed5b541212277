import type { CharacteristicEvidence } from '../result.ts';
import type { EvidenceMethod, MethodInput } from './method.ts';

const evaluate = ({ limits, readings }: MethodInput): CharacteristicEvidence => {
  const items = readings.list;
  const missing = items.filter((item) => item.word === 'fail');
  const idle = items.filter((item) => item.word === 'not applicable');
  const unread = items.filter((item) => item.word === undefined);
  const base = {
    limits,
    sampleSize: items.length,
    readings: [],
    assumptions: [],
    values: [
      { key: 'n', label: 'items', value: items.length, unit: '1', decimals: 0 },
      { key: 'failures', label: 'items not met', value: missing.length, unit: '1', decimals: 0 },
      { key: 'not_applicable', label: 'items not applicable', value: idle.length, unit: '1', decimals: 0 },
    ],
  };
  if (items.length === idle.length || unread.length > 0)
    return {
      ...base,
      verdict: 'undecided',
      reason:
        unread.length > 0
          ? `${unread.length} items have an answer that is neither yes, no nor not applicable`
          : 'no item was inspected',
      remedy: 'Answer each item with yes, no or not applicable.',
    };
  if (missing.length > 0)
    return {
      ...base,
      verdict: 'fail',
      reason: `${missing.length} of ${items.length} items are not met: ${missing
        .slice(0, 5)
        .map((item) => item.unit)
        .join(', ')}`,
    };
  return {
    ...base,
    verdict: 'pass',
    reason: `all ${items.length - idle.length} applicable items are met${idle.length > 0 ? `, ${idle.length} do not apply` : ''}`,
  };
};

export const inspectionChecklistMethod: EvidenceMethod = {
  name: 'inspection-checklist',
  title: 'Inspection checklist',
  basis: 'common practice, no source',
  explain:
    'Each row is an item with the answer yes, no or not applicable. The verdict is `pass` where every applicable item is met. It makes no statement about other units: it is meant for documents, artwork and declarations, which exist once.',
  needs: [],
  statesReliability: false,
  evaluate,
};
