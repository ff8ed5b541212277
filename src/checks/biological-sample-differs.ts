import { evaluations } from '../evidence/biological-contact.ts';
import { conditioningPlans } from '../evidence/conditioning-tree.ts';
import { placeOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

const plain = (text: string): string => text.toLowerCase().replace(/\s+/g, ' ').trim();

export const biologicalSampleDiffers = defineCheck({
  code: 'biological-sample-differs',
  level: 'error',
  title: 'A biological test was done on something else than the final, sterilised device',
  basis:
    'Regulation (EU) 2017/745 Annex I 10.1 and Annex II 6.1(b); ISO 10993-1 and ISO 10993-12 (samples from the final product, from memory)',
  explain:
    'The sample of a test was a part or a material instead of the final device, was not sterilised, or is of another grade than the material in the file, and no argument says why the result holds for the device. Or its lot is in no conditioning plan, which is a warning. Or a test names no sample.\n\nMould release, colourants, sterilisation residues and heat change what comes out of a material. A result on granules of another grade says little about the device that is sold.\n\nTest the final, sterilised device, or have the evaluator write the argument.',
  examines: 'endpoints addressed by a test',
  subjects: ({ graph }) =>
    evaluations(graph).flatMap((evaluation) =>
      evaluation.fields.endpoints.flatMap((endpoint, index) =>
        endpoint.addressed_by === 'test' ? [{ evaluation, endpoint, index }] : [],
      ),
    ),
  judge: ({ evaluation, endpoint, index }, { graph }): readonly Draft[] => {
    const { sample } = endpoint;
    const fault = (
      path: readonly (string | number)[],
      message: string,
      records: readonly string[] = [],
    ): Draft => ({
      place: placeOf(evaluation, 'endpoints', index, ...path),
      message: `${evaluation.id}: the test of "${endpoint.endpoint}" ${message}`,
      hint: 'Test the final, sterilised device, or write under "argument" why the sample stands for it.',
      records: [evaluation.id, ...records],
    });
    if (!sample) return [fault(['endpoint'], 'does not say what was tested')];
    if (sample.argument !== undefined) return [];
    const materials = evaluation.fields.groups
      .filter(({ group }) => endpoint.groups.includes(group))
      .flatMap(({ materials: ids }) => ids)
      .flatMap((id) => graph.recordOf('material', id) ?? []);
    const { grade } = sample;
    const others =
      grade === undefined
        ? []
        : materials.filter(
            ({ fields }) =>
              fields.supplier_grade !== undefined && plain(fields.supplier_grade) !== plain(grade),
          );
    const plans = conditioningPlans(graph);
    const { lot } = sample;
    const isKnownLot =
      lot === undefined ||
      plans.length === 0 ||
      plans.some(({ fields }) => fields.lots.some((each) => each.lot === lot));
    return [
      ...(isKnownLot
        ? []
        : [
            {
              ...fault(['sample', 'lot'], `names the lot ${lot}, which no conditioning plan has`),
              level: 'warning' as const,
              hint: 'Correct the lot, or add it to the plan, so that it is known what its units went through.',
            },
          ]),
      ...(sample.of === 'final device'
        ? []
        : [fault(['sample', 'of'], `was done on a ${sample.of}, and no argument is given`)]),
      ...(sample.sterilised
        ? []
        : [
            fault(
              ['sample', 'sterilised'],
              'was done on a sample that was not sterilised, and no argument is given',
            ),
          ]),
      ...others.map((material) => ({
        ...fault(
          ['sample', 'grade'],
          `was done on "${grade}", and ${material.id} is of the grade "${material.fields.supplier_grade}"`,
          [material.id],
        ),
        related: [{ place: placeOf(material, 'supplier_grade'), message: `the grade of ${material.id}` }],
      })),
    ];
  },
});
