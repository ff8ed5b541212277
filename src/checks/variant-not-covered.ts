import { nearestName } from '../records/nearest-name.ts';
import { placeOf, type RecordOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

type Protocol = RecordOf<'verification-protocol'> | RecordOf<'validation-protocol'>;

const unknownCodes = ({ id, fields, ...protocol }: Protocol, codes: readonly string[]): readonly Draft[] =>
  (fields.variants ?? []).flatMap((variant, index): readonly Draft[] => {
    if (codes.includes(variant)) return [];
    const near = nearestName(variant, codes);
    return [
      {
        place: protocol.yaml.place(['variants', index]),
        message: `${id} tests the variant "${variant}", which plinth.yaml does not list`,
        hint: near ? `Did you mean "${near}"?` : `Use one of: ${codes.join(', ')}.`,
        records: [id],
      },
    ];
  });

export const variantNotCovered = defineCheck({
  code: 'variant-not-covered',
  level: 'warning',
  title: 'A protocol does not say which variants it tests, or why these stand for the others',
  basis: 'Regulation (EU) 2017/745 Annex II 1.1 (list of variants) and 6.1(b) (test design)',
  explain:
    'plinth.yaml lists variants of the device. The protocol names none, names one that is not listed, or names some of them without the reason for which they stand for the rest.\n\nA result speaks for the units that were tested. Which variant is the worst case depends on the characteristic: the longest tip bends most, the smallest bore jams first. "Variants not covered" is a usual question of reviewers.\n\nAdd `variants` with the codes that are tested, and `variants_reason` where not all are. Whether the reason holds is for people to judge.',
  examines: 'protocols of files with variants',
  subjects: ({ graph, project }): readonly Protocol[] =>
    (project.fields.device.variants ?? []).length === 0
      ? []
      : [...graph.recordsOf('verification-protocol'), ...graph.recordsOf('validation-protocol')].filter(
          (protocol) => protocol.status !== 'retired',
        ),
  judge: (protocol, { project }) => {
    const codes = (project.fields.device.variants ?? []).map(({ code }) => code);
    const { variants, variants_reason: reason } = protocol.fields;
    if (!variants)
      return [
        {
          place: placeOf(protocol, 'id'),
          message: `${protocol.id} does not say which of the variants ${codes.join(', ')} it tests`,
          hint: 'Add "variants" with the codes, and "variants_reason" where not all are tested.',
          records: [protocol.id],
        },
      ];
    const strange = unknownCodes(protocol, codes);
    if (strange.length > 0) return strange;
    const left = codes.filter((code) => !variants.includes(code));
    return left.length === 0 || reason !== undefined
      ? []
      : [
          {
            place: placeOf(protocol, 'variants'),
            message: `${protocol.id} tests ${variants.join(', ')} and leaves out ${left.join(', ')} without a reason`,
            hint: 'Add "variants_reason": what makes the tested ones the worst case.',
            records: [protocol.id],
            data: { tested: variants, left },
          },
        ];
  },
});
