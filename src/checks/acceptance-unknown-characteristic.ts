import { sameCharacteristic } from '../evidence/limit-comparison.ts';
import { nearestName } from '../records/nearest-name.ts';
import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const acceptanceUnknownCharacteristic = defineCheck({
  code: 'acceptance-unknown-characteristic',
  level: 'warning',
  title: 'A protocol accepts a characteristic that none of its design inputs has',
  basis: 'common practice, no source',
  explain:
    'The acceptance criterion names a characteristic that no design input of the protocol limits. Either it is misspelt, and the limit that was meant is not compared with it, or the protocol judges something that nobody has required, so that passing it shows nothing about the device.\n\nSpell the characteristic as the input does, add the input under `verifies`, or add the limit to the input.',
  examines: 'acceptance criteria of verification protocols',
  subjects: ({ graph }) =>
    graph
      .recordsOf('verification-protocol')
      .filter((protocol) => protocol.status !== 'retired')
      .flatMap((protocol) =>
        protocol.fields.acceptance.map(({ characteristic }, index) => ({ protocol, characteristic, index })),
      ),
  judge: ({ protocol, characteristic, index }, { graph }) => {
    const inputs = graph.targets(protocol.id, 'verifies', 'design-input');
    if (inputs.length === 0) return [];
    const known = inputs.flatMap((input) => input.fields.limits.map((limit) => limit.characteristic));
    if (known.some((each) => sameCharacteristic(each, characteristic))) return [];
    const near = nearestName(characteristic, known);
    return [
      {
        place: placeOf(protocol, 'acceptance', index, 'characteristic'),
        message: `${protocol.id} accepts "${characteristic}", which ${inputs.map((input) => input.id).join(', ')} ${inputs.length === 1 ? 'does' : 'do'} not limit`,
        hint: near
          ? `Did you mean "${near}"?`
          : `Use a characteristic of the design inputs: ${known.join(', ')}.`,
        records: [protocol.id],
        related: inputs.map((input) => ({
          place: placeOf(input, 'limits'),
          message: `limits of ${input.id}`,
        })),
        data: { characteristic },
      },
    ];
  },
});
