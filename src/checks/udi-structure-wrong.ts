import { readElementString } from '../records/gs1-element-string.ts';
import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const udiStructureWrong = defineCheck({
  code: 'udi-structure-wrong',
  level: 'error',
  title: 'A unique device identifier does not have the form of a GS1 element string',
  basis:
    'GS1 General Specifications (element strings: lengths, character set 82, pairings), as restated in the GS1 Barcode Syntax Dictionary; Regulation (EU) 2017/745 Annex I 23.2(h)',
  explain:
    'The `udi` of a label is read as a GS1 element string, with application identifiers in parentheses or as a scanner hands it over. A part of it is too long or too short, holds a character that is not allowed, is unknown, stands twice, or stands without the device identifier (01) that it belongs to.\n\nAn identifier of a wrong form is not read by scanners, or is read as something else: where the separator after a lot is missing, the next element becomes a part of the lot. A device that cannot be traced cannot be recalled.\n\nCorrect the identifier here, on the artwork and in the data of the printer. Check digits and dates are judged by gs1-check-digit-wrong, the agreement with the printed text by udi-differs-from-label.',
  examines: 'unique device identifiers',
  subjects: ({ graph }) =>
    graph
      .recordsOf('design-output')
      .filter((output) => output.status !== 'retired' && output.fields.udi !== undefined),
  judge: (output) => {
    const { elements, faults } = readElementString(output.fields.udi ?? '');
    const noDevice =
      elements.length > 0 && faults.length === 0 && !elements.some(({ application }) => application === '01');
    return [
      ...faults.map(({ says }) => ({
        place: placeOf(output, 'udi'),
        message: `${output.id}: the UDI ${says}`,
        hint: 'Correct the identifier here and wherever it is printed.',
        records: [output.id],
      })),
      ...(noDevice
        ? [
            {
              place: placeOf(output, 'udi'),
              message: `${output.id}: the UDI has no device identifier (01)`,
              hint: 'Put the GTIN of the packaging level first.',
              records: [output.id],
            },
          ]
        : []),
    ];
  },
});
