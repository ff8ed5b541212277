import { allTargetsRetired } from '../graph/link-targets.ts';
import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const outputWithoutInput = defineCheck({
  code: 'output-without-input',
  level: 'error',
  title: 'A design output satisfies no design input',
  basis: 'ISO 13485:2016 7.3.2 and 7.3.4',
  explain:
    'The output answers no design input, or only inputs that are retired. Something is drawn, bought and built that no requirement asks for, so no test covers it and no risk has been weighed against it.\n\nName the inputs under `satisfies`. If none fits, either a requirement is missing and has to be written, or the output is not needed and can be retired.',
  examines: 'design outputs',
  subjects: ({ graph }) => graph.recordsOf('design-output').filter((output) => output.status !== 'retired'),
  judge: (output, { graph }) => {
    const { satisfies } = output.fields;
    if (satisfies.length > 0 && !allTargetsRetired(graph, output, 'satisfies')) return [];
    return [
      {
        place: placeOf(output, 'satisfies'),
        message:
          satisfies.length === 0
            ? `${output.id} "${output.title}" satisfies no design input`
            : `${output.id} "${output.title}" satisfies only retired design inputs: ${satisfies.join(', ')}`,
        hint: 'Name the design inputs that it answers, or retire the output.',
        records: [output.id],
        related: satisfies.flatMap((id) => {
          const input = graph.record(id);
          return input ? [{ place: placeOf(input, 'status'), message: `${id} is retired` }] : [];
        }),
      },
    ];
  },
});
