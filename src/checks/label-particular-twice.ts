import { placeOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

const plain = (text: string): string => text.toLowerCase().replace(/\s+/g, ' ').trim();

export const labelParticularTwice = defineCheck({
  code: 'label-particular-twice',
  level: 'warning',
  title: 'A label or instructions list the same particular twice',
  basis: 'common practice, no source',
  explain:
    'Two entries under `particulars` have the same clause and the same words, so one of them was copied and not changed.\n\nThe list is what an inspection of the artwork goes by. Often the second entry was meant for another clause, which is then missing.\n\nCorrect the clause of one of them, or take it out. Several entries with different words for one clause are fine.',
  examines: 'particulars of labels and instructions',
  subjects: ({ graph }) =>
    graph
      .recordsOf('design-output')
      .filter((output) => output.status !== 'retired')
      .flatMap((output) =>
        (output.fields.particulars ?? []).map((particular, index) => ({ output, particular, index })),
      ),
  judge: ({ output, particular, index }): readonly Draft[] => {
    const first = (output.fields.particulars ?? []).findIndex(
      ({ clause, content }) => clause === particular.clause && plain(content) === plain(particular.content),
    );
    return first === index
      ? []
      : [
          {
            place: placeOf(output, 'particulars', index, 'clause'),
            message: `${output.id} lists the particular ${particular.clause} twice with the same words`,
            hint: 'Correct the clause of one of the two, or take it out.',
            records: [output.id],
            related: [
              { place: placeOf(output, 'particulars', first, 'clause'), message: 'first listed here' },
            ],
            data: { clause: particular.clause },
          },
        ];
  },
});
